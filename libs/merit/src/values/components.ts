import type { Equations } from '../mixed/equations.js';
import type { Variances } from '../mixed/mixed-model.js';
import type { RemlResult } from '../mixed/reml.js';
import type { SolvedModel } from './breeding-values.js';

/** An estimate with its standard error, null where none is known: at the edge of its range, or given. */
export interface Estimate {
  readonly value: number;
  readonly standardError: number | null;
}

/** Variances and covariances of one random term or of the residual, traits by traits. */
export interface ComponentMatrix {
  readonly name: string;
  readonly estimates: readonly (readonly Estimate[])[];
}

/** A level or covariate of the fixed part; the mean is a column of its own where there are no classes. */
export interface FixedEffect extends Estimate {
  readonly trait: string;
  readonly column: string;
  readonly level: string | null;
}

/** What was estimated beside the breeding values. */
export interface Components {
  readonly random: readonly ComponentMatrix[];
  readonly residual: ComponentMatrix;
  /** V_A / (V_A + all other variances of the same trait), by trait. */
  readonly heritability: readonly Estimate[];
  /** Genetic correlations of traits; NaN where a variance is 0. */
  readonly geneticCorrelations: readonly (readonly number[])[];
  readonly restrictedLogLikelihood: number;
  readonly iterations: number;
  readonly fixedEffects: readonly FixedEffect[];
}

/**
 * Components of a solved model; `found` tells how sure the variances are, null when they were given.
 *
 * Standard errors of heritability by the delta method from the covariances of the components.
 */
export function componentsOf(solved: SolvedModel, found: Uncertainty | null): Components {
  const { equations, variances, logLikelihood } = solved;
  const { model } = equations;
  const matrix = (name: string, term: number, rows: readonly (readonly number[])[]) => ({
    name,
    estimates: rows.map((row, i) =>
      row.map((value, j) => ({ value, standardError: errorOf(found, term, i, j) })),
    ),
  });
  return {
    random: model.random.map(({ name }, term) => matrix(name, term, variances.random[term]!)),
    residual: matrix('residual', -1, variances.residual),
    heritability: model.traits.map((_, trait) =>
      heritabilityOf(equations, variances, found, trait),
    ),
    geneticCorrelations: correlationsOf(variances.random[0]!),
    restrictedLogLikelihood: logLikelihood,
    iterations: found?.iterations ?? 0,
    fixedEffects: fixedEffects(solved),
  };
}

/** How sure estimated variances are: the parts of a {@link RemlResult} that matter here. */
export type Uncertainty = Pick<
  RemlResult,
  'parameters' | 'covariances' | 'atEdge' | 'iterations'
> & {
  /** True when the heritability was given, so that it has no error. */
  readonly heritabilityGiven?: boolean;
};

function positionOf(found: Uncertainty, term: number, i: number, j: number): number {
  return found.parameters.findIndex(
    (each) => each.term === term && each.i === Math.max(i, j) && each.j === Math.min(i, j),
  );
}

function errorOf(found: Uncertainty | null, term: number, i: number, j: number): number | null {
  if (found === null) return null;
  const at = positionOf(found, term, i, j);
  if (found.atEdge[at] === true) return null;
  const variance = found.covariances[at * found.parameters.length + at]!;
  return variance > 0 ? Math.sqrt(variance) : null;
}

function heritabilityOf(
  { model }: Equations,
  variances: Variances,
  found: Uncertainty | null,
  trait: number,
): Estimate {
  const places = model.random.flatMap(({ slots }, term) =>
    slots.flatMap((slot, i) => (slot.trait === trait ? [{ term, i }] : [])),
  );
  const all = [...places, { term: -1, i: trait }];
  const value = ({ term, i }: { term: number; i: number }): number =>
    (term < 0 ? variances.residual : variances.random[term]!)[i]![i]!;
  const total = all.reduce((sum, place) => sum + value(place), 0);
  const additive = value(all[0]!);
  const heritability = additive / total;
  if (found === null || found.heritabilityGiven === true)
    return { value: heritability, standardError: null };
  const at = all.map(({ term, i }) => positionOf(found, term, i, i));
  const [ownAtEdge, ...othersAtEdge] = at.map((place) => found.atEdge[place] === true);
  if (ownAtEdge === true || othersAtEdge.every(Boolean))
    return { value: heritability, standardError: null };
  const slope = all.map((_, k) => ((k === 0 ? total : 0) - additive) / total ** 2);
  const size = found.parameters.length;
  let variance = 0;
  slope.forEach((a, k) =>
    slope.forEach((b, m) => (variance += a * b * found.covariances[at[k]! * size + at[m]!]!)),
  );
  return { value: heritability, standardError: variance > 0 ? Math.sqrt(variance) : null };
}

function correlationsOf(g: readonly (readonly number[])[]): number[][] {
  return g.map((row, i) => row.map((value, j) => value / Math.sqrt(g[i]![i]! * g[j]![j]!)));
}

function fixedEffects({ equations, solution, errorVariances }: SolvedModel): FixedEffect[] {
  const { design, model } = equations;
  return design.equations.map(({ trait, column, level }, k) => ({
    trait: model.traits[trait]!.name,
    column,
    level,
    value: solution[k]!,
    standardError: Math.sqrt(errorVariances[k]!),
  }));
}
