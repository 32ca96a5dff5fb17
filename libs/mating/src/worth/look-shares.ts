import {
  expectLook,
  fractionToNumber,
  lociBehind,
  type GenotypeInput,
  type GenotypeSet,
  type Locus,
  type LocusId,
  type PhenotypeId,
  toFraction,
  type WeightedGenotypeInput,
} from '@linewright/heredity';
import type { PairingCandidate } from '../candidate.js';
import type { PossibleShare } from '../young/passing.js';

/** Rarer combinations of genotypes of one fish are left out. */
const RARE = 1e-4;

/** What a fish may carry: by chances where they were worked out, else by what is on record. */
export const carriedBy = ({ genotypes, carries }: PairingCandidate): GenotypeSet => ({
  ...genotypes,
  ...carries,
});

interface Carried {
  readonly kind: number;
  readonly weight: number;
}

/**
 * Share of the young of every pair that show a look, where it is only known with which chance a fish carries what.
 *
 * Each fish is taken apart into the sets of genotypes that it may have at the loci behind the look (those that hide it among them), each
 * with its chance; each pair of sets is crossed once, and a pair's share is the mean over both. The two fish, and the loci, are taken as
 * independent of each other; combinations of one fish under 1 in 10,000 are left out.
 *
 * Cost: one cross for each pair of sets met, then for each pair as many look-ups as its female has sets.
 * @throws HeredityError for a genotype that cannot be read or an unknown locus.
 */
export class LookShares {
  readonly #sets: GenotypeSet[] = [];
  readonly #kinds = new Map<string, number>();
  readonly #males: readonly (readonly Carried[])[];
  readonly #females: readonly (readonly Carried[])[];
  readonly #pure = new Map<number, number>();
  readonly #crossed: (sire: GenotypeSet, dam: GenotypeSet) => number;
  /** Mean share and mean square for the male of the last question, by the female's kind. */
  readonly #row = { male: -1, mean: new Float64Array(0), square: new Float64Array(0) };

  constructor(
    males: readonly GenotypeSet[],
    females: readonly GenotypeSet[],
    { show }: { readonly show: Readonly<Record<LocusId, PhenotypeId>> },
    loci?: readonly Locus[],
  ) {
    const options = loci ? { loci } : {};
    const behind = lociBehind(Object.keys(show), loci);
    this.#males = males.map((set) => this.#takenApart(set, behind));
    this.#females = females.map((set) => this.#takenApart(set, behind));
    this.#crossed = (sire, dam) => {
      const share = expectLook(sire, dam, show, options);
      return share === null ? NaN : fractionToNumber(share);
    };
  }

  /** Expected share for male `m` and female `f`, positions in the lists; `null` when a genotype that matters is not known at all. */
  share(m: number, f: number): number | null {
    const mean = this.#over(m, f, 'mean');
    return Number.isNaN(mean) ? null : mean;
  }

  /** Variance of that share: what is not known of the parents' genotypes; 0 where the share is `null`. */
  variance(m: number, f: number): number {
    const mean = this.#over(m, f, 'mean');
    return Number.isNaN(mean) ? 0 : Math.max(0, this.#over(m, f, 'square') - mean ** 2);
  }

  /** What the share may be, with which chance; `null` as {@link share}. */
  possible(m: number, f: number): PossibleShare[] | null {
    const shares = (this.#males[m] ?? []).flatMap((sire) =>
      (this.#females[f] ?? []).map((dam) => ({
        weight: sire.weight * dam.weight,
        share: this.#at(sire.kind, dam.kind),
      })),
    );
    return shares.some(({ share }) => Number.isNaN(share)) ? null : shares;
  }

  /**
   * Mean share over all females, and its variance by what is not known of the male alone; `null` when a genotype that matters is not known
   * at all in him or any of them.
   */
  overAll(m: number): { readonly share: number; readonly variance: number } | null {
    let [mean, square] = [0, 0];
    for (const { kind, weight } of this.#males[m] ?? []) {
      let sum = 0;
      for (const dams of this.#females)
        for (const dam of dams) sum += dam.weight * this.#at(kind, dam.kind);
      const share = sum / this.#females.length;
      mean += weight * share;
      square += weight * share ** 2;
    }
    return Number.isNaN(mean) ? null : { share: mean, variance: Math.max(0, square - mean ** 2) };
  }

  #over(m: number, f: number, what: 'mean' | 'square'): number {
    if (this.#row.male !== m) this.#fillRow(m);
    const row = this.#row[what];
    let sum = 0;
    for (const { kind, weight } of this.#females[f] ?? []) sum += weight * (row[kind] ?? NaN);
    return sum;
  }

  #fillRow(m: number): void {
    const row = this.#row;
    row.male = m;
    row.mean = new Float64Array(this.#sets.length);
    row.square = new Float64Array(this.#sets.length);
    for (let dam = 0; dam < this.#sets.length; dam++) {
      for (const { kind, weight } of this.#males[m] ?? []) {
        const share = this.#at(kind, dam);
        row.mean[dam]! += weight * share;
        row.square[dam]! += weight * share ** 2;
      }
    }
  }

  #at(sire: number, dam: number): number {
    const place = sire * this.#sets.length + dam;
    const known = this.#pure.get(place);
    if (known !== undefined) return known;
    const made = this.#crossed(this.#sets[sire] ?? {}, this.#sets[dam] ?? {});
    this.#pure.set(place, made);
    return made;
  }

  /** A fish's possible sets at the loci, by their number. */
  #takenApart(set: GenotypeSet, loci: readonly LocusId[]): Carried[] {
    let sets: { genotypes: Record<LocusId, GenotypeInput>; weight: number }[] = [
      { genotypes: {}, weight: 1 },
    ];
    for (const locus of loci) {
      const input = set[locus];
      if (input === undefined) continue;
      const possible = isWeighted(input) ? input : [{ genotype: input, probability: 1 }];
      sets = sets.flatMap(({ genotypes, weight }) =>
        possible.map(({ genotype, probability }) => ({
          genotypes: { ...genotypes, [locus]: genotype },
          weight: weight * fractionToNumber(toFraction(probability)),
        })),
      );
      sets = sets.filter(({ weight }) => weight >= RARE);
    }
    const total = sets.reduce((sum, { weight }) => sum + weight, 0);
    return sets.map(({ genotypes, weight }) => ({
      kind: this.#kindOf(genotypes),
      weight: weight / total,
    }));
  }

  #kindOf(genotypes: GenotypeSet): number {
    const key = JSON.stringify(genotypes);
    let kind = this.#kinds.get(key);
    if (kind === undefined) {
      kind = this.#sets.push(genotypes) - 1;
      this.#kinds.set(key, kind);
    }
    return kind;
  }
}

const isWeighted = (input: GenotypeInput): input is readonly WeightedGenotypeInput[] =>
  typeof input !== 'string' && typeof input[0] !== 'string';
