import { MeritError } from '../merit-error.js';
import { Equations } from '../mixed/equations.js';
import { reml, type RemlResult } from '../mixed/reml.js';
import { animalModel, type AnimalModel, type AnimalScores } from './animal-model.js';
import { solved, type SolvedModel } from './breeding-values.js';
import { componentsOf, type Components, type Estimate } from './components.js';
import type { ValuationOptions } from './estimate.js';

/** Whether two traits are inherited together, as far as the scores tell. */
export type TogetherVerdict = 'together' | 'against each other' | 'cannot tell yet';

/** How two traits go together in one part of the model. */
export interface TermCorrelation {
  readonly name: string;
  /** Null where one of the two variances is 0 or not fitted, so that there is nothing to go together, or where no score tells of it. */
  readonly correlation: Estimate | null;
}

/** Two traits by one model. */
export interface TraitsTogether {
  readonly solved: SolvedModel;
  readonly components: Components;
  /** Of breeding values first, then of each further term, the residual's last. */
  readonly correlations: readonly TermCorrelation[];
  /** Twice by how much ln of the restricted likelihood falls when breeding values of the two are taken as independent. */
  readonly likelihoodRatio: number;
  readonly verdict: TogetherVerdict;
}

/** 95th percentile of chi-square with one degree of freedom. */
const TOLD_FROM = 3.841458820694124;
/** A correlation this near to 1 stands at the edge, where no error is known. */
const AT_EDGE = 0.999;

/**
 * Variances and covariances of two traits by REML, the correlations with their standard errors by the delta method, and whether the genetic one is
 * told at all: by the ratio of restricted likelihoods with and without a covariance of breeding values, against chi-square with one degree of
 * freedom, since the standard error is not to be trusted near 1 or with few families.
 *
 * Source: Lynch & Walsh (1998) Genetics and Analysis of Quantitative Traits, appendix 1 (delta method; from memory) and appendix 4 (likelihood-ratio
 * tests; from memory).
 * Cost: two runs of REML, each with a factorisation and a sparse inverse a step.
 * @throws MeritError MERIT_OUT_OF_RANGE unless there are two traits, and as {@link reml}.
 */
export function traitsTogether(
  scores: AnimalScores,
  options: ValuationOptions = {},
): TraitsTogether {
  if (scores.traits.length !== 2)
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      'How traits go together is asked of two traits at a time.',
      { traits: scores.traits.length },
    );
  const animal = animalModel(scores);
  const equations = new Equations(animal.model);
  const found = reml(equations, options);
  const answer = solved(animal, found.fit, found.variances);
  const correlations = correlationsOf(animal, found);
  const { correlation: genetic } = correlations[0]!;
  const likelihoodRatio = genetic === null ? 0 : ratioOf(equations, found, options);
  return {
    solved: answer,
    components: componentsOf(answer, found),
    correlations,
    likelihoodRatio,
    verdict:
      genetic === null || !(likelihoodRatio > TOLD_FROM)
        ? 'cannot tell yet'
        : genetic.value > 0
          ? 'together'
          : 'against each other',
  };
}

/** What independence of the breeding values costs; what cannot be fitted without them going together tells nothing. */
function ratioOf(equations: Equations, found: RemlResult, options: ValuationOptions): number {
  try {
    const { logLikelihood } = reml(equations, { ...options, independent: [0] });
    return Math.max(0, 2 * (found.logLikelihood - logLikelihood));
  } catch (error) {
    if (error instanceof MeritError) return 0;
    throw error;
  }
}

function correlationsOf({ model }: AnimalModel, found: RemlResult): TermCorrelation[] {
  return [
    ...model.random.map(({ name, slots }, term) => ({
      name,
      correlation: slots.length < 2 ? null : correlationOf(found, term),
    })),
    { name: 'residual', correlation: correlationOf(found, -1) },
  ];
}

/** r = c / sqrt(a b); its variance by the delta method. */
function correlationOf(found: RemlResult, term: number): Estimate | null {
  const { parameters, covariances, atEdge, neverMet, variances } = found;
  const matrix = term < 0 ? variances.residual : variances.random[term]!;
  const [a, c, b] = [matrix[0]![0]!, matrix[1]![0]!, matrix[1]![1]!];
  if (!(a > 0 && b > 0)) return null;
  const value = Math.max(-1, Math.min(1, c / Math.sqrt(a * b)));
  const at = [
    [0, 0],
    [1, 0],
    [1, 1],
  ].map(([i, j]) =>
    parameters.findIndex((each) => each.term === term && each.i === i && each.j === j),
  );
  if (neverMet[at[1]!] === true) return null;
  if (Math.abs(value) > AT_EDGE || at.some((k) => atEdge[k] === true))
    return { value, standardError: null };
  const slope = [-value / (2 * a), 1 / Math.sqrt(a * b), -value / (2 * b)];
  let variance = 0;
  for (let k = 0; k < 3; k++)
    for (let m = 0; m < 3; m++)
      variance += slope[k]! * slope[m]! * covariances[at[k]! * parameters.length + at[m]!]!;
  return { value, standardError: variance > 0 ? Math.sqrt(variance) : null };
}
