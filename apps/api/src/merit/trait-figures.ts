import type { ModelAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { meanLooks } from './scores-of-task.js';
import type { TraitStock } from './trait-records.service.js';

/** How a trait is inherited where a line stands, for what foretells its young: the level in the trait's unit, variances in its square. */
export interface TraitFigures {
  /** What a breeding value of 0 scores: mean score of some scored fish less the mean of their breeding values. */
  readonly level: number;
  readonly additive: number;
  /** Not inherited, and the same for all young of a brood: what the brood shares, and the place in which it grows up. */
  readonly commonBrood: number;
  /** All else, with what stays with a fish from look to look and how scorers differ. */
  readonly residual: number;
}

/** Random terms of which all young of a brood have one level. */
export const SHARED_BY_BROOD: readonly string[] = ['brood', 'place'];
/** Fewer scored fish of a line than this do not tell where it stands: then all scored fish do. */
const LEAST_OF_LINE = 5;

/** The scored fish that tell where a line stands, each once: its own when there are enough of them, else all. */
export const fishOfLevel = (
  { task, facts, pedigree }: Pick<TraitStock, 'task' | 'facts' | 'pedigree'>,
  lineId: string | null,
): number[] => {
  const scored = [...new Set(task.fish)];
  const ofLine = scored.filter((i) => facts.get(pedigree.ids[i]!)?.lineId === lineId);
  return ofLine.length >= LEAST_OF_LINE ? ofLine : scored;
};

/**
 * A trait's variances and level, the same for whatever judges pairs or simulates lines. A fish counts once for the level, however often it was
 * looked at.
 *
 * @param value breeding value of each fish of the pedigree. @param fish scored ones, of {@link fishOfLevel}.
 */
export const traitFigures = (
  task: Pick<MeritTask, 'sire' | 'fish' | 'values'>,
  { shares, variance }: Pick<ModelAnswer, 'shares' | 'variance'>,
  value: (fish: number) => number,
  fish: readonly number[],
): TraitFigures => {
  const score = meanLooks(task);
  const shared = shares.others
    .filter(({ name }) => SHARED_BY_BROOD.includes(name))
    .reduce((sum, { share }) => sum + share, 0);
  return {
    level: meanOf(fish.map((i) => score[i]!)) - meanOf(fish.map(value)),
    additive: variance * shares.heritability,
    commonBrood: variance * shared,
    residual: variance * Math.max(0, 1 - shares.heritability - shared),
  };
};

/** Mean of a list that is not empty. */
export const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
