import {
  expectPhenotypes,
  findLocus,
  fractionToNumber,
  lociBehind,
  type GenotypeInput,
  type GenotypeSet,
  type Locus,
  type LocusId,
  type PairExpectation,
  type PairExpectationOptions,
  type PhenotypeId,
} from '@linewright/heredity';
import type { PairingCandidate } from './candidate.js';
import { MatingError } from './mating-error.js';
import { carriedBy, LookShares } from './worth/look-shares.js';

/** A kind of young that is wanted or not: all the named phenotypes on one fish. */
export interface ClassWish {
  /** Phenotype by locus, by their ids in the catalogue: `{ bl: 'royal' }`. */
  readonly show: Readonly<Record<LocusId, PhenotypeId>>;
  /** What people call it; made from the ids when left out. */
  readonly label?: string;
}

/** Name of a wish. */
export function wishLabel(wish: ClassWish): string {
  return wish.label ?? Object.values(wish.show).join(', ');
}

/**
 * Refuses a wish that no fish could ever meet because it is misspelt, rather than answering it with 0.
 *
 * Throws `HeredityError` for an unknown locus, `MatingError` with code `MATING_BAD_SETTING` for an unknown phenotype or an
 * empty wish.
 */
export function checkWishes(
  wishes: readonly ClassWish[] | undefined,
  loci: readonly Locus[] | undefined,
): void {
  for (const wish of wishes ?? []) {
    const parts = Object.entries(wish.show);
    if (parts.length === 0) {
      throw new MatingError(
        'MATING_BAD_SETTING',
        'show',
        'A wish names no phenotype. Name at least one.',
      );
    }
    for (const [id, phenotype] of parts) {
      const locus = loci?.find((one) => one.id === id) ?? findLocus(id);
      const known = locus.phenotypes.map((one) => one.id);
      if (known.includes(phenotype)) continue;
      const text = `Locus ${id} has no phenotype "${phenotype}". It has: ${known.join(', ') || 'none'}.`;
      throw new MatingError('MATING_BAD_SETTING', phenotype, text);
    }
  }
}

/**
 * Expected shares of wished-for classes among the young of every pair.
 *
 * Asks {@link LookShares}, and `expectPhenotypes` of `@linewright/heredity`, the one reckoning of what a brood shows: loci that hide a
 * wished-for class are looked at with it, and only living young count. Remembered by the two parents' genotypes at the loci that
 * matter. Loci are treated as unlinked.
 *
 * Cost: one small cross for each pair of sets of genotypes met at those loci, then a look-up.
 */
export class WishShares {
  readonly #males: readonly PairingCandidate[];
  readonly #females: readonly PairingCandidate[];
  readonly #options: PairExpectationOptions;
  readonly #shares = new Map<string, LookShares>();
  readonly #looks = new Map<LocusId, PairTable<ReadonlyMap<PhenotypeId, number> | null>>();

  constructor(
    males: readonly PairingCandidate[],
    females: readonly PairingCandidate[],
    loci: readonly Locus[] | undefined,
  ) {
    this.#males = males;
    this.#females = females;
    this.#options = loci ? { loci } : {};
  }

  /**
   * Expected share of the young of male `m` and female `f` (positions in the lists) that fall in the wished-for class, by what the two may
   * carry; `null` when a genotype that matters is not known on one side.
   */
  share(wish: ClassWish, m: number, f: number): number | null {
    const key = JSON.stringify(wish.show);
    let shares = this.#shares.get(key);
    if (!shares) {
      const [males, females] = [this.#males.map(carriedBy), this.#females.map(carriedBy)];
      shares = new LookShares(males, females, wish, this.#options.loci);
      this.#shares.set(key, shares);
    }
    return shares.share(m, f);
  }

  /** Shares of all phenotypes at one locus, hidden ones apart, or `null` when they cannot be computed for the pair. */
  at(locus: LocusId, m: number, f: number): ReadonlyMap<PhenotypeId, number> | null {
    let table = this.#looks.get(locus);
    if (!table) {
      const behind = lociBehind([locus], this.#options.loci);
      table = new PairTable(behind, this.#males, this.#females, (sire, dam) => {
        return sharesAt(locus, expectPhenotypes(sire, dam, this.#options));
      });
      this.#looks.set(locus, table);
    }
    return table.at(m, f);
  }
}

function sharesAt(
  locus: LocusId,
  { expectation, computed }: PairExpectation,
): ReadonlyMap<PhenotypeId, number> | null {
  if (!expectation || !computed.includes(locus)) return null;
  const shares = new Map<PhenotypeId, number>();
  for (const { parts, probability } of expectation.classes) {
    const phenotype = parts.find((part) => part.loci.includes(locus))?.phenotype ?? '';
    shares.set(phenotype, (shares.get(phenotype) ?? 0) + fractionToNumber(probability));
  }
  return shares;
}

/** Something worked out once for every pair of sets of genotypes that occurs at some loci. */
class PairTable<T> {
  readonly #loci: readonly LocusId[];
  readonly #compute: (sire: GenotypeSet, dam: GenotypeSet) => T;
  readonly #sets: GenotypeSet[] = [];
  readonly #kinds = new Map<string, number>();
  readonly #maleKinds: Int32Array;
  readonly #femaleKinds: Int32Array;
  readonly #known = new Map<number, T>();

  constructor(
    loci: readonly LocusId[],
    males: readonly PairingCandidate[],
    females: readonly PairingCandidate[],
    compute: (sire: GenotypeSet, dam: GenotypeSet) => T,
  ) {
    this.#loci = loci;
    this.#compute = compute;
    this.#maleKinds = Int32Array.from(males, (fish) => this.#kindOf(fish));
    this.#femaleKinds = Int32Array.from(females, (fish) => this.#kindOf(fish));
  }

  at(m: number, f: number): T {
    const sire = this.#maleKinds[m] ?? 0;
    const dam = this.#femaleKinds[f] ?? 0;
    const place = sire * this.#sets.length + dam;
    const known = this.#known.get(place);
    if (known !== undefined) return known;
    const made = this.#compute(this.#sets[sire] ?? {}, this.#sets[dam] ?? {});
    this.#known.set(place, made);
    return made;
  }

  /** Sets are numbered as they are met, so that a pair of them is one number. */
  #kindOf(fish: PairingCandidate): number {
    const set: Record<LocusId, GenotypeInput> = {};
    for (const locus of this.#loci) {
      const genotype = fish.genotypes?.[locus];
      if (genotype !== undefined) set[locus] = genotype;
    }
    const key = JSON.stringify(set, bigintAsText);
    let kind = this.#kinds.get(key);
    if (kind === undefined) {
      kind = this.#sets.push(set) - 1;
      this.#kinds.set(key, kind);
    }
    return kind;
  }
}

function bigintAsText(_key: string, value: unknown): unknown {
  return typeof value === 'bigint' ? `${String(value)}n` : value;
}
