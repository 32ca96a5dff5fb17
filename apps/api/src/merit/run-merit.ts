import {
  type AnimalScores,
  animalModel,
  asNumbers,
  bandsOfAll,
  type ClassScores,
  classesOverHeritability,
  componentsOf,
  Equations,
  type FixedEffect,
  type HeritabilityPrior,
  MeritError,
  notesOn,
  partWays,
  type Posterior,
  solveAtRatios,
  type SolvedModel,
  solveThreshold,
  valuesByReml,
  valuesOverHeritability,
} from '@linewright/merit';
import type { Pedigree } from '@linewright/pedigree';
import {
  type Comparison,
  type EffectAnswer,
  type HeritabilityAnswer,
  type MeritAnswer,
  type ModelAnswer,
  PROBABILITIES,
  type Refusal,
  type RemlAnswer,
  type SharesAnswer,
  type ValuesAnswer,
} from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { fishWorthScoring, narrowings } from './narrowing.js';
import { gridFor, hasClasses, pedigreeOfTask, scoresOfTask } from './scores-of-task.js';
import { priorOf } from './trait-settings.js';
import { trendsOf } from './trend.js';

export type Progress = (share: number) => void;

/** Nine digits are more than any of it is known to, and keep a stored answer short. */
const short = (value: number): number => Number(value.toPrecision(9));

/** Runs an estimate that the scores may not let be made. */
const orRefusal = <Answer>(
  run: () => Answer,
): { answer: Answer; refusal: null } | { answer: null; refusal: Refusal } => {
  try {
    return { answer: run(), refusal: null };
  } catch (error) {
    if (!(error instanceof MeritError)) throw error;
    return { answer: null, refusal: { code: error.code, message: error.message } };
  }
};

/** Numbers in a factor of the equations, eight bytes each, beyond which it is not made: 400 MB. */
const MOST_ENTRIES = 5e7;

/** Why the equations of so many fish are not even tried: they would not fit in memory. Null when they fit. */
const tooLarge = (scores: AnimalScores, most: number): Refusal | null =>
  orRefusal(() => {
    if (scores.fish.length === 0) return;
    if (new Equations(animalModel(scores).model).affordable(most) !== null) return;
    throw new MeritError(
      'MERIT_TOO_LARGE',
      `With ${scores.pedigree.size.toLocaleString('en-GB')} fish in the pedigree and ${scores.fish.length.toLocaleString('en-GB')} scores, values with their errors do not fit in memory here.`,
    );
  }).refusal;

const refused = (refusal: Refusal, classed: boolean): MeritAnswer => ({
  ...{ linear: null, reml: null, threshold: null, shown: 'linear', comparison: null },
  ...{ notes: [], trends: [], narrowing: [], worth: [] },
  linearRefusal: refusal,
  remlRefusal: refusal,
  thresholdRefusal: classed ? refusal : null,
});

/** All figures of a trait in one go. @param mostEntries numbers in a factor beyond which nothing is tried. */
export const runMerit = (
  task: MeritTask,
  onProgress: Progress = () => undefined,
  mostEntries = MOST_ENTRIES,
): MeritAnswer => {
  const pedigree = pedigreeOfTask(task);
  const scores = scoresOfTask(task, pedigree);
  const large = tooLarge(scores, mostEntries);
  if (large?.code === 'MERIT_TOO_LARGE') return refused(large, hasClasses(task));
  const prior = priorOf(task);
  const classed = hasClasses(task);
  const half = classed ? 0.45 : 0.9;
  const linear = orRefusal(() =>
    linearModel(task, scores, prior, (share) => onProgress(half * share)),
  );
  const threshold = classed
    ? orRefusal(() =>
        thresholdModel(task, scores, prior, (share) => onProgress(half * (1 + share))),
      )
    : { answer: null, refusal: null };
  const reml = orRefusal(() => remlOf(scores));
  onProgress(0.95);
  const worth = linear.answer === null ? [] : fishWorthScoring(task, linear.answer.solved);
  const comparison =
    linear.answer === null || threshold.answer === null
      ? null
      : compare(pedigree, task, linear.answer.model.values, threshold.answer.values);
  return {
    linear: linear.answer?.model ?? null,
    linearRefusal: linear.refusal,
    reml: reml.answer,
    remlRefusal: reml.refusal,
    threshold: threshold.answer,
    thresholdRefusal: threshold.refusal,
    shown: threshold.answer === null ? 'linear' : 'threshold',
    comparison,
    notes: [
      ...(linear.answer === null ? [] : notesOn(scores, linear.answer.solved)),
      ...(comparison?.notes ?? []),
    ],
    trends:
      linear.answer === null
        ? []
        : trendsOf(task, linear.answer.solved, linear.answer.model.heritability.mean),
    worth,
    narrowing:
      linear.answer === null ? [] : narrowings(task, scores, linear.answer.posterior, worth),
  };
};

/** The same without a word of how far it is, for a thread of a request. */
export const answerOf = (task: MeritTask): MeritAnswer => runMerit(task);

const linearModel = (
  task: MeritTask,
  scores: AnimalScores,
  prior: HeritabilityPrior,
  onProgress: Progress,
): { model: ModelAnswer; solved: SolvedModel; posterior: Posterior } => {
  const grid = gridFor(task, 'linear');
  const posterior = valuesOverHeritability(scores, {
    prior,
    ...grid,
    onPoint: (done, all) => {
      onProgress(done / all);
      return true;
    },
  });
  const shares = sharesOf(posterior, scores);
  const solved = solvedAtShares(scores, shares);
  return {
    solved,
    posterior,
    model: {
      heritability: heritabilityOf(posterior),
      shares,
      variance: short(varianceOf(solved)),
      effects: componentsOf(solved, null).fixedEffects.map(toEffect),
      values: valuesOf(posterior),
    },
  };
};

