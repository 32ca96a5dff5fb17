import type { Locus } from '@linewright/heredity';
import type { PairingCandidate } from '../candidate.js';
import { wishLabel } from '../class-wishes.js';
import type { LinePurpose } from '../purpose/line-purpose.js';
import type { ExpectedYoung, TraitVariation } from '../young/expected-young.js';
import {
  chanceOfPassing,
  fryToRaise,
  meanShare,
  passingShares,
  type PossibleShare,
} from '../young/passing.js';
import { inbreedingCost, type InbreedingCost } from './inbreeding-cost.js';
import { carriedBy, LookShares } from './look-shares.js';
import { PairWorths, type PairAt, type PairWorth, type WorthStock } from './pair-worths.js';

/** Correlations of the errors of some fish's values, fish x fish in the order of their ids. */
export interface ErrorsTogether {
  readonly fish: readonly string[];
  readonly correlation: Float64Array;
}

/** What the scores of one trait tell, for all fish together. */
export interface TraitBasis extends TraitVariation {
  readonly traitId: string;
  /** Scores of the line as it is. */
  readonly line: { readonly mean: number; readonly deviation: number };
  /** How the errors of values go together, where it is known; a fish that is not among these is taken as independent of all. */
  readonly errorsTogether?: ErrorsTogether;
  /** Between neighbouring scores of a trait that is scored in steps: a young passes that would be rounded into the limits. */
  readonly step?: number;
}

/** What pairs are worth something by. */
export interface WorthBasis {
  readonly purpose: LinePurpose;
  /** Of the traits that values could be worked out for; an aim at any other is not counted. */
  readonly traits: readonly TraitBasis[];
  /** Fry of one brood, and the share of them that lives to be sorted. */
  readonly fry: number;
  readonly survival: number;
  /** By how much inbreeding lessens that share: exp(-load F); 0 where nothing was measured. */
  readonly load: number;
}

/** A trait of a row: what its young are expected to be, and what that is worth. */
export interface TraitOfPair {
  readonly traitId: string;
  readonly young: ExpectedYoung;
  readonly points: number;
}

/** A look of a row: the share of young that show it, and what that is worth; `null` where it is not known. */
export interface LookOfPair {
  readonly label: string;
  readonly wanted: boolean;
  readonly required: boolean;
  readonly share: number | null;
  readonly points: number | null;
}

/** The worth of a row with what it is made of. */
export interface WorthOfPair extends Omit<PairWorth, 'parts'> {
  readonly traits: readonly TraitOfPair[];
  readonly looks: readonly LookOfPair[];
  readonly choice: number;
  readonly inbreeding: number;
  /** Set where the pair is held against the best of its list: whether their difference is within its error. */
  readonly likeBest?: boolean;
}

/** How likely a brood gives the young that are to be kept. */
export interface PassingOfPair {
  /** Expected share of the young that pass; `null` where a required look is not known. */
  readonly share: number | null;
  /** Young wanted of this brood, the fry it is reckoned with, and the share of them that lives to be sorted. */
  readonly wanted: number;
  readonly fry: number;
  readonly survival: number;
  /** Chance that at least so many pass. */
  readonly chance: number | null;
  /** Fry to raise for a chance; `null` where no number in reach does. */
  readonly fryFor: readonly { readonly certainty: number; readonly fry: number | null }[];
}

const CERTAINTIES = [0.8, 0.9, 0.95];

interface Sides {
  readonly males: readonly PairingCandidate[];
  readonly females: readonly PairingCandidate[];
  /** F of each candidate. */
  readonly inbreeding: (fish: PairingCandidate) => number;
  readonly coancestry: (m: number, f: number) => number;
  readonly loci?: readonly Locus[];
}

/** Worth and chances of the pairs of a list, from what the line is for and what is known of its candidates. */
export class JudgedWorth {
  readonly worths: PairWorths;
  readonly cost: InbreedingCost;
  /** Young to keep of one brood. */
  readonly keep: number;
  readonly #basis: WorthBasis;
  readonly #stock: Omit<WorthStock, 'traits'> & Pick<ReturnType<typeof stockOf>, 'traits'>;

  constructor(basis: WorthBasis, sides: Sides) {
    this.#basis = basis;
    this.keep = Math.max(1, Math.ceil(basis.purpose.keep / basis.purpose.broods));
    const stock = stockOf(basis, sides);
    this.cost = inbreedingCost(basis.purpose.inbreedingCost, stock.traits);
    this.#stock = {
      ...stock,
      keep: this.keep,
      raised: basis.fry * basis.survival,
      inbreedingCost: this.cost.points,
      load: basis.load,
    };
    this.worths = new PairWorths(this.#stock);
  }

