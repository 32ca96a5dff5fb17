import { MeritError } from '../merit-error.js';
import type { Equations } from '../mixed/equations.js';
import { reml, type RemlOptions } from '../mixed/reml.js';
import type { AnimalModel, AnimalScores } from './animal-model.js';
import {
  breedingValues,
  degreesOfFreedom,
  solveAtRatios,
  solved,
  type BreedingValues,
  type SolvedModel,
} from './breeding-values.js';
import { componentsOf, type Components } from './components.js';
import { notesOn, type MeritNote } from './notes.js';
import { type WrittenModel, writtenModel } from './written-model.js';

/** Breeding values with the variances behind them and what the reader should know. */
export interface Valuation {
  readonly solved: SolvedModel;
  readonly values: readonly BreedingValues[];
  readonly components: Components;
  readonly notes: readonly MeritNote[];
}

export type ValuationOptions = Pick<RemlOptions, 'start' | 'iterations' | 'onStep'>;

/**
 * Breeding values of all fish of the pedigree, the variances estimated by REML. A variance of 0 is an answer: then all breeding
 * values are 0, and so are their accuracies.
 *
 * @param written the model of these very scores, where it is written already.
 * @throws MeritError as {@link writtenModel} and {@link reml}.
 */
export function valuesByReml(
  scores: AnimalScores,
  options: ValuationOptions = {},
  written: WrittenModel = writtenModel(scores),
): Valuation {
  const { animal, equations } = written;
  const found = reml(equations, options);
  const answer = solved(animal, found.fit, found.variances);
  return valuation(scores, answer, componentsOf(answer, found));
}

/**
 * Breeding values of one trait at a given heritability; the scale, and the shares of other random terms, are estimated by REML at
 * that heritability.
 *
 * @param heritability V_A / (V_A + all other variances), above 0 and below 1.
 * @throws MeritError MERIT_OUT_OF_RANGE, and as {@link valuesByReml}.
 */
export function valuesAtHeritability(
  scores: AnimalScores,
  heritability: number,
  options: ValuationOptions = {},
): Valuation {
  expectHeritability(scores, heritability);
  const { animal, equations } = writtenModel(scores);
  const ratio = heritability / (1 - heritability);
  if (animal.model.random.length === 1) return atOneRatio(scores, animal, equations, ratio);
  const others = animal.model.random.length;
  // V_A is a multiple of the sum of all others.
  const map = [
    new Array<number>(others).fill(ratio),
    ...Array.from({ length: others }, (_, i) =>
      Array.from({ length: others }, (__, j) => (i === j ? 1 : 0)),
    ),
  ];
  const found = reml(equations, { ...options, map });
  const answer = solved(animal, found.fit, found.variances);
  const components = componentsOf(answer, { ...found, heritabilityGiven: true });
  return valuation(scores, answer, components);
}

function atOneRatio(
  scores: AnimalScores,
  animal: AnimalModel,
  equations: Equations,
  ratio: number,
): Valuation {
  const answer = solveAtRatios(animal, equations, [ratio]);
  const [residual] = answer.variances.residual[0]!;
  const variance = (2 * residual! ** 2) / degreesOfFreedom(equations);
  const components = componentsOf(answer, {
    parameters: [
      { term: 0, i: 0, j: 0 },
      { term: -1, i: 0, j: 0 },
    ],
    covariances: Float64Array.of(
      ratio ** 2 * variance,
      ratio * variance,
      ratio * variance,
      variance,
    ),
    atEdge: [false, false],
    iterations: 1,
    heritabilityGiven: true,
  });
  return valuation(scores, answer, components);
}

function valuation(scores: AnimalScores, answer: SolvedModel, components: Components): Valuation {
  return {
    solved: answer,
    values: breedingValues(answer),
    components,
    notes: notesOn(scores, answer),
  };
}

function expectHeritability({ traits }: AnimalScores, heritability: number): void {
  if (traits.length !== 1) {
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      'A heritability can be given for one trait at a time: give none, or ask for one trait.',
      { traits: traits.length },
    );
  }
  if (heritability > 0 && heritability < 1) return;
  throw new MeritError(
    'MERIT_OUT_OF_RANGE',
    `The heritability ${heritability} must lie between 0 and 1, and be neither: at 0 every breeding value would be 0, at 1 every score would be the breeding value itself.`,
    { heritability },
  );
}
