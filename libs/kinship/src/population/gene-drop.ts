import { RandomBits, type Pedigree } from '@linewright/pedigree';
import { checkIndices } from '../checks.js';
import {
  readFounderRelationship,
  refuseRelatedFounders,
  type FounderBlock,
  type FounderOptions,
} from '../founder-relationship.js';
import { KinshipError } from '../kinship-error.js';
import { checkGroup } from './founders.js';

export interface GeneDropOptions {
  /** Any safe integer; the same seed gives the same result on every machine. */
  readonly seed: number;
  /** Number of independent loci dropped. */
  readonly replicates: number;
  /** Told how far the drops are, 0 to 1. */
  readonly onProgress?: (share: number) => void;
}

/** Options of gene drops that can take given coancestries of founders. */
export type RelatedGeneDropOptions = GeneDropOptions & FounderOptions;

/** A simulated mean with the standard error that its number of replicates leaves. */
export interface Estimate {
  readonly value: number;
  readonly standardError: number;
}

/** One locus after dropping: the founder gene each fish got from either parent. Arrays are reused; copy what is to be kept. */
export type DropVisitor = (bySire: Int32Array, byDam: Int32Array, replicate: number) => void;

/**
 * Gene dropping: gives every founder two genes of its own and hands them down the pedigree by fair coin, once a replicate.
 *
 * Gene 2i is what fish i has from an unknown sire and 2i + 1 from an unknown dam, so every gene's number names its founder, and
 * the unknown parents of half-known fish are founders too. Coancestries given of founders do not enter: they say how often two
 * founder genes are alike, not which; see {@link simulatedCoancestry}. Assumes Mendelian segregation at a neutral autosomal locus.
 * Source: MacCluer JW, VandeBerg JL, Read B & Ryder OA (1986) Zoo Biology 5:147-160 (from memory).
 *
 * Cost: pedigree x replicates.
 * @throws {KinshipError} `KINSHIP_BAD_ARGUMENT`.
 * @example
 * dropGenes(pedigree, { seed: 1, replicates: 1000 }, (bySire, byDam) => {
 *   if (bySire[fry] === byDam[fry]) autozygous++;
 * });
 */
export function dropGenes(pedigree: Pedigree, options: GeneDropOptions, visit: DropVisitor): void {
  const { seed, replicates } = options;
  if (!Number.isSafeInteger(seed)) {
    throw new KinshipError('KINSHIP_BAD_ARGUMENT', `The seed is ${seed}; give a whole number.`);
  }
  if (!Number.isInteger(replicates) || replicates < 2) {
    throw new KinshipError(
      'KINSHIP_BAD_ARGUMENT',
      `replicates is ${replicates}; give a whole number of at least 2.`,
    );
  }
  const { size, sire, dam } = pedigree;
  const bits = new RandomBits(seed);
  const bySire = new Int32Array(size);
  const byDam = new Int32Array(size);
  for (let replicate = 0; replicate < replicates; replicate++) {
    let word = 0;
    let left = 0;
    for (let i = 0; i < size; i++) {
      if (left < 2) {
        word = bits.next();
        left = 32;
      }
      const s = sire[i]!;
      const d = dam[i]!;
      bySire[i] = s < 0 ? 2 * i : (word & 1) === 0 ? bySire[s]! : byDam[s]!;
      byDam[i] = d < 0 ? 2 * i + 1 : (word & 2) === 0 ? bySire[d]! : byDam[d]!;
      word >>>= 2;
      left -= 2;
    }
    visit(bySire, byDam, replicate);
    options.onProgress?.((replicate + 1) / replicates);
  }
}

/**
 * Coancestry of pairs by gene dropping: an independent check of the exact methods. Each replicate compares the two genes of
 * the one with the two of the other. Two genes of one number are alike; two numbers of founders given as inbred or related count
 * with the chance that what is given leaves them to be alike, so that the mean is right though no joint draw is made.
 *
 * @param pairs index pairs. @returns one estimate a pair.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT`.
 */
export function simulatedCoancestry(
  pedigree: Pedigree,
  pairs: readonly (readonly [number, number])[],
  options: RelatedGeneDropOptions,
): Estimate[] {
  checkIndices(pedigree, pairs.flat());
  const alikeness = alikenessOf(readFounderRelationship(pedigree, options.founders));
  const tallies = pairs.map(() => new Tally());
  dropGenes(pedigree, options, (bySire, byDam) => {
    pairs.forEach(([a, b], k) => {
      const [aSire, aDam, bSire, bDam] = [bySire[a]!, byDam[a]!, bySire[b]!, byDam[b]!];
      const alike =
        alikeness(aSire, bSire) +
        alikeness(aSire, bDam) +
        alikeness(aDam, bSire) +
        alikeness(aDam, bDam);
      tallies[k]!.add(alike / 4);
    });
  });
  return tallies.map((tally) => tally.estimate());
}

/** Chance that two genes are alike by descent, by their numbers. */
function alikenessOf(block: FounderBlock | undefined): (first: number, second: number) => number {
  if (block === undefined) return (first, second) => Number(first === second);
  const { positionOf, relationship, founders } = block;
  return (first, second) => {
    if (first === second) return 1;
    const a = positionOf.get(first >> 1);
    const b = positionOf.get(second >> 1);
    if (a === undefined || b === undefined) return 0;
    const between = relationship[a * founders.length + b]!;
    // The two genes of one founder are alike with its F.
    return a === b ? between - 1 : between / 2;
  };
}

