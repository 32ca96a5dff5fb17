import { completeGenerationEquivalents, type Pedigree } from '@linewright/pedigree';
import { refuseRelatedFounders, type FounderOptions } from '../founder-relationship.js';
import { KinshipError } from '../kinship-error.js';
import { checkGroup } from './founders.js';
import { shareNotAlike } from './share-not-alike.js';

export interface RealisedEffectiveSize {
  /** N_e = 1 / (2 x mean increase); infinite when no fish is inbred, `null` when no fish of the group counts. */
  readonly effectiveSize: number | null;
  /** 2 N_e^2 x sd / sqrt(n): shows how uneven the fish are, not how right the pedigree is. `null` where N_e is not finite. */
  readonly standardError: number | null;
  readonly meanIncrease: number;
  /**
   * Fish counted: those with more than one complete generation equivalent, for the others an increase has no meaning; and not
   * those whose F is so near to 1 in so large an ancestry that the rest cannot be told (see `shareNotAlike`).
   */
  readonly counted: number;
  readonly leftOut: number;
}

/**
 * Effective size realised in the pedigree, from each fish's own increase in inbreeding:
 * dF_i = 1 - (1 - F_i)^(1 / (t_i - 1)), t_i its complete generation equivalents; N_e = 1 / (2 mean dF).
 *
 * Source: Gutiérrez JP, Cervantes I & Goyache F (2009) J Anim Breed Genet 126:327-332; the form of Gutiérrez JP et al. (2008)
 * Genet Sel Evol 40:359-378 has 1 / t_i as its exponent: ask for it with `exponent: 'generations'`. Definitions from memory,
 * confirmed by independent computation.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for an empty group; `KINSHIP_RELATED_FOUNDERS` with founders
 * given as related or inbred: the generations in which that came about are not on record, so that it would pass for a quick rise.
 */
export function realisedEffectiveSize(
  pedigree: Pedigree,
  group: ArrayLike<number>,
  options: FounderOptions & { readonly exponent?: 'generations less one' | 'generations' } = {},
): RealisedEffectiveSize {
  checkGroup(pedigree, group);
  refuseRelatedFounders(
    pedigree,
    options.founders,
    'The realised effective size',
    'the generations in which the founders became related are not on record. Leave the founders’ coancestries out.',
  );
  const notAlike = shareNotAlike(pedigree, group);
  const equivalents = completeGenerationEquivalents(pedigree, { hiddenCount: true });
  const lessOne = options.exponent === 'generations' ? 0 : 1;
  let counted = 0;
  let sum = 0;
  let squares = 0;
  for (let k = 0; k < group.length; k++) {
    const t = equivalents[group[k]!]!;
    if (t <= 1 || Number.isNaN(notAlike[k])) continue;
    const increase = 1 - notAlike[k]! ** (1 / (t - lessOne));
    counted++;
    sum += increase;
    squares += increase * increase;
  }
  const meanIncrease = counted === 0 ? 0 : sum / counted;
  const effectiveSize = counted === 0 ? null : 1 / (2 * meanIncrease);
  const variance =
    counted < 2 ? 0 : Math.max(0, squares - counted * meanIncrease ** 2) / (counted - 1);
  return {
    effectiveSize,
    standardError:
      effectiveSize === null || !Number.isFinite(effectiveSize) || counted < 2
        ? null
        : (2 * effectiveSize ** 2 * Math.sqrt(variance)) / Math.sqrt(counted),
    meanIncrease,
    counted,
    leftOut: group.length - counted,
  };
}

/**
 * Effective size from the numbers of breeding males and females: N_e = 4 Nm Nf / (Nm + Nf). Assumes mating at random among them,
 * and families that differ in size by chance alone; line breeding does neither, so take it as an upper guide.
 *
 * Source: Wright S (1931) Genetics 16:97-159. @throws {KinshipError} `KINSHIP_BAD_ARGUMENT` for numbers that are not positive.
 * @example effectiveSizeFromSexes(1, 99); // 3.96
 */
export function effectiveSizeFromSexes(males: number, females: number): number {
  checkPositive('The number of males', males);
  checkPositive('The number of females', females);
  return (4 * males * females) / (males + females);
}

/**
 * Effective size from the spread of family sizes: N_e = (N k - 1) / (k - 1 + V / k), where each of N parents leaves on average k
 * young that breed in their turn, with variance V (over all parents, divided by N). With k = 2: (4N - 2) / (V + 2). Equal
 * families (V = 0) nearly double N_e.
 *
 * Source: Kimura M & Crow JF (1963) Evolution 17:279-288 (from memory; reduces to the form of Wright with k = 2).
 * @param familySizes young that bred, for every parent of the generation, those with none included.
 * @throws {KinshipError} `KINSHIP_BAD_ARGUMENT`.
 */