const varianceOf = ({ variances: { random, residual } }: SolvedModel): number =>
  [...random, residual].reduce((sum, matrix) => sum + matrix[0]![0]!, 0);

/** The equations at the mean shares: for reasons, means and trends, which need one set of variances. */
export const solvedAtShares = (scores: AnimalScores, shares: SharesAnswer): SolvedModel => {
  const animal = animalModel(scores);
  const { heritability, others, residual } = shares;
  return solveAtRatios(
    animal,
    new Equations(animal.model),
    [heritability, ...others.map(({ share }) => share)].map((share) => share / residual),
  );
};

const thresholdModel = (
  task: MeritTask,
  scores: AnimalScores,
  prior: HeritabilityPrior,
  onProgress: Progress,
): ModelAnswer => {
  const classes = [...new Set(task.values)].sort((a, b) => a - b);
  const grid = gridFor(task, 'threshold');
  const classScores: ClassScores = {
    ...(scores as Omit<AnimalScores, 'groups' | 'traits'>),
    trait: task.trait,
    scores: Int32Array.from(task.values, (value) => classes.indexOf(value)),
    classes: classes.length,
  };
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
  const { model } = animalModel(asNumbers(scores));
  const { equations, solution, errorVariances, thresholds } = solveThreshold({
    scores: scores.scores,
    classes: scores.classes,
    fixed: model.fixed,
    random: model.random,
    variances: meanShares.map((share) => share / residual),
  });
  const unit = Math.sqrt(residual);
  const effect = (column: string, level: string | null, k: number): EffectAnswer => ({
    column,
    level,
    value: short(unit * solution[k]!),
    standardError: short(unit * Math.sqrt(errorVariances[k]!)),
  });
  return [
    ...Array.from(thresholds, (_, k) =>
      effect('threshold', `${classes[k]!} to ${classes[k + 1]!}`, k),
    ),
    ...equations.fixed.map(({ column, level }, k) => effect(column, level, thresholds.length + k)),
  ];
};

const toEffect = ({ column, level, value, standardError }: FixedEffect): EffectAnswer => ({
  column,
  level,
  value: short(value),
  standardError: standardError === null ? null : short(standardError),
});

const heritabilityOf = (posterior: Posterior): HeritabilityAnswer => {
  const { mean, standardDeviation, grid, priorMean, priorDeviation, fromPrior } =
    posterior.heritability;
  return {
    mean,
    standardDeviation,
    bands: PROBABILITIES.map((probability) => ({
      probability,
      ...posterior.heritabilityBand(probability),
    })),
    grid,
    priorMean,
    priorDeviation,
    fromPrior,
  };
};

const sharesOf = (posterior: Posterior, scores: AnimalScores): SharesAnswer => {
  const names = [
    ...(scores.permanent === true ? ['looks'] : []),
    ...(scores.shared ?? []).map(({ name }) => name),
  ];
  const [heritability = 0, ...others] = posterior.meanShares;
  return {
    heritability,
    residual: 1 - posterior.meanShares.reduce((sum, share) => sum + share, 0),
    others: others.map((share, k) => ({ name: names[k] ?? '', share })),
  };
};

const valuesOf = (posterior: Posterior): ValuesAnswer => {
  const bands = bandsOfAll(posterior, PROBABILITIES);
  const finite = (value: number, k: number): number =>
    // With one score above the levels Student's t has no variance: the widest point of the grid stands for it.
    short(
      Number.isFinite(value)
        ? value
        : Math.max(...posterior.points.map(({ standardError }) => standardError[k]!)),
    );
  return {
    value: Array.from(posterior.value, short),
    standardError: Array.from(posterior.standardError, finite),
    accuracy: Array.from(posterior.accuracy, short),
    bands: Array.from(posterior.value, (_, fish) =>
      bands.flatMap((of) => [short(of[fish]!.low), short(of[fish]!.high)]),
    ).flat(),
  };
};

const remlOf = (scores: AnimalScores): RemlAnswer => {
  const { components } = valuesByReml(scores);
  const terms = [...components.random, components.residual];
  return {
    heritability: { ...components.heritability[0]! },
    terms: terms.map(({ name, estimates }) => {
      const { value, standardError } = estimates[0]![0]!;
      return {
        name: name === 'permanent' ? 'looks' : name,
        value,
        standardError,
        atEdge: value === 0,
      };
    }),
    iterations: components.iterations,
  };
};

const compare = (
  { sire, dam }: Pedigree,
  task: MeritTask,
  linear: ValuesAnswer,
  threshold: ValuesAnswer,
): Comparison => {
  const scored = new Set(task.fish);
  for (const index of task.fish)
    for (const parent of [sire[index]!, dam[index]!]) if (parent >= 0) scored.add(parent);
  const { rankCorrelation, bestDiffer, notes } = partWays(threshold.value, linear.value, [
    ...scored,
  ]);
  return {
    rankCorrelation: Number.isFinite(rankCorrelation) ? rankCorrelation : null,
    partWays: bestDiffer.length > 0,
    notes,
  };
};
