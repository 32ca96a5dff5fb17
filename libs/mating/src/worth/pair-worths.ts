import type { LookAim, TraitAim } from '../purpose/line-purpose.js';
import {
  checkVariation,
  expectedYoung,
  mendelianVariance,
  type ExpectedYoung,
  type TraitVariation,
} from '../young/expected-young.js';
import { BestOfBrood } from './best-of-brood.js';
import type { LookShares } from './look-shares.js';
import { MatingError } from '../mating-error.js';
import { expectedPoints } from './expected-points.js';

/** Breeding values of candidates in their order, with their standard errors. */
export interface CandidateValues {
  readonly value: Float64Array;
  readonly standardError: Float64Array;
}

/** One trait that young are worth something for. */
export interface WorthTrait extends TraitVariation {
  readonly aim: TraitAim;
  /** Scores of the line as it is: young like these are worth 0 points. */
  readonly line: { readonly mean: number; readonly deviation: number };
}

/** One look that young are worth something for. */
export interface WorthLook {
  readonly aim: LookAim;
  readonly shares: Pick<LookShares, 'share' | 'variance' | 'possible' | 'overAll'>;
}

/** All that the worth of every male by every female is made from. */
export interface WorthStock {
  readonly traits: readonly (WorthTrait & {
    readonly males: CandidateValues;
    readonly females: CandidateValues;
    /** Covariances of the errors of all values, the males before the females, square; without it they are taken as independent. */
    readonly errorCovariance?: Float64Array;
  })[];
  readonly looks: readonly WorthLook[];
  /** F of the candidates. */
  readonly inbreeding: { readonly males: Float64Array; readonly females: Float64Array };
  /** F of the brood. */
  readonly coancestry: (m: number, f: number) => number;
  /** Young of a brood that would be kept, and that live to be chosen from. */
  readonly keep: number;
  readonly raised: number;
  /** Points that a young loses for each 0.1 of its F. */
  readonly inbreedingCost: number;
  /** By how much inbreeding lessens how many are raised: exp(-load F) of them; 0 where nothing was measured. */
  readonly load: number;
}

/** The worth of a pair and what it is the sum of, in points for one young kept, against one of the line as it is. */
export interface PairWorth {
  readonly worth: number;
  /** Its standard error: of what is not known of the two parents. */
  readonly standardError: number;
  readonly parts: {
    /** What the brood's mean of each trait is worth, in the order of the traits. */
    readonly traits: readonly number[];
    /** What each look is worth; `null` where a genotype that matters is not known, which counts 0. */
    readonly looks: readonly (number | null)[];
    /** What choosing the best of the brood adds, in what is inherited: luck with the score is not in it. */
    readonly choice: number;
    /** What F takes away: 0 or below. */
    readonly inbreeding: number;
  };
  /** Young expected to be raised. */
  readonly raised: number;
}

/** What a male's young are worth with all females alike, and what of it rests on the male alone. */
export interface WorthOverAll {
  /** Mean worth of his pairs. */
  readonly worth: number;
  /** Points for one unit of his breeding value, by trait. */
  readonly slopes: readonly number[];
  /** Variance by what is not known of his genotypes. */
  readonly looksVariance: number;
}

/** A pair by its positions among the males and the females. */
export type PairAt = readonly [m: number, f: number];

/** Two nearer than so many standard errors of their difference are not told apart (common practice: about 19 times in 20). */
export const APART = 2;

/** Whether a difference is beyond its error. */
export const areApart = (points: number, standardError: number): boolean =>
  Math.abs(points) > APART * standardError;

/**
 * Worth of every male by every female: expected points of the best `keep` out of `raised` young, less what inbreeding costs.
 *
 * Mean of the brood on the scale of points, plus what choosing so many out of so many by their scores adds, less the cost of F. Choosing
 * adds the intensity times the inherited variance of points within the brood over the standard deviation of points as scored: a young that
 * was scored well by luck passes the luck on to nobody. Looks count as inherited in full. Points within a brood are taken as normal, traits
 * as independent of each other and of looks. Young like the line as it is have 0 points for its traits; looks count as they are.
 *
 * Source: response to selection within families, Falconer & Mackay (1996), chapter 13 (from memory).
 *
 * The standard error holds the errors of the parents' breeding values, and what is not known of their genotypes. Errors of relatives' values
 * go together: where their covariances are given they count, in the spread of a brood, its standard error and that of differences; else they
 * are taken as independent, which tells too small an error of a pair of relatives and too large a one of differences between pairs of sibs.
 *
 * Cost: a few operations a pair and trait; with a range wanted, four normal tails; a look-up a look.
 * @throws MatingError MATING_BAD_VALUE.
 */
export class PairWorths {
  readonly #stock: WorthStock;
  readonly #best: BestOfBrood;
  readonly #lineMeans: readonly number[];
  /** What the last pair came to, so that a list makes no objects. */
  readonly #found = { worth: 0, errors: 0, choice: 0, inbreeding: 0, raised: 0 };