  /** Standard errors of the males' values by trait, in the order of the traits that are counted. */
  standardErrors(): { readonly traitId: string; readonly males: Float64Array }[] {
    return this.#stock.traits.map(({ aim, males }) => ({
      traitId: aim.traitId,
      males: males.standardError,
    }));
  }

  /** One pair, held against `best` where it is given. */
  of(m: number, f: number, best?: PairAt): WorthOfPair {
    const { parts, ...worth } = this.worths.of(m, f);
    const { traits, looks } = this.#stock;
    return {
      ...worth,
      traits: traits.map(({ aim }, t) => ({
        traitId: aim.traitId,
        young: this.worths.young(t, m, f),
        points: parts.traits[t]!,
      })),
      looks: looks.map(({ aim, shares }, l) => ({
        label: wishLabel(aim.look),
        wanted: aim.wanted,
        required: aim.required,
        share: shares.share(m, f),
        points: parts.looks[l]!,
      })),
      choice: parts.choice,
      inbreeding: parts.inbreeding,
      ...(best && { likeBest: this.worths.notToldApart(best, [m, f]) }),
    };
  }

  /** Whether the young of a brood pass: the limits of all traits, and the looks that are required. */
  passing(m: number, f: number): PassingOfPair {
    const { fry } = this.#basis;
    const { raised } = this.worths.of(m, f);
    const survival = fry > 0 ? Math.min(1, raised / fry) : 0;
    const whole = Math.round(fry);
    const told = { wanted: this.keep, fry: whole, survival };
    const looks = this.#requiredLooks(m, f);
    if (looks === null) return { ...told, share: null, chance: null, fryFor: [] };
    const standards = this.#stock.traits.map(({ aim: { low, high }, step = 0 }, t) => ({
      young: this.worths.young(t, m, f),
      low: low === null ? null : low - step / 2,
      high: high === null ? null : high + step / 2,
    }));
    const shares = passingShares(standards, looks);
    return {
      ...told,
      share: meanShare(shares),
      chance: chanceOfPassing(shares, this.keep, whole, survival),
      fryFor: CERTAINTIES.map((certainty) => ({
        certainty,
        fry: fryToRaise(shares, this.keep, certainty, survival),
      })),
    };
  }

  /** Looks are taken as independent of each other; `null` where one is not known. */
  #requiredLooks(m: number, f: number): PossibleShare[] | null {
    let all: PossibleShare[] = [{ weight: 1, share: 1 }];
    for (const { aim, shares } of this.#stock.looks) {
      if (!aim.required) continue;
      const possible = shares.possible(m, f);
      if (possible === null) return null;
      const passing = aim.wanted
        ? possible
        : possible.map(({ weight, share }) => ({ weight, share: 1 - share }));
      all = all.flatMap((one) =>
        passing.map((other) => ({
          weight: one.weight * other.weight,
          share: one.share * other.share,
        })),
      );
    }
    return all;
  }
}

function stockOf(
  { purpose, traits }: WorthBasis,
  { males, females, inbreeding, coancestry, loci }: Sides,
) {
  const ofMales = Float64Array.from(males, inbreeding);
  const ofFemales = Float64Array.from(females, inbreeding);
  const sets = [males.map(carriedBy), females.map(carriedBy)] as const;
  return {
    traits: purpose.traits.flatMap((aim) => {
      const basis = traits.find(({ traitId }) => traitId === aim.traitId);
      if (basis === undefined) return [];
      const values = (list: readonly PairingCandidate[], f: Float64Array) => ({
        value: Float64Array.from(list, (fish) => fish.values?.[aim.traitId]?.value ?? 0),
        standardError: Float64Array.from(
          list,
          (fish, k) =>
            fish.values?.[aim.traitId]?.standardError ?? Math.sqrt(basis.additive * (1 + f[k]!)),
        ),
      });
      const valued = { males: values(males, ofMales), females: values(females, ofFemales) };
      const { errorsTogether } = basis;
      return [
        {
          ...{ ...basis, aim, ...valued },
          ...(errorsTogether !== undefined && {
            errorCovariance: covariances(
              errorsTogether,
              [...males, ...females],
              [...valued.males.standardError, ...valued.females.standardError],
            ),
          }),
        },
      ];
    }),
    looks: purpose.looks.map((aim) => ({
      aim,
      shares: new LookShares(...sets, aim.look, loci),
    })),
    inbreeding: { males: ofMales, females: ofFemales },
    coancestry,
  };
}

/** Covariances of the errors of fish, in their order. */
function covariances(
  { fish, correlation }: ErrorsTogether,
  of: readonly PairingCandidate[],
  standardErrors: readonly number[],
): Float64Array {
  const places = new Map(fish.map((id, place) => [id, place]));
  const known = of.map(({ id }) => places.get(id));
  const found = new Float64Array(of.length ** 2);
  known.forEach((a, i) =>
    known.forEach((b, j) => {
      if (a === undefined || b === undefined) return;
      const together = correlation[a * fish.length + b]!;
      found[i * of.length + j] = together * standardErrors[i]! * standardErrors[j]!;
    }),
  );
  return found;
}
