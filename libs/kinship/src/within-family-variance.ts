import type { Pedigree } from '@linewright/pedigree';

/**
 * Within-family (Mendelian sampling) variance of each individual, in units of the base population's additive variance:
 * D = 1/2 - (F_sire + F_dam) / 4, an unknown parent counting as F = -1. 1 for a founder, 3/4 with one parent known.
 *
 * Source: Henderson CR (1976) Biometrics 32:69-83; Quaas RL (1976) Biometrics 32:949-953.
 * Cost: one pass.
 */
export function withinFamilyVariance(
  pedigree: Pick<Pedigree, 'size' | 'sire' | 'dam'>,
  inbreeding: Float64Array,
): Float64Array {
  const { size, sire, dam } = pedigree;
  const variance = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    const bySire = s < 0 ? -1 : inbreeding[s]!;
    const byDam = d < 0 ? -1 : inbreeding[d]!;
    variance[i] = 0.5 - 0.25 * (bySire + byDam);
  }
  return variance;
}
