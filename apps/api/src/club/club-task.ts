import {
  coancestryAmongGroups,
  founderContributions,
  simulatedRetention,
} from '@linewright/kinship';
import { type PedigreePart, pedigreeOfPart } from '../kinship/pedigree-part.js';

/** Fish in use of some lines with all their ancestors, by index. It can pass between threads. */
export interface ClubTask {
  readonly part: PedigreePart;
  /** Fish in use, line by line. */
  readonly groups: readonly Int32Array[];
}

/** What of a founder is left, line by line. */
export interface HeldFounder {
  readonly founder: number;
  readonly unknownParent: boolean;
  /** Expected share in the genes of the fish in use; 0 for a line without any. */
  readonly shares: readonly number[];
  /** Chance that at least one of its genes is still there, by dropping genes. */
  readonly chances: readonly number[];
}

export interface ClubAnswer {
  /** Lines x lines, row-major; `NaN` for a line without fish in use. */
  readonly kinship: Float64Array;
  readonly founders: readonly HeldFounder[];
}

/** The same drops for the same records: a figure must not move when the page is read again. */
const SEED = 20_260_101;
export const REPLICATES = 400;

/** Kinship between the lines, and what each holds of every founder. Cost: pedigree times lines times replicates. */
export const clubAnswerOf = ({ part, groups }: ClubTask): ClubAnswer => {
  const pedigree = pedigreeOfPart(part);
  interface Filled extends HeldFounder {
    readonly shares: number[];
    readonly chances: number[];
  }
  const founders = new Map<string, Filled>();
  const held = (founder: number, unknownParent: boolean): Filled => {
    const key = `${founder} ${unknownParent}`;
    const none = () => groups.map(() => 0);
    const known = founders.get(key) ?? { founder, unknownParent, shares: none(), chances: none() };
    founders.set(key, known);
    return known;
  };
  groups.forEach((group, k) => {
    if (group.length === 0) return;
    for (const { founder, unknownParent, contribution } of founderContributions(pedigree, group))
      held(founder, unknownParent).shares[k] = contribution;
    const drops = { seed: SEED, replicates: REPLICATES };
    for (const { founder, unknownParent, anyGene } of simulatedRetention(pedigree, group, drops))
      if (anyGene.value > 0) held(founder, unknownParent).chances[k] = anyGene.value;
  });
  return { kinship: coancestryAmongGroups(pedigree, groups), founders: [...founders.values()] };
};
