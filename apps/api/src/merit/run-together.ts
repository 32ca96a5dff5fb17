import {
  animalModel,
  type AnimalScores,
  breedingValues,
  type BreedingValues,
  Equations,
  partOfStock,
  type PartOfStock,
  type RandomTerm,
  solveByWork,
  type TogetherVerdict,
  traitsTogether,
  type TraitsTogether,
  type Variances,
} from '@linewright/merit';
import { orRefusal, type Progress, short } from './linear-model.js';
import type { EstimateAnswer, Refusal } from './merit-answer.js';
import { PART, partText, taskOfPart } from './part-of-task.js';
import { scoresTogether, type TogetherTask } from './together-task.js';
import { SHARED_BY_BROOD } from './trait-figures.js';

/** Variances and covariances, traits by traits, as what judges pairs by several traits would take them. */
export interface CovariancesAnswer {
  readonly additive: readonly (readonly number[])[];
  /** Not inherited, and the same for all young of a brood. */
  readonly commonBrood: readonly (readonly number[])[];
  readonly residual: readonly (readonly number[])[];
}

/** Values of one trait by fish, out of both. */
export interface ValuesOfBoth {
  readonly value: readonly number[];
  readonly standardError: readonly number[];
}

/** How two traits go together; written as JSON. */
export interface TogetherAnswer {
  readonly found: {
    readonly verdict: TogetherVerdict;
    readonly likelihoodRatio: number;
    /** Of what is inherited first, of the rest last. */
    readonly correlations: readonly {
      readonly name: string;
      readonly correlation: EstimateAnswer | null;
    }[];
    readonly heritabilities: readonly EstimateAnswer[];
    readonly covariances: CovariancesAnswer;
    readonly values: readonly ValuesOfBoth[];
  } | null;
  readonly refusal: Refusal | null;
  /** What the reader should know, in sentences. */
  readonly notes: readonly string[];
}

/** Numbers in a factor of the equations of two traits beyond which they are iterated: 400 MB. */
const MOST_ENTRIES = 5e7;
/** Steps of REML after which half of the work is thought to be done. */
const HALF_AFTER = 8;

/** How two traits go together, and the values of both from the scores of both. */
export const runTogether = (
  given: TogetherTask,
  onProgress: Progress = () => undefined,
  mostEntries = MOST_ENTRIES,
): TogetherAnswer => {
  const rising = neverBack(onProgress);
  const whole = runModel(given, rising, mostEntries);
  const { task, second } = given;
  if (whole.refusal === null || task.shared.length === 0) return whole;
  // Two traits ask more of the scores than one: full sibs alone do not tell a brood's part from what is inherited.
  const less = runModel({ task: { ...task, shared: [] }, second }, rising, mostEntries);
  if (less.refusal !== null) return whole;
  const names = task.shared.map(({ name }) => name).join(', ');
  return {
    ...less,
    notes: [
      `These scores cannot set apart what fish share without inheriting it (${names}): it counts as inherited here, so the two may look more alike than they are.`,
      ...less.notes,
    ],
  };
};

/** Variances are sought two times or more, each from its first step: what was told stands until more is done. */
const neverBack = (onProgress: Progress): Progress => {
  let most = 0;
  return (share) => onProgress((most = Math.max(most, share)));
};

const runModel = (
  given: TogetherTask,
  onProgress: Progress,
  mostEntries: number,
): TogetherAnswer => {
  const run = orRefusal(() => {
    const scores = scoresTogether(given);
    const animal = animalModel(scores);
    const equations = new Equations(animal.model);
    const drawn =
      equations.affordable(mostEntries) === null
        ? partOfStock(scores.pedigree, given.task.fish, PART)
        : null;
    const found = traitsTogether(drawn === null ? scores : scoresOfPart(given, scores, drawn), {
      onStep: (step) => {
        onProgress(0.6 * (1 - 1 / (1 + step / HALF_AFTER)));
        return true;
      },
    });
    if (drawn === null)
      return { found, values: breedingValues(found.solved), notes: [] as string[] };
    const solved = solveByWork(
      animal,
      equations,
      // Those of the fit: a variance of 0, or a correlation of 1, is held a little off its edge there.
      { variances: found.solved.fit.variances },
      {
        ...{ mostWork: 0, mostEntries: 0 },
        onStep: (done, all) => {
          onProgress(0.6 + (0.4 * done) / all);
          return true;
        },
      },
    );
    return {
      found,
      values: solved.values,
      notes: [
        partText(drawn, 'How the two go together'),
        ...solved.notes.map(({ message }) => message),
      ],
    };
  });
  if (run.answer === null) return { found: null, refusal: run.refusal, notes: [] };
  const { found, values, notes } = run.answer;
  return { found: foundOf(found, values), refusal: null, notes: [...onOtherDays(given), ...notes] };
};

