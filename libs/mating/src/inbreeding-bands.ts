/** A band of the brood's F, named by the matings of otherwise unrelated, non-inbred fish that reach its two ends. */
export interface InbreedingBand {
  readonly id: 'none' | 'slight' | 'cousins' | 'half-siblings' | 'full-siblings';
  /** Lower end, included. */
  readonly from: number;
  /** Plain words that complete "the brood's F is ...". */
  readonly text: string;
}

/**
 * Bands of F. The landmarks are exact (first cousins 1/16, half siblings 1/8, full siblings or parent by young 1/4); that
 * a person should read F in bands is a convention. They are guides and no limits: one brother by sister mating from
 * unrelated stock is at 1/4 already, and the 5 to 10 % often quoted for production stock (handbook figure, from memory) is
 * passed by most show lines.
 */
export const INBREEDING_BANDS: readonly InbreedingBand[] = [
  { id: 'none', from: 0, text: 'no relationship on record' },
  { id: 'slight', from: Number.MIN_VALUE, text: 'below that of a first-cousin mating' },
  {
    id: 'cousins',
    from: 0.0625,
    text: 'at least that of a first-cousin mating, below that of a half-sib mating',
  },
  {
    id: 'half-siblings',
    from: 0.125,
    text: 'at least that of a half-sib mating, below that of a full-sib mating',
  },
  { id: 'full-siblings', from: 0.25, text: 'at least that of a full-sib mating' },
];

/** The band that `inbreeding` (0 to 1) falls in. */
export function inbreedingBand(inbreeding: number): InbreedingBand {
  // A sum of powers of two may come out a rounding below a landmark that it equals.
  const value = inbreeding + 1e-12 * (inbreeding > 0 ? 1 : 0);
  const band = INBREEDING_BANDS.findLast(({ from }) => value >= from);
  return band ?? (INBREEDING_BANDS[0] as InbreedingBand);
}
