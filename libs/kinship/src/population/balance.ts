import type { Pedigree } from '@linewright/pedigree';
import {
  checkGroup,
  founderContributions,
  sharesFromSource,
  type FounderContribution,
  type FounderSource,
} from './founders.js';

/** A breeder's or founder's part in a group, against an equal part. */
export interface Share {
  readonly fish: number;
  /** True for the unknown parent of `fish`. */
  readonly unknownParent: boolean;
  /** Part of the group's genes, 0 to 1. */
  readonly share: number;
  /** The part each would have if all of its kind had the same. */
  readonly equalShare: number;
  /** Young in the group; for founders 0, as their part comes over several generations. */
  readonly young: number;
}

export interface OverContributors {
  readonly founders: readonly Share[];
  readonly sires: readonly Share[];
  readonly dams: readonly Share[];
}

/**
 * Who contributes more than an equal share: among the founders of a group, among its sires and among its dams. The largest
 * excess first. A sire's equal share is half of the genes divided by the number of sires known, less the part of fish whose sire
 * is unknown; a dam's likewise.
 *
 * Cost: one pass. @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for an empty group.
 */
export function overContributors(pedigree: Pedigree, group: ArrayLike<number>): OverContributors {
  const founders = founderContributions(pedigree, group);
  const equalShare = 1 / founders.length;
  return {
    founders: aboveEqual(
      founders.map(({ founder, unknownParent, contribution }) => ({
        fish: founder,
        unknownParent,
        share: contribution,
        equalShare,
        young: 0,
      })),
    ),
    sires: aboveEqual(parentShares(pedigree.sire, group)),
    dams: aboveEqual(parentShares(pedigree.dam, group)),
  };
}

function parentShares(parents: Int32Array, group: ArrayLike<number>): Share[] {
  const young = new Map<number, number>();
  let known = 0;
  for (let k = 0; k < group.length; k++) {
    const parent = parents[group[k]!]!;
    if (parent < 0) continue;
    known++;
    young.set(parent, (young.get(parent) ?? 0) + 1);
  }
  return [...young].map(([fish, count]) => ({
    fish,
    unknownParent: false,
    share: count / (2 * group.length),
    equalShare: known / (2 * group.length * young.size),
    young: count,
  }));
}

function aboveEqual(shares: readonly Share[]): Share[] {
  return shares
    .filter(({ share, equalShare }) => share > equalShare * (1 + 1e-9))
    .sort((a, b) => b.share - a.share || a.fish - b.fish);
}

export interface FounderCarriers extends FounderContribution {
  /** Fish of the group with the largest expected part of this founder, largest first. */
  readonly carriers: readonly { readonly fish: number; readonly share: number }[];
  /** How many fish that are not listed carry as much as the last one listed. */
  readonly moreAsMuch: number;
}

/**
 * The founders with the smallest part in a group, each with the fish that carry most of it: the fish to breed from if a
 * founder is not to be lost.
 *
 * @param options `founders` and `carriers`: how many of either to list, 3 and 5 by default.
 * Cost: one pass for each founder listed.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for an empty group.
 */
export function rarestFounders(
  pedigree: Pedigree,
  group: ArrayLike<number>,
  options: { readonly founders?: number; readonly carriers?: number } = {},
): FounderCarriers[] {
  const { founders = 3, carriers = 5 } = options;
  return founderContributions(pedigree, group)
    .reverse()
    .slice(0, founders)
    .map((source) => {
      const share = sharesFromSource(pedigree, source);
      const ranked = [...new Set(Array.from(group))]
        .filter((fish) => share[fish]! > 0)
        .sort((a, b) => share[b]! - share[a]! || a - b);
      const listed = ranked.slice(0, carriers);
      const least = share[listed.at(-1) ?? -1] ?? Infinity;
      return {
        ...source,
        carriers: listed.map((fish) => ({ fish, share: share[fish]! })),
        moreAsMuch: ranked.slice(carriers).filter((fish) => share[fish]! > least - 1e-12).length,
      };
    });
}

/** Founders' expected shares, generation by generation. */
export interface SharesOverTime {
  readonly generations: readonly number[];
  readonly founders: readonly FounderSource[];
  /** Generations x founders, row-major; each row adds up to 1. */
  readonly shares: Float64Array;
}

/**
 * How the founders' shares moved over the generations of a line: the mean share of every founder among the fish of each
 * generation. Founders come in the order of the last generation's shares.
 *
 * @param fish the line; founders are found among them and their ancestors.
 * @param generation generation number of every fish of the pedigree.
 * Cost: one pass for each founder.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for an empty line.
 */
export function founderSharesOverTime(
  pedigree: Pedigree,
  fish: ArrayLike<number>,
  generation: ArrayLike<number>,
): SharesOverTime {
  checkGroup(pedigree, fish);
  const counts = new Map<number, number>();
  for (let k = 0; k < fish.length; k++) {
    const at = generation[fish[k]!]!;
    counts.set(at, (counts.get(at) ?? 0) + 1);
  }
  const generations = [...counts.keys()].sort((a, b) => a - b);
  const rowOf = new Map(generations.map((at, index) => [at, index]));
  const row = Int32Array.from(fish, (i) => rowOf.get(generation[i]!)!);
  const weight = Float64Array.from(fish, (i) => 1 / counts.get(generation[i]!)!);
  const sources = founderContributions(pedigree, fish);
  const byFounder = sources.map((source) => {
    const share = sharesFromSource(pedigree, source);
    const means = new Float64Array(generations.length);
    for (let k = 0; k < row.length; k++) means[row[k]!]! += share[fish[k]!]! * weight[k]!;
    return { founder: source.founder, unknownParent: source.unknownParent, means };
  });
  const last = generations.length - 1;
  byFounder.sort((a, b) => b.means[last]! - a.means[last]! || a.founder - b.founder);
  const shares = new Float64Array(generations.length * byFounder.length);
  byFounder.forEach(({ means }, column) => {
    means.forEach((value, at) => (shares[at * byFounder.length + column] = value));
  });
  return {
    generations,
    founders: byFounder.map(({ founder, unknownParent }) => ({ founder, unknownParent })),
    shares,
  };
}