/** Fish that were scored for both, but never on one day: what both scores share by the rearing of the fish cannot be set apart there. */
const onOtherDays = ({ task, second }: TogetherTask): string[] => {
  const scored = (values: Float64Array): Set<number> =>
    new Set(task.fish.filter((_, row) => !Number.isNaN(values[row]!)));
  const [one, two] = [scored(task.values), scored(second.values)];
  const onOneDay = scored(task.values.map((value, row) => value + second.values[row]!));
  const count = [...one].filter((i) => two.has(i) && !onOneDay.has(i)).length;
  if (count === 0) return [];
  return [
    `${count} fish were scored for the two traits on different days only. What both scores of such a fish share without inheriting it counts as inherited here, so the two may look more alike than they are.`,
  ];
};

/** The same without a word of how far it is, for a thread of a request. */
export const togetherOf = (given: TogetherTask): TogetherAnswer => runTogether(given);

const scoresOfPart = (
  { task, second }: TogetherTask,
  scores: AnimalScores,
  drawn: PartOfStock,
): AnimalScores =>
  scoresTogether({
    task: taskOfPart(task, scores, drawn),
    second: { ...second, values: Float64Array.from(drawn.rows, (row) => second.values[row]!) },
  });

const foundOf = (
  { verdict, likelihoodRatio, correlations, components, solved }: TraitsTogether,
  values: readonly BreedingValues[],
): TogetherAnswer['found'] => ({
  verdict,
  likelihoodRatio: short(likelihoodRatio),
  correlations: correlations.map(({ name, correlation }) => ({ name, correlation })),
  heritabilities: components.heritability,
  covariances: covariancesOf(solved.equations.model.random, solved.variances),
  values: values.map(({ value, standardError }) => ({
    value: Array.from(value, short),
    standardError: Array.from(standardError, short),
  })),
});

/** A term's matrix by trait: what is fitted to one trait only is 0 in the other. */
const ofBoth = (
  slots: RandomTerm['slots'],
  matrix: readonly (readonly number[])[],
): readonly (readonly number[])[] => {
  const at = (trait: number): number => slots.findIndex((slot) => slot.trait === trait);
  return [0, 1].map((i) => [0, 1].map((j) => matrix[at(i)]?.[at(j)] ?? 0));
};

/** Covariances of two traits as what foretells young takes them: what a brood shares apart from what is each fish's own. */
const covariancesOf = (
  model: readonly RandomTerm[],
  { random, residual }: Variances,
): CovariancesAnswer => {
  const sumOf = (matrices: readonly (readonly (readonly number[])[])[]): number[][] =>
    [0, 1].map((i) => [0, 1].map((j) => matrices.reduce((sum, matrix) => sum + matrix[i]![j]!, 0)));
  const terms = model
    .map(({ name, slots }, k) => ({ name, matrix: ofBoth(slots, random[k]!) }))
    .slice(1);
  const shared = terms.filter(({ name }) => SHARED_BY_BROOD.includes(name));
  const own = terms.filter(({ name }) => !SHARED_BY_BROOD.includes(name));
  return {
    additive: random[0]!,
    commonBrood: sumOf(shared.map(({ matrix }) => matrix)),
    residual: sumOf([residual, ...own.map(({ matrix }) => matrix)]),
  };
};