/**
 * Inbreeding coefficient of fish by gene dropping: how often both genes are copies of one founder gene, or are alike by what is
 * given of founders, as in {@link simulatedCoancestry}.
 *
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT`.
 */
export function simulatedInbreeding(
  pedigree: Pedigree,
  fish: ArrayLike<number>,
  options: RelatedGeneDropOptions,
): Estimate[] {
  checkIndices(pedigree, fish);
  const alikeness = alikenessOf(readFounderRelationship(pedigree, options.founders));
  const tallies = Array.from(fish, () => new Tally());
  dropGenes(pedigree, options, (bySire, byDam) => {
    tallies.forEach((tally, k) => tally.add(alikeness(bySire[fish[k]!]!, byDam[fish[k]!]!)));
  });
  return tallies.map((tally) => tally.estimate());
}

/**
 * Ancestral inbreeding by gene dropping: how often a gene drawn from a fish has been one of two alike by descent in an ancestor.
 * Free of the approximation in Ballou's formula. Source of the idea: Suwanlee S, Baumung R, Sölkner J & Curik I (2007)
 * Conserv Genet 8:489-495 (from memory).
 *
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT`; `KINSHIP_RELATED_FOUNDERS` with founders given as related or
 * inbred: coancestries of pairs do not say which genes are alike together, which this has to follow.
 */
export function simulatedAncestralInbreeding(
  pedigree: Pedigree,
  fish: ArrayLike<number>,
  options: RelatedGeneDropOptions,
): Estimate[] {
  checkIndices(pedigree, fish);
  refuseRelatedFounders(
    pedigree,
    options.founders,
    'Ancestral inbreeding by gene dropping',
    'coancestries of founders do not say which of their genes are alike. Use ancestralInbreeding, which takes them.',
  );
  const { size, sire, dam } = pedigree;
  const tallies = Array.from(fish, () => new Tally());
  const exposed = new Uint8Array(2 * size);
  // The coins are not handed out, so which of a parent's genes a young got is read off the genes; where the parent's two are
  // alike both have been exposed, and where they differ the gene itself tells.
  const passedOn = (
    gene: number,
    parent: number,
    bySire: Int32Array,
    byDam: Int32Array,
  ): number => {
    if (parent < 0) return 0;
    if (bySire[parent] === byDam[parent]) return 1;
    return exposed[2 * parent + Number(gene === byDam[parent])]!;
  };
  dropGenes(pedigree, options, (bySire, byDam) => {
    for (let i = 0; i < size; i++) {
      exposed[2 * i] = passedOn(bySire[i]!, sire[i]!, bySire, byDam);
      exposed[2 * i + 1] = passedOn(byDam[i]!, dam[i]!, bySire, byDam);
    }
    tallies.forEach((tally, k) => {
      tally.add((exposed[2 * fish[k]!]! + exposed[2 * fish[k]! + 1]!) / 2);
    });
  });
  return tallies.map((tally) => tally.estimate());
}

/** What is left in a group of the two genes that one founder (or unknown parent) brought. */
export interface SimulatedRetention {
  readonly founder: number;
  readonly unknownParent: boolean;
  /** Chance that one given gene of the founder is still in the group: its expected retention. */
  readonly oneGene: Estimate;
  /** Chance that at least one of its genes is. For an unknown parent, of which one gene came in, equal to `oneGene`. */
  readonly anyGene: Estimate;
}

/**
 * Survival of founder genes in a group by gene dropping, for every founder at once. For a rare gene of which a founder carried
 * a single copy, `oneGene` is the chance that the line still has it.
 *
 * Coancestries given of founders play no part: what is followed are the founder's own two genes.
 * An unknown parent counts with the one gene it passed on, since of its other gene nothing can be known.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT`.
 */
export function simulatedRetention(
  pedigree: Pedigree,
  group: ArrayLike<number>,
  options: GeneDropOptions,
): SimulatedRetention[] {
  checkGroup(pedigree, group);
  const founders: { founder: number; genes: number[]; one: Tally; any: Tally }[] = [];
  for (let i = 0; i < pedigree.size; i++) {
    const genes: number[] = [];
    if (pedigree.sire[i]! < 0) genes.push(2 * i);
    if (pedigree.dam[i]! < 0) genes.push(2 * i + 1);
    if (genes.length > 0) founders.push({ founder: i, genes, one: new Tally(), any: new Tally() });
  }
  const lastSeen = new Int32Array(2 * pedigree.size).fill(-1);
  dropGenes(pedigree, options, (bySire, byDam, replicate) => {
    for (let k = 0; k < group.length; k++) {
      lastSeen[bySire[group[k]!]!] = replicate;
      lastSeen[byDam[group[k]!]!] = replicate;
    }
    for (const { genes, one, any } of founders) {
      let kept = 0;
      for (const gene of genes) if (lastSeen[gene] === replicate) kept++;
      one.add(kept / genes.length);
      any.add(Number(kept > 0));
    }
  });
  return founders.map(({ founder, genes, one, any }) => ({
    founder,
    unknownParent: genes.length === 1,
    oneGene: one.estimate(),
    anyGene: any.estimate(),
  }));
}

/** Mean and standard error of replicates between 0 and 1. */
export class Tally {
  #count = 0;
  #sum = 0;
  #squares = 0;

  add(value: number): void {
    this.#count++;
    this.#sum += value;
    this.#squares += value * value;
  }

  estimate(): Estimate {
    const value = this.#sum / this.#count;
    const variance = Math.max(0, this.#squares / this.#count - value * value);
    return { value, standardError: Math.sqrt(variance / (this.#count - 1)) };
  }
}
