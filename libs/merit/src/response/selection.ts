import { normalDensity, normalQuantile } from '../distributions.js';
import { MeritError } from '../merit-error.js';

/**
 * Intensity of selection: by how many standard deviations the mean of the best `share` lies above that of all, for a normal trait in a large
 * stock.
 *
 * Source: Falconer & Mackay (1996), chapter 11. @throws MeritError MERIT_OUT_OF_RANGE.
 * @example selectionIntensity(0.2) // 1.400
 */
export const selectionIntensity = (share: number): number =>
  normalDensity(normalQuantile(1 - share)) / share;

/** Variances behind the mean squares of sires, of dams within sires and of young within dams. */
export interface SibComponents {
  readonly sires: number;
  readonly dams: number;
  readonly within: number;
  readonly phenotypic: number;
  /** 4 V_S / V_P. */
  readonly heritabilityFromSires: number;
}

/**
 * Components of a nested analysis of sibs from its mean squares (Falconer & Mackay 1996, chapter 10): V_W = MS_W, V_D = (MS_D - MS_W) / k,
 * V_S = (MS_S - MS_W - k' V_D) / (d k').
 *
 * @param youngADam k, for dams within sires. @param youngADamOfSires k', for sires. @param damsASire d.
 */
export function sibComponents(
  meanSquares: { readonly sires: number; readonly dams: number; readonly within: number },
  youngADam: number,
  youngADamOfSires: number,
  damsASire: number,
): SibComponents {
  const within = meanSquares.within;
  const dams = (meanSquares.dams - within) / youngADam;
  const sires =
    (meanSquares.sires - within - youngADamOfSires * dams) / (damsASire * youngADamOfSires);
  const phenotypic = sires + dams + within;
  if (!(phenotypic > 0))
    throw new MeritError('MERIT_NO_VARIATION', 'These mean squares leave no variance: check them.');
  return { sires, dams, within, phenotypic, heritabilityFromSires: (4 * sires) / phenotypic };
}
