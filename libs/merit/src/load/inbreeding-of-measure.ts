import { studentTwoSided } from '../distributions.js';
import { MeritError } from '../merit-error.js';
import { Equations } from '../mixed/equations.js';
import type { Fit } from '../mixed/fit.js';
import type { FixedColumn, RandomTerm } from '../mixed/mixed-model.js';
import { reml } from '../mixed/reml.js';

/** Something measured, a row a look, with the inbreeding behind it. */
export interface MeasuredRows {
  readonly name: string;
  readonly values: Float64Array;
  /** Coefficients by row, such as F of the fish and F of its dam. */
  readonly inbreeding: readonly { readonly name: string; readonly values: Float64Array }[];
  /** Seasons, sexes, age; a mean is fitted without classes. */
  readonly fixed?: readonly FixedColumn[];
  /** What rows share beside their inbreeding: breeding values, broods, repeated looks, dams. */
  readonly random: readonly RandomTerm[];
  /** How many broods tell of it: rows of one brood are one witness of its F. */
  readonly broods: number;
}

/** What inbreeding does to a measure by one of its coefficients. */
export interface MeasureDepression {
  readonly name: string;
  /** Change from F = 0 to F = 1, in the unit of the values. */
  readonly slope: number;
  readonly standardError: number;
  /** 95 %, by Student's t with as many degrees of freedom as broods less what is fitted between them. */
  readonly interval: { readonly low: number; readonly high: number };
  /** The smallest slope, either way, that rows like these would have shown: in four of five such sets, two-sided at 5 %. */
  readonly smallestDetectable: number;
  /** Never that there is no effect. */
  readonly verdict: 'lowers' | 'cannot tell yet' | 'raises';
}

/** What inbreeding does to a measure, and what a picture of it needs. */
export interface MeasuredInbreeding {
  readonly changes: readonly MeasureDepression[];
  /** Where the measure stands without the first coefficient's inbreeding, at the mean of all else that is fitted. */
  readonly level: number;
  /** The values by row as they would be at that mean: what seasons, sexes, age and the other coefficients do is taken off. */
  readonly corrected: Float64Array;
}

/** Numbers in a factor beyond which the equations are not solved. */
const MOST_ENTRIES = 2e7;
/** Normal quantile of 80 %. */
const POWER_80 = 0.8416212335729143;

/**
 * Inbreeding depression of a measure: its change with F, in a linear mixed model whose variances are estimated by REML.
 *
 * Source: Falconer DS & Mackay TFC (1996) Introduction to Quantitative Genetics, chapter 14 (a mean falls in proportion to F when loci act
 * together by adding up); Henderson CR (1984) Applications of Linear Models in Animal Breeding. The degrees of freedom are a careful choice of
 * ours.
 * @throws MeritError MERIT_TOO_FEW for too few broods, MERIT_NO_VARIATION when all have the same F, MERIT_NOT_SEPARABLE when F says the same
 * as other columns, MERIT_TOO_LARGE; and as {@link reml}.
 */
export function inbreedingOfMeasure(rows: MeasuredRows): MeasuredInbreeding {
  const { name, values, inbreeding, random, broods } = rows;
  for (const column of inbreeding)
    if (new Set(column.values).size < 2)
      throw new MeritError(
        'MERIT_NO_VARIATION',
        `All rows of "${name}" have the same "${column.name}": there is nothing to compare.`,
        { name: column.name },
      );
  const freedom = broods - inbreeding.length - 1;
  if (freedom < 1)
    throw new MeritError(
      'MERIT_TOO_FEW',
      `"${name}" is known of ${broods} broods: too few to tell what inbreeding does. Measure more broods.`,
      { broods },
    );
  const equations = new Equations({
    rows: values.length,
    traits: [{ name, values }],
    fixed: [
      ...(rows.fixed ?? []),
      ...inbreeding.map((column) => ({ kind: 'covariate' as const, ...column })),
    ],
    random,
  });
  if (equations.affordable(MOST_ENTRIES) === null)
    throw new MeritError('MERIT_TOO_LARGE', `"${name}" has too many rows to be solved at once.`);
  const { fit } = reml(equations);
  const places = inbreeding.map((column) => placeOf(equations, rows, column.name));
  return {
    changes: inbreeding.map((column, k) => changeOf(column.name, fit, places[k]!, freedom)),
    ...withoutTheRest(rows, fit, places[0]!),
  };
}

/** Equation of a coefficient. @throws MeritError MERIT_NOT_SEPARABLE. */
function placeOf({ design }: Equations, { name }: MeasuredRows, column: string): number {
  const at = design.equations.findIndex((each) => each.column === column);
  if (at >= 0) return at;
  throw new MeritError(
    'MERIT_NOT_SEPARABLE',
    `"${column}" says the same as other columns of "${name}": the two cannot be told apart.`,
    { name: column },
  );
}

function changeOf(name: string, fit: Fit, at: number, freedom: number): MeasureDepression {
  const times = studentTwoSided(0.95, freedom);
  const slope = fit.solution[at]!;
  const standardError = Math.sqrt(fit.errorVariances()[at]!);
  const interval = { low: slope - times * standardError, high: slope + times * standardError };
  return {
    name,
    slope,
    standardError,
    interval,
    smallestDetectable: (times + POWER_80) * standardError,
    verdict: interval.high < 0 ? 'lowers' : interval.low > 0 ? 'raises' : 'cannot tell yet',
  };
}

/** Takes off what the fixed part does beside the coefficient at `place`. */
function withoutTheRest(
  { values }: MeasuredRows,
  { equations, solution }: Fit,
  place: number,
): Pick<MeasuredInbreeding, 'level' | 'corrected'> {
  const rest = solution.slice().fill(0, equations.design.equations.length);
  rest[place] = 0;
  const [entries] = equations.rows;
  const others = values.map((_, row) => entries!.times(row, rest));
  const level = others.reduce((sum, other) => sum + other, 0) / others.length;
  return { level, corrected: values.map((value, row) => value - others[row]! + level) };
}
