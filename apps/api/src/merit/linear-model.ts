import {
  type AnimalScores,
  bandsOfAll,
  componentsOf,
  type FixedEffect,
  type HeritabilityPrior,
  MeritError,
  type Posterior,
  solveAtRatios,
  type SolvedModel,
  valuesByReml,
  valuesOverHeritability,
  type WrittenModel,
  writtenModel,
} from '@linewright/merit';
import {
  type EffectAnswer,
  type HeritabilityAnswer,
  type ModelAnswer,
  PROBABILITIES,
  type Refusal,
  type RemlAnswer,
  type SharesAnswer,
  type ValuesAnswer,
} from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { plainMessage } from './remedies.js';
import { gridFor } from './scores-of-task.js';

export type Progress = (share: number) => void;

/** Nine digits are more than any of it is known to, and keep a stored answer short. */
export const short = (value: number): number => Number(value.toPrecision(9));

/** Runs an estimate that the scores may not let be made. */
export const orRefusal = <Answer>(
  run: () => Answer,
): { answer: Answer; refusal: null } | { answer: null; refusal: Refusal } => {
  try {
    return { answer: run(), refusal: null };
  } catch (error) {
    if (!(error instanceof MeritError)) throw error;
    return { answer: null, refusal: { code: error.code, message: plainMessage(error) } };
  }
};

/** Breeding values with scores taken as numbers, over all heritabilities, and the equations at the mean shares. */
export const linearModel = (
  task: MeritTask,
  scores: AnimalScores,
  prior: HeritabilityPrior,
  onProgress: Progress,
  written: WrittenModel = writtenModel(scores),
): { model: ModelAnswer; solved: SolvedModel; posterior: Posterior } => {
  const grid = gridFor(task, 'linear');
  const onPoint = (done: number, all: number): boolean => {
    onProgress(done / all);
    return true;
  };
  const posterior = valuesOverHeritability(scores, { prior, ...grid, onPoint }, written);
  const shares = sharesOf(posterior, scores);
  const solved = solvedAtShares(written, shares);
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

/** Of all terms together. */
export const varianceOf = ({
  variances: { random, residual },
}: Pick<SolvedModel, 'variances'>): number =>
  [...random, residual].reduce((sum, matrix) => sum + matrix[0]![0]!, 0);

/** The equations at the mean shares: for reasons, means and trends, which need one set of variances. */
export const solvedAtShares = (
  { animal, equations }: WrittenModel,
  shares: SharesAnswer,
): SolvedModel => solveAtRatios(animal, equations, ratiosOf(shares));

/** Variances of the random terms as multiples of the residual one. */
export const ratiosOf = ({ heritability, others, residual }: SharesAnswer): number[] =>
  [heritability, ...others.map(({ share }) => share)].map((share) => share / residual);

const toEffect = ({ column, level, value, standardError }: FixedEffect): EffectAnswer => ({
  column,
  level,
  value: short(value),
  standardError: standardError === null ? null : short(standardError),
});

export const heritabilityOf = (posterior: Posterior): HeritabilityAnswer => {
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

export const sharesOf = (posterior: Posterior, scores: AnimalScores): SharesAnswer => {
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

export const valuesOf = (posterior: Posterior): ValuesAnswer => {
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

/** Variances by REML. */
export const remlOf = (scores: AnimalScores, written?: WrittenModel): RemlAnswer => {
  const { components } = valuesByReml(scores, {}, written);
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
