/** A chance in words that claim no more than is known: never 0 or 100 % unless it is. */
export function chanceText(probability: number): string {
  if (probability >= 1 - 1e-9) return '100 %';
  if (probability <= 1e-9) return '0 %';
  if (probability > 0.9995) return 'over 99.9 %';
  if (probability < 0.0005) return 'under 0.1 %';
  return `${(probability * 100).toFixed(1)} %`;
}

/** What a record says, without the tag that a link before it shows already. */
export function withoutTag(text: string, tag: string): string {
  for (const start of [`brood ${tag}: `, `${tag} `]) {
    if (text.startsWith(start)) return text.slice(start.length);
  }
  return text;
}

/** How an explanation stands against the best one. */
export function oddsText(times: number | null): string {
  if (times === null) return 'excluded';
  if (times <= 1.0000001) return 'best';
  return times < 10
    ? `${times.toFixed(1)} times less likely`
    : `${Math.round(times).toLocaleString('en')} times less likely`;
}
