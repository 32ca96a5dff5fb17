import { subset, withAncestors, type Pedigree } from '@linewright/pedigree';
import { refuseRelatedFounders, type FounderOptions } from '../founder-relationship.js';
import { meanKinship } from '../relationship-product.js';
import { groupAncestry, survivalInGroup } from './allele-survival.js';
import { checkGroup, founderContributions, type FounderContribution } from './founders.js';
import { simulatedRetention } from './gene-drop.js';

/** A founder's share of a group's genes and what is left there of the two genes it brought. */
export interface RetainedFounder extends FounderContribution {
  /**
   * Expected part of the founder's genes still in the group, 0 to 1. An unknown parent, of which one young is on record, keeps
   * at most 1/2.
   */
  readonly retention: number;
  /** Chance that at least one of its genes is still there. */
  readonly survival: number;
  /** Standard error of `retention`; 0 when it is exact. */
  readonly standardError: number;
}

export interface RetainedGenomes {
  /** f_g = 1 / sum of (p_f squared / r_f). */
  readonly equivalents: number;
  /** Whether every retention is exact; else it rests on gene drops, see `standardError` of each. */
  readonly exact: boolean;
  readonly founders: readonly RetainedFounder[];
}

export interface RetentionOptions extends FounderOptions {
  /** Seed of the gene drops that stand in where the exact method is too costly. */
  readonly seed: number;
  /** 2,000 by default. */
  readonly replicates?: number;
  /** States the exact method may go through for each founder; 200,000 by default, 0 to simulate at once. */
  readonly budget?: number;
  /** Told how far the gene drops are, 0 to 1, when there are any. */
  readonly onProgress?: (share: number) => void;
}

/**
 * Founder genome equivalents by retention: how many founders with equal contributions and nothing lost to drift would hold the
 * variety that the group still holds. As a rule f_g < f_a < f_e: each sees a loss that the next does not.
 *
 * f_g = 1 / sum over founders of p^2 / r, p the founder's contribution and r the expected part of its genes retained. Not the
 * same quantity as {@link genomeEquivalentsByKinship}, whatever the likeness of the names: on the example in Lacy's paper
 * the one is 24/11 and the other 16/9.
 *
 * Source: Lacy RC (1989) Zoo Biology 8:111-123. Retention is exact (`alleleSurvival`) where few carriers breed at a time
 * and by gene dropping elsewhere.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for an empty group; `KINSHIP_RELATED_FOUNDERS` with founders
 * given as related or inbred: it counts genes that differ from founder to founder, and coancestries do not say which are alike.
 * Ask {@link genomeEquivalentsByKinship} then.
 */
export function founderGenomeEquivalents(
  pedigree: Pedigree,
  group: ArrayLike<number>,
  options: RetentionOptions,
): RetainedGenomes {
  refuseRelatedFounders(
    pedigree,
    options.founders,
    'Founder genome equivalents by retention',
    'they count genes that differ from founder to founder. Use genomeEquivalentsByKinship, which takes related founders.',
  );
  const contributions = founderContributions(pedigree, group);
  const budget = options.budget ?? 200_000;
  const ancestry = groupAncestry(pedigree, group);
  let simulated: Map<number, RetainedFounder> | undefined;
  const founders = contributions.map((contribution): RetainedFounder => {
    const genes = contribution.unknownParent ? 0.5 : 1;
    // Once one founder was too costly the drops have been made for all, so the rest need not be tried.
    const exact =
      simulated === undefined && budget > 0
        ? survivalInGroup(pedigree, ancestry, contribution, budget)
        : null;
    if (exact !== null) {
      const { oneGene, anyGene } = exact;
      return { ...contribution, retention: genes * oneGene, survival: anyGene, standardError: 0 };
    }
    simulated ??= simulate(pedigree, group, contributions, options);
    return simulated.get(contribution.founder)!;
  });
  const squares = founders.reduce(
    (sum, { contribution, retention }) =>
      // A founder whose genes no replicate kept; its retention is at least its contribution.
      sum + contribution ** 2 / (retention > 0 ? retention : contribution),
    0,
  );
  return { equivalents: 1 / squares, exact: simulated === undefined, founders };
}

function simulate(
  pedigree: Pedigree,
  group: ArrayLike<number>,
  contributions: readonly FounderContribution[],
  { seed, replicates = 2000, onProgress }: RetentionOptions,
): Map<number, RetainedFounder> {
  // Only the group and its ancestors need genes dropped.
  const needed = withAncestors(pedigree, group);
  const local = subset(pedigree, needed);
  const place = new Map<number, number>();
  needed.forEach((index, at) => place.set(index, at));
  const drops = simulatedRetention(
    local,
    Array.from(group, (fish) => place.get(fish)!),
    { seed, replicates, ...(onProgress && { onProgress }) },
  );
  const byFounder = new Map(drops.map((drop) => [needed[drop.founder]!, drop]));
  return new Map(
    contributions.map((contribution) => {
      const { oneGene, anyGene } = byFounder.get(contribution.founder)!;
      const genes = contribution.unknownParent ? 0.5 : 1;
      return [
        contribution.founder,
        {
          ...contribution,
          retention: genes * oneGene.value,
          survival: anyGene.value,
          standardError: genes * oneGene.standardError,
        },
      ];
    }),
  );
}

/**
 * Founder genome equivalents by mean kinship: the number of unrelated, non-inbred founders among which genes drawn at random
 * would be as seldom alike by descent as in the group. 1 / (2 x mean coancestry of the group, each fish with itself included).
 *
 * A single fish gives 1 / (1 + F). Kept apart from {@link founderGenomeEquivalents}, which asks what is left of each founder.
 * Source: Ballou JD & Lacy RC (1995) in Population Management for Survival and Recovery, Columbia University Press (from memory).
 * Cost: as one product A x.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for an empty group.
 */
export function genomeEquivalentsByKinship(
  pedigree: Pedigree,
  group: ArrayLike<number>,
  options: FounderOptions = {},
): number {
  checkGroup(pedigree, group);
  const kinship = meanKinship(pedigree, group, options);
  return kinship.length / (2 * kinship.reduce((sum, value) => sum + value, 0));
}
