import {
  type AnimalScores,
  animalModel,
  asNumbers,
  type ClassScores,
  classesOverHeritability,
  FIXED_DEVIATION,
  type HeritabilityPrior,
  MomentsSolver,
  type Posterior,
  type ThresholdModel,
} from '@linewright/merit';
import {
  heritabilityOf,
  type Progress,
  ratiosOf,
  sharesOf,
  short,
  valuesOf,
} from './linear-model.js';
import type { EffectAnswer, ModelAnswer, SharesAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { gridFor } from './scores-of-task.js';

/** The grades that were seen, rising. */
export const classesOf = ({ values }: Pick<MeritTask, 'values'>): number[] =>
  [...new Set(values)].sort((a, b) => a - b);

const inClasses = (task: MeritTask, scores: AnimalScores): ClassScores => {
  const classes = classesOf(task);
  return {
    ...(scores as Omit<AnimalScores, 'groups' | 'traits'>),
    trait: task.trait,
    scores: Int32Array.from(task.values, (value) => classes.indexOf(value)),
    classes: classes.length,
  };
};

/** The model of a task's grades at given shares. */
export const thresholdAtShares = (
  task: MeritTask,
  scores: AnimalScores,
  shares: SharesAnswer,
): ThresholdModel => modelAt(inClasses(task, scores), ratiosOf(shares));

const modelAt = (scores: ClassScores, variances: readonly number[]): ThresholdModel => {
  const { fixed, random } = animalModel(asNumbers(scores)).model;
  return {
    ...{ scores: scores.scores, classes: scores.classes },
    ...{ fixed, fixedDeviation: FIXED_DEVIATION, random, variances },
  };
};

/** Breeding values with grades taken as steps of an unseen scale. */
export const thresholdModel = (
  task: MeritTask,
  scores: AnimalScores,
  prior: HeritabilityPrior,
  onProgress: Progress,
): ModelAnswer => {
  const classes = classesOf(task);
  const grid = gridFor(task, 'threshold');
  const classScores = inClasses(task, scores);
  const posterior = classesOverHeritability(classScores, {
    prior,
    ...grid,
    onPoint: (done, all) => {
      onProgress(done / all);
      return true;
    },
  });
  return {
    heritability: heritabilityOf(posterior),
    shares: sharesOf(posterior, scores),
    variance: 1,
    effects: liabilityEffects(classScores, classes, posterior),
    values: valuesOf(posterior),
  };
};

/** Thresholds and fixed effects at the mean shares, in standard deviations of the liability. */
const liabilityEffects = (
  scores: ClassScores,
  classes: readonly number[],
  { meanShares }: Posterior,
): EffectAnswer[] => {
  const residual = 1 - meanShares.reduce((sum, share) => sum + share, 0);
  const variances = meanShares.map((share) => share / residual);
  const { equations, mean, variance } = new MomentsSolver(modelAt(scores, variances)).at(variances);
  const unit = Math.sqrt(residual);
  const effect = (column: string, level: string | null, k: number): EffectAnswer => ({
    column,
    level,
    value: short(unit * mean[k]!),
    standardError: short(unit * Math.sqrt(variance[k]!)),
  });
  return [
    ...classes.slice(1).map((above, k) => effect('threshold', `${classes[k]!} to ${above}`, k)),
    ...equations.fixed.map(({ column, level }, k) => effect(column, level, classes.length - 1 + k)),
  ];
};