  constructor(stock: WorthStock) {
    checkStock(stock);
    this.#stock = stock;
    this.#best = new BestOfBrood(stock.keep);
    this.#lineMeans = stock.traits.map(
      ({ aim, line }) => expectedPoints(aim, line.mean, line.deviation ** 2).mean,
    );
  }

  /** The worth alone. */
  worth(m: number, f: number): number {
    this.#reckon(m, f);
    return this.#found.worth;
  }

  /** The worth with its parts. */
  of(m: number, f: number): PairWorth {
    this.#reckon(m, f);
    const { worth, errors, choice, inbreeding, raised } = this.#found;
    return {
      worth,
      standardError: Math.sqrt(errors),
      parts: {
        traits: this.#stock.traits.map((_, t) => this.#meanOf(t, m, f)),
        looks: this.#stock.looks.map(({ aim, shares }) => {
          const share = shares.share(m, f);
          return share === null ? null : signed(aim) * share;
        }),
        choice,
        inbreeding,
      },
      raised,
    };
  }

  /**
   * What the young of male `m` are worth on average over all females: the mean of {@link worth}. What is not known of the females is the
   * same for every male they are put to, and no part of the variance told.
   */
  overAll(m: number): WorthOverAll {
    const females = this.#stock.inbreeding.females.length;
    const slopes = this.#stock.traits.map(() => 0);
    let worth = 0;
    for (let f = 0; f < females; f++) {
      worth += this.worth(m, f) / females;
      slopes.forEach((_, t) => (slopes[t]! += this.#slope(t, m, f) / 2 / females));
    }
    const looksVariance = this.#stock.looks.reduce(
      (sum, { aim, shares }) => sum + aim.worth ** 2 * (shares.overAll(m)?.variance ?? 0),
      0,
    );
    return { worth, slopes, looksVariance };
  }

  /** What a pair's young are expected to be for trait number `t`. */
  young(t: number, m: number, f: number): ExpectedYoung {
    const trait = this.#stock.traits[t]!;
    const { inbreeding } = this.#stock;
    const parent = ({ value, standardError }: CandidateValues, list: Float64Array, i: number) => ({
      value: value[i]!,
      standardError: standardError[i]!,
      inbreeding: list[i]!,
    });
    return expectedYoung(
      parent(trait.males, inbreeding.males, m),
      parent(trait.females, inbreeding.females, f),
      trait,
      this.#errorCovariance(t, m, this.#placeOfFemale(f)),
    );
  }

  /** All of them, males by females, row by row: worth and its standard error. */
  matrix(): { readonly worth: Float64Array; readonly standardError: Float64Array } {
    const { males, females } = this.#stock.inbreeding;
    const worth = new Float64Array(males.length * females.length);
    const standardError = new Float64Array(worth.length);
    for (let m = 0, at = 0; m < males.length; m++) {
      for (let f = 0; f < females.length; f++, at++) {
        this.#reckon(m, f);
        worth[at] = this.#found.worth;
        standardError[at] = Math.sqrt(this.#found.errors);
      }
    }
    return { worth, standardError };
  }

  /**
   * Standard error of the difference in worth of two sets of pairs, the sum of each; with nothing in the second, of the first one's worth. A
   * pair that is in both cancels, and so does the error of a fish as far as both sets rest on it alike. What is not known of genotypes does
   * not cancel between different pairs: the error is then the larger.
   *
   * Cost: a slope a pair and trait.
   */
  differenceError(these: readonly PairAt[], those: readonly PairAt[]): number {
    const only = (list: readonly PairAt[], other: readonly PairAt[]): readonly PairAt[] =>
      list.filter(([m, f]) => !other.some(([a, b]) => a === m && b === f));
    const [own, others] = [only(these, those), only(those, these)];
    let errors = 0;
    this.#stock.traits.forEach((_, t) => {
      const rests = new Map<number, number>();
      const add = (pairs: readonly PairAt[], sign: number): void => {
        for (const [m, f] of pairs) {
          const half = (sign * this.#slope(t, m, f)) / 2;
          for (const fish of [m, this.#placeOfFemale(f)])
            rests.set(fish, (rests.get(fish) ?? 0) + half);
        }
      };
      add(own, 1);
      add(others, -1);
      errors += this.#errorsOf(t, [...rests]);
    });
    for (const { aim, shares } of this.#stock.looks)
      for (const [m, f] of [...own, ...others]) errors += aim.worth ** 2 * shares.variance(m, f);
    return Math.sqrt(errors);
  }

  /** Whether two pairs differ by no more than twice the standard error of their difference. */
  notToldApart(a: PairAt, b: PairAt): boolean {
    return !areApart(this.worth(...a) - this.worth(...b), this.differenceError([a], [b]));
  }

  #reckon(m: number, f: number): void {
    const { traits, looks, coancestry, raised, inbreedingCost, load } = this.#stock;
    let [mean, variance, inherited, errors] = [0, 0, 0, 0];
    for (let t = 0; t < traits.length; t++) {
      const trait = traits[t]!;
      const [parents, within] = [this.#parentsErrors(t, m, f), this.#within(t, m, f)];
      const shared = parents + trait.commonBrood;
      const points = expectedPoints(trait.aim, this.#mean(t, m, f), shared + within);
      mean += points.mean - this.#lineMeans[t]!;
      errors += points.slope ** 2 * parents;
      const scored =
        trait.aim.better === 'within'
          ? expectedPoints(trait.aim, this.#mean(t, m, f), within).variance
          : trait.aim.worth ** 2 * within;
      variance += scored;
      if (within > 0) inherited += scored * (1 - trait.residual / within);
    }
    for (const { aim, shares } of looks) {
      const share = shares.share(m, f);
      if (share === null) continue;
      mean += signed(aim) * share;
      errors += aim.worth ** 2 * shares.variance(m, f);
      const shown = aim.worth ** 2 * share * (1 - share);
      variance += shown;
      inherited += shown;
    }
    const inbreeding = coancestry(m, f);
    const found = this.#found;
    found.raised = load > 0 ? raised * Math.exp(-load * inbreeding) : raised;
    found.choice =
      variance > 0 ? (this.#best.of(found.raised) * inherited) / Math.sqrt(variance) : 0;
    found.inbreeding = -inbreedingCost * 10 * inbreeding;
    found.worth = mean + found.choice + found.inbreeding;
    found.errors = errors;
  }

  #mean(t: number, m: number, f: number): number {
    const { level, males, females } = this.#stock.traits[t]!;
    return level + (males.value[m]! + females.value[f]!) / 2;
  }

  #parentsErrors(t: number, m: number, f: number): number {
    const { males, females, errorCovariance } = this.#stock.traits[t]!;
    const errors = males.standardError[m]! ** 2 + females.standardError[f]! ** 2;
    if (errorCovariance === undefined) return errors / 4;
    return Math.max(0, errors + 2 * this.#errorCovariance(t, m, this.#placeOfFemale(f))) / 4;
  }

  /** Females stand behind the males where both are in one table. */
  #placeOfFemale(f: number): number {
    return this.#stock.inbreeding.males.length + f;
  }

  /** Of the errors of two fish by their places in the table of both. */
  #errorCovariance(t: number, i: number, j: number): number {
    const { errorCovariance } = this.#stock.traits[t]!;
    const { males, females } = this.#stock.inbreeding;
    return errorCovariance?.[i * (males.length + females.length) + j] ?? 0;
  }

  /** Variance of a sum of values, each times what rests on it. */
  #errorsOf(t: number, rests: readonly (readonly [fish: number, times: number])[]): number {
    const { males, females } = this.#stock.traits[t]!;
    const count = this.#stock.inbreeding.males.length;
    let errors = 0;
    for (const [i, ofOne] of rests) {
      const error = i < count ? males.standardError[i]! : females.standardError[i - count]!;
      errors += (ofOne * error) ** 2;
      for (const [j, ofOther] of rests)
        if (j !== i) errors += ofOne * ofOther * this.#errorCovariance(t, i, j);
    }
    return Math.max(0, errors);
  }

  #within(t: number, m: number, f: number): number {
    const { additive, residual } = this.#stock.traits[t]!;
    const { males, females } = this.#stock.inbreeding;
    return mendelianVariance(males[m]!, females[f]!, additive) + residual;
  }

  #points(t: number, m: number, f: number) {
    const { aim, commonBrood } = this.#stock.traits[t]!;
    const spread = this.#parentsErrors(t, m, f) + commonBrood + this.#within(t, m, f);
    return expectedPoints(aim, this.#mean(t, m, f), spread);
  }

  #meanOf(t: number, m: number, f: number): number {
    return this.#points(t, m, f).mean - this.#lineMeans[t]!;
  }

  #slope(t: number, m: number, f: number): number {
    return this.#points(t, m, f).slope;
  }
}

const signed = ({ wanted, worth }: LookAim): number => (wanted ? worth : -worth);

function checkStock({ traits, keep, raised, inbreedingCost, load }: WorthStock): void {
  traits.forEach(checkVariation);
  const expectAtLeast = (name: string, value: number, least: number): void => {
    if (Number.isFinite(value) && value >= least) return;
    throw new MatingError(
      'MATING_BAD_VALUE',
      name,
      `${name} of the worth of pairs is ${String(value)}; it must be a number of ${String(least)} or more.`,
    );
  };
  expectAtLeast('keep', keep, 1);
  expectAtLeast('raised', raised, 0);
  expectAtLeast('inbreedingCost', inbreedingCost, 0);
  expectAtLeast('load', load, 0);
}
