import { passesAim } from '@linewright/mating';
import type { PurposeContent } from '../../api/line-purpose.js';
import type { Brood } from '../../api/round-course.js';
import { type SpawnStage, stagesInOrder } from '../../wording/words.js';
import { comparedFish } from '../line-purpose/compared-fish.js';

type BroodFish = Brood['fish'][number];

/** How many of the young were scored, their mean, and how many pass; of the kept alone and of all. */
export interface TraitCame {
  readonly all: ScoredYoung;
  readonly kept: ScoredYoung;
}

export interface ScoredYoung {
  readonly scored: number;
  /** `null` where none was scored. */
  readonly mean: number | null;
  readonly passing: number;
}

/** Of how many young a look is known, and how many of them show it. */
export interface LookCame {
  readonly known: number;
  readonly showing: number;
}

export interface BroodCame {
  /** The largest count of each stage that was counted, in order. */
  readonly counts: readonly { readonly stage: SpawnStage; readonly number: number }[];
  readonly died: number;
  readonly culled: number;
  /** Young with a record of their own, and those of them that are kept or on hold. */
  readonly recorded: number;
  readonly kept: readonly { readonly id: string; readonly tag: string }[];
  readonly unsorted: number;
  /** In the order of the purpose. */
  readonly traits: readonly TraitCame[];
  readonly looks: readonly LookCame[];
}

const isKept = ({ disposition }: BroodFish): boolean =>
  disposition === 'KEEPER' || disposition === 'HOLD';

/** What came of a brood in what was wished for when it was planned. */
export function whatCame(
  { counts, losses, fish }: Brood,
  { traits, looks }: Pick<PurposeContent, 'traits' | 'looks'>,
): BroodCame {
  const standing = fish.filter(({ withdrawn }) => withdrawn === null);
  const lost = (kind: string, disposition: string): number =>
    losses.reduce((sum, one) => sum + (one.kind === kind ? one.number : 0), 0) +
    standing.filter((one) => one.disposition === disposition).length;
  const kept = standing.filter(isKept);
  return {
    counts: stagesInOrder.flatMap((stage) => {
      const numbers = counts.filter((one) => one.stage === stage).map(({ number }) => number);
      return numbers.length === 0 ? [] : [{ stage, number: Math.max(...numbers) }];
    }),
    died: lost('DIED', 'DIED'),
    culled: lost('CULLED', 'CULLED'),
    recorded: standing.length,
    kept: kept.map(({ id, tag }) => ({ id, tag })),
    unsorted: standing.filter(({ disposition }) => disposition === 'UNSORTED').length,
    traits: traits.map((aim) => ({ all: scored(standing, aim), kept: scored(kept, aim) })),
    looks: looks.map((aim) => lookCame(standing, aim)),
  };
}

function scored(
  fish: readonly BroodFish[],
  aim: Pick<PurposeContent['traits'][number], 'traitId' | 'low' | 'high'>,
): ScoredYoung {
  const values = fish.flatMap(
    ({ latestScores }) => latestScores.find(({ trait }) => trait.id === aim.traitId)?.value ?? [],
  );
  const sum = values.reduce((total, value) => total + value, 0);
  const standard = { ...aim, better: 'higher', worth: 0 } as const;
  return {
    scored: values.length,
    mean: values.length === 0 ? null : sum / values.length,
    passing: values.filter((value) => passesAim(standard, value)).length,
  };
}

function lookCame(
  fish: readonly BroodFish[],
  { show }: Pick<PurposeContent['looks'][number], 'show'>,
): LookCame {
  const shown = fish.flatMap((one) => {
    const { looks } = comparedFish(one);
    const parts = show.map(({ locusId, phenotype }) => {
      const seen = looks.get(locusId);
      return seen === undefined ? null : seen === phenotype;
    });
    if (parts.includes(false)) return [false];
    return parts.includes(null) ? [] : [true];
  });
  return { known: shown.length, showing: shown.filter(Boolean).length };
}
