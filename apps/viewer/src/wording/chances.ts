/** A chance in words that claim no more than is known: never 0 or 100 % unless it is. */
export function chanceText(probability: number): string {
  if (probability >= 1 - 1e-9) return '100 %';
  if (probability <= 1e-9) return '0 %';
  if (probability > 0.9995) return 'over 99.9 %';
  if (probability < 0.0005) return 'under 0.1 %';
  return `${(probability * 100).toFixed(1)} %`;
}

/** "3 of 4" style words for a share of belief. */
export function oddsText(times: number | null): string {
  if (times === null) return 'excluded';
  if (times <= 1.0000001) return 'best';
  return times < 10
    ? `${times.toFixed(1)} times less likely`
    : `${Math.round(times).toLocaleString('en')} times less likely`;
}