export function effectiveSizeFromFamilies(familySizes: ArrayLike<number>): number {
  const parents = familySizes.length;
  let young = 0;
  for (let k = 0; k < parents; k++) {
    const size = familySizes[k]!;
    if (!Number.isInteger(size) || size < 0) {
      throw new KinshipError(
        'KINSHIP_BAD_ARGUMENT',
        `A family has ${size} young; give whole numbers of at least 0.`,
      );
    }
    young += size;
  }
  if (parents < 2 || young < 2) {
    throw new KinshipError(
      'KINSHIP_BAD_ARGUMENT',
      `${parents} parents with ${young} young; at least 2 of either are needed.`,
    );
  }
  const mean = young / parents;
  let squares = 0;
  for (let k = 0; k < parents; k++) squares += (familySizes[k]! - mean) ** 2;
  return (young - 1) / (mean - 1 + squares / parents / mean);
}

/**
 * Effective size over generations of unequal size: their harmonic mean, so that the narrowest counts most.
 *
 * Source: Wright S (1938) Science 87:430 (from memory). @throws {KinshipError} `KINSHIP_BAD_ARGUMENT`.
 * @example harmonicMeanEffectiveSize([1000, 10, 1000]); // 29.4
 */
export function harmonicMeanEffectiveSize(sizes: ArrayLike<number>): number {
  if (sizes.length === 0) {
    throw new KinshipError('KINSHIP_BAD_ARGUMENT', 'No sizes were given; give at least one.');
  }
  let inverse = 0;
  for (let k = 0; k < sizes.length; k++) {
    checkPositive('An effective size', sizes[k]!);
    inverse += 1 / sizes[k]!;
  }
  return sizes.length / inverse;
}

/**
 * Rate of inbreeding expected from an effective size, dF = 1 / (2 N_e); with Nm males and Nf females 1/(8 Nm) + 1/(8 Nf).
 *
 * Source: Wright S (1931) Genetics 16:97-159. @throws {KinshipError} `KINSHIP_BAD_ARGUMENT`.
 */
export function rateOfInbreeding(effectiveSize: number): number {
  checkPositive('The effective size', effectiveSize);
  return 1 / (2 * effectiveSize);
}

/**
 * F expected after some generations of drift in a population of constant effective size: F = 1 - (1 - 1/(2 N_e))^t. Handbooks
 * for fish farmers add dF up instead (t / (2 N_e)), which overstates a little more each generation.
 *
 * Source: Falconer DS & Mackay TFC (1996) Introduction to Quantitative Genetics, eq. 3.12.
 * @throws {KinshipError} `KINSHIP_BAD_ARGUMENT`.
 */
export function inbreedingFromDrift(effectiveSize: number, generations: number): number {
  return 1 - (1 - rateOfInbreeding(effectiveSize)) ** generations;
}

/**
 * Effective size at which drift over some generations reaches a given F: {@link inbreedingFromDrift} turned round,
 * N_e = 1 / (2 (1 - (1 - F)^(1/t))).
 *
 * @throws {KinshipError} `KINSHIP_BAD_ARGUMENT` for F outside 0 to 1 or no generations.
 */
export function effectiveSizeForInbreeding(inbreeding: number, generations: number): number {
  checkChance('F', inbreeding);
  checkPositive('The number of generations', generations);
  return 1 / (2 * (1 - (1 - inbreeding) ** (1 / generations)));
}

/**
 * Effective size needed to keep an allele of frequency q with probability P through a number of generations:
 * N_e = ln(1 - P^(1/g)) / (2 ln(1 - q)), from the chance (1 - q)^(2 N_e) to lose it in one. Not rounded: round up.
 *
 * Takes the frequency as q anew in every generation, as the handbook does; drift in q makes the truth less kind.
 * Source: Tave D (1999) Inbreeding and brood stock management, FAO Fisheries Technical Paper 392 (from memory, confirmed by
 * independent computation). @throws {KinshipError} `KINSHIP_BAD_ARGUMENT`.
 * @example Math.ceil(effectiveSizeToKeepAllele(0.05, 0.99)); // 45
 */
export function effectiveSizeToKeepAllele(
  frequency: number,
  probability: number,
  generations = 1,
): number {
  checkChance('The frequency', frequency);
  checkChance('The probability', probability);
  checkPositive('The number of generations', generations);
  return Math.log1p(-(probability ** (1 / generations))) / (2 * Math.log1p(-frequency));
}

function checkPositive(name: string, value: number): void {
  if (value > 0 && Number.isFinite(value)) return;
  throw new KinshipError('KINSHIP_BAD_ARGUMENT', `${name} is ${value}; it must be above 0.`);
}

function checkChance(name: string, value: number): void {
  if (value > 0 && value < 1) return;
  throw new KinshipError(
    'KINSHIP_BAD_ARGUMENT',
    `${name} is ${value}; it must be between 0 and 1.`,
  );
}
