import type { PairingCandidate } from '../candidate.js';
import { MatingError } from '../mating-error.js';
import type { JudgedWorth } from '../worth/judged-worth.js';
import { APART, type WorthOverAll } from '../worth/pair-worths.js';

/** What a young is worth to its line as a parent. */
export interface YoungValue {
  /** Points for one young kept out of its broods with the line's fish: the mean worth of its pairs with them. */
  readonly worth: number;
  /** Its standard error by what is not known of this young. */
  readonly standardError: number;
}

/**
 * Worth of each young of a brood as a parent: the mean of what pairs are worth, over all mates that it might have. Mates stand for the line
 * as it is, so that all young, unsexed ones too, are held against the same.
 *
 * Errors of sibs' breeding values go together, because what is not known of their parents is the same for all of them; with their
 * correlations given, differences are told with the error that is theirs, else with too large a one.
 *
 * Cost: young times mates times traits.
 */
export class YoungValues {
  readonly #over: readonly WorthOverAll[];
  readonly #errors: readonly (readonly number[])[];
  readonly #correlation: readonly (Float64Array | null)[];
  readonly #size: number;

  /**
   * @param judged with the young as its males and the mates as its females.
   * @param correlation of the errors of the young's values, young x young, by trait.
   * @throws MatingError MATING_BAD_VALUE for a correlation of another size.
   */
  constructor(
    judged: Pick<JudgedWorth, 'worths' | 'standardErrors'>,
    young: readonly PairingCandidate[],
    correlation: Readonly<Record<string, Float64Array>> = {},
  ) {
    this.#size = young.length;
    this.#over = young.map((_, m) => judged.worths.overAll(m));
    const errors = judged.standardErrors();
    this.#errors = young.map((_, m) => errors.map(({ males }) => males[m]!));
    this.#correlation = errors.map(({ traitId }) => {
      const given = correlation[traitId] ?? null;
      if (given !== null && given.length !== this.#size ** 2)
        throw new MatingError(
          'MATING_BAD_VALUE',
          traitId,
          `Correlations of ${String(given.length)} figures for ${String(this.#size)} young; give young times young.`,
        );
      return given;
    });
  }

  of(m: number): YoungValue {
    const { worth } = this.#over[m]!;
    return { worth, standardError: Math.sqrt(this.#own(m)) };
  }

  /** Standard error of the difference of two young. */
  differenceError(a: number, b: number): number {
    if (a === b) return 0;
    let shared = 0;
    this.#correlation.forEach((rows, t) => {
      if (rows !== null) shared += rows[a * this.#size + b]! * this.#part(a, t) * this.#part(b, t);
    });
    return Math.sqrt(Math.max(0, this.#own(a) + this.#own(b) - 2 * shared));
  }

  /** Whether two young differ by no more than twice the standard error of their difference. */
  notToldApart(a: number, b: number): boolean {
    const apart = Math.abs(this.#over[a]!.worth - this.#over[b]!.worth);
    return apart <= APART * this.differenceError(a, b) + 1e-12;
  }

  #part(m: number, t: number): number {
    return this.#over[m]!.slopes[t]! * this.#errors[m]![t]!;
  }

  #own(m: number): number {
    const { slopes, looksVariance } = this.#over[m]!;
    return slopes.reduce((sum, _, t) => sum + this.#part(m, t) ** 2, looksVariance);
  }
}
