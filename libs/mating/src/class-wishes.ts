import {
  expectPhenotypes,
  findLocus,
  type GenotypeInput,
  type Locus,
  type LocusId,
  type PhenotypeId,
} from '@linewright/heredity';
import type { PairingCandidate } from './candidate.js';
import { MatingError } from './mating-error.js';

/** A kind of young that is wanted or not: all the named phenotypes on one fish. */
export interface ClassWish {
  /** Phenotype by locus, by their ids in the catalogue: `{ bl: 'royal' }`. */
  readonly show: Readonly<Record<LocusId, PhenotypeId>>;
  /** What people call it; made from the ids when left out. */
  readonly label?: string;
  /** Weight among the wishes; 1 when left out. */
  readonly weight?: number;
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
 * One locus at a time through `@linewright/heredity`, remembered by the two parents' genotypes; loci are treated as
 * unlinked, so the share of a class over several loci is the product. A phenotype of another locus that hides one of
 * these is not counted off.
 *
 * Cost: one small cross for each pair of genotypes met at a locus, then a look-up a locus.
 */
export class WishShares {
  readonly #males: readonly PairingCandidate[];
  readonly #females: readonly PairingCandidate[];
  readonly #loci: readonly Locus[] | undefined;
  readonly #tables = new Map<LocusId, LocusTable>();

  constructor(
    males: readonly PairingCandidate[],
    females: readonly PairingCandidate[],
    loci: readonly Locus[] | undefined,
  ) {
    this.#males = males;
    this.#females = females;
    this.#loci = loci;
  }

  /**
   * Share of the young of male `m` and female `f` (positions in the lists) that fall in the wished-for class; `null` when
   * a genotype that matters is not known on one side.
   */
  share(wish: ClassWish, m: number, f: number): number | null {
    let product = 1;
    let known = true;
    for (const locus in wish.show) {
      const shares = this.#tableOf(locus).at(m, f);
      if (shares === null) known = false;
      else product *= shares.get(wish.show[locus] ?? '') ?? 0;
    }
    // A class with one part that cannot occur cannot occur, whatever the unknown part.
    return known || product === 0 ? product : null;
  }

  /** Shares of all phenotypes at one locus, or `null` when they cannot be computed for the pair. */
  at(locus: LocusId, m: number, f: number): ReadonlyMap<PhenotypeId, number> | null {
    return this.#tableOf(locus).at(m, f);
  }

  #tableOf(locus: LocusId): LocusTable {
    let table = this.#tables.get(locus);
    if (!table) {
      table = new LocusTable(locus, this.#males, this.#females, this.#loci);
      this.#tables.set(locus, table);
    }
    return table;
  }
}

/** Phenotype shares at one locus for every pair of genotypes that occurs. */
class LocusTable {
  readonly #locus: LocusId;
  readonly #loci: readonly Locus[] | undefined;
  readonly #genotypes: GenotypeInput[] = [];
  readonly #maleKinds: Int32Array;
  readonly #femaleKinds: Int32Array;
  readonly #shares: (ReadonlyMap<PhenotypeId, number> | null | undefined)[] = [];
  readonly #kinds = new Map<string, number>();

  constructor(
    locus: LocusId,
    males: readonly PairingCandidate[],
    females: readonly PairingCandidate[],
    loci: readonly Locus[] | undefined,
  ) {
    this.#locus = locus;
    this.#loci = loci;
    this.#maleKinds = Int32Array.from(males, (fish) => this.#kindOf(fish));
    this.#femaleKinds = Int32Array.from(females, (fish) => this.#kindOf(fish));
  }

  at(m: number, f: number): ReadonlyMap<PhenotypeId, number> | null {
    const sire = this.#maleKinds[m] ?? -1;
    const dam = this.#femaleKinds[f] ?? -1;
    if (sire < 0 || dam < 0) return null;
    const place = sire * this.#genotypes.length + dam;
    const remembered = this.#shares[place];
    if (remembered !== undefined) return remembered;
    return (this.#shares[place] = this.#compute(sire, dam));
  }

  #compute(sire: number, dam: number): ReadonlyMap<PhenotypeId, number> | null {
    const set = (kind: number): Record<LocusId, GenotypeInput> => ({
      [this.#locus]: this.#genotypes[kind] ?? '-/-',
    });
    const options = this.#loci ? { loci: this.#loci } : {};
    const { expectation } = expectPhenotypes(set(sire), set(dam), options);
    if (!expectation) return null;
    const shares = new Map<PhenotypeId, number>();
    for (const { parts, probability } of expectation.classes) {
      const phenotype = parts[0]?.phenotype ?? '';
      const share = Number(probability.numerator) / Number(probability.denominator);
      shares.set(phenotype, (shares.get(phenotype) ?? 0) + share);
    }
    return shares;
  }

  /** Genotypes are numbered as they are met, so that a pair of them is one number. */
  #kindOf(fish: PairingCandidate): number {
    const genotype = fish.genotypes?.[this.#locus];
    if (genotype === undefined) return -1;
    const key = typeof genotype === 'string' ? genotype : JSON.stringify(genotype, bigintAsText);
    let kind = this.#kinds.get(key);
    if (kind === undefined) {
      kind = this.#genotypes.push(genotype) - 1;
      this.#kinds.set(key, kind);
    }
    return kind;
  }
}

function bigintAsText(_key: string, value: unknown): unknown {
  return typeof value === 'bigint' ? `${String(value)}n` : value;
}
