import { broodInbreeding, type BroodInbreeding } from '@linewright/merit';
import type { Pedigree } from '@linewright/pedigree';
import type { CountedBroodRow } from '../stock/merit-rows.js';
import type { StageCounts } from './line-load.js';
import { LoadStage } from './line-load.model.js';

/** From which count to which each stage runs; null where it was not counted. */
const ends: Readonly<
  Record<LoadStage, (brood: CountedBroodRow) => readonly [from: number | null, to: number | null]>
> = {
  hatch: ({ eggs, hatched }) => [eggs, hatched],
  free_swimming: ({ hatched, freeSwimming }) => [hatched, freeSwimming],
  sorting: ({ freeSwimming, jarred, sorted }) => [freeSwimming, jarred ?? sorted],
  sound: ({ twoWeeks, freeSwimming, faulty }) => {
    const from = twoWeeks ?? freeSwimming;
    return [from, from === null ? null : from - faulty];
  },
};

/** A brood that was counted at both ends of a stage. */
export interface StageRow {
  readonly brood: CountedBroodRow;
  readonly counted: number;
  readonly survivors: number;
}

export interface BroodStage {
  readonly stage: LoadStage;
  readonly rows: readonly StageRow[];
  /** Row by row. */
  readonly counts: StageCounts;
}

/** Where a fish stands in the pedigree; -1 for one that is not in it. */
export const indexIn =
  (pedigree: Pedigree) =>
  (id: string): number =>
    pedigree.has(id) ? pedigree.indexOf(id) : -1;

/** Counted broods with both parents in the pedigree, the F behind each, and by stage those that were counted at both ends of it. */
export const stagesOf = (
  all: readonly CountedBroodRow[],
  pedigree: Pedigree,
): {
  readonly broods: readonly CountedBroodRow[];
  readonly inbreeding: BroodInbreeding;
  readonly stages: readonly BroodStage[];
} => {
  const index = indexIn(pedigree);
  // A parent nobody knows leaves F unknown: such broods tell nothing here.
  const broods = all.filter(({ sireId, damId }) => index(sireId) >= 0 && index(damId) >= 0);
  const inbreeding = broodInbreeding(
    pedigree,
    broods.map(({ sireId, damId }) => ({ sire: index(sireId), dam: index(damId) })),
  );
  const stages = Object.values(LoadStage).map((stage): BroodStage => {
    const found = broods.flatMap((brood, k) => {
      const [counted, survivors] = ends[stage](brood);
      const usable =
        counted !== null &&
        survivors !== null &&
        counted > 0 &&
        survivors >= 0 &&
        survivors <= counted;
      return usable ? [{ brood, k, counted, survivors }] : [];
    });
    const column = (of: 'young' | 'dam' | 'recent' | 'old'): number[] =>
      found.map(({ k }) => Math.min(1, Math.max(0, inbreeding[of].values[k]!)));
    return {
      stage,
      rows: found,
      counts: {
        survivors: found.map(({ survivors }) => survivors),
        counted: found.map(({ counted }) => counted),
        young: column('young'),
        dam: column('dam'),
        recent: column('recent'),
        old: column('old'),
      },
    };
  });
  return { broods, inbreeding, stages };
};
