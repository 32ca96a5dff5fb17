import type { Equations } from './equations.js';
import { rightSide, sumOfProducts, weighted, type Fit, type SolvedScores } from './fit.js';
import type { VarianceParameter } from './parameters.js';
import { multiplySquares, type Square } from './small-matrix.js';

/** First derivatives of the restricted log likelihood, and what an EM step would set each matrix to. */
export interface Slope {
  readonly scores: Float64Array;
  readonly emRandom: readonly Square[];
  readonly emResidual: Square;
}

/**
 * Derivatives of the restricted likelihood by the traces of the inverse at the places of the equations: for G of a term with q
 * levels dL = -1/2 tr(E (q G^-1 - G^-1 S G^-1)), S = u'K^-1 u + tr(K^-1 C).
 *
 * Source: Johnson DL & Thompson R (1995) J Dairy Sci 78:449-456; EM as in Henderson (1984).
 * Cost: the sparse inverse.
 */
export function slopeOf(fit: Fit, parameters: readonly VarianceParameter[]): Slope {
  const { equations } = fit;
  const traits = equations.model.traits.length;
  const traces = partTraces(fit);
  const random = equations.model.random.map((_, term) => randomSlope(fit, term, traces));
  const residual = residualSlope(fit, traces);
  const scores = Float64Array.from(parameters, ({ term, i, j }) => {
    const [d, size] =
      term < 0
        ? [residual.derivative, traits]
        : [random[term]!.derivative, equations.model.random[term]!.slots.length];
    return (i === j ? -0.5 : -1) * d[i * size + j]!;
  });
  return { scores, emRandom: random.map(({ em }) => em), emResidual: residual.em };
}

function partTraces(fit: Fit): Float64Array {
  const { parts, matrix } = fit.equations;
  return Float64Array.from(parts, (_, part) => matrix.trace(part, fit.inverseValues));
}

function randomSlope(
  fit: Fit,
  term: number,
  traces: Float64Array,
): { derivative: Square; em: Square } {
  const { equations, solution } = fit;
  const { slots, levels, groups } = equations.model.random[term]!;
  const size = slots.length;
  const s = new Float64Array(size * size);
  equations.parts.forEach((key, part) => {
    if (key.kind !== 'random' || key.term !== term) return;
    const trace = key.i === key.j ? traces[part]! : traces[part]! / 2;
    s[key.i * size + key.j] = trace;
    s[key.j * size + key.i] = trace;
  });
  addQuadratics(equations, term, solution, s);
  const count = levels - (groups?.names.length ?? 0);
  const inverse = fit.inverse.random[term]!.inverse;
  const middle = multiplySquares(multiplySquares(inverse, s, size), inverse, size);
  return {
    derivative: middle.map((value, k) => count * inverse[k]! - value),
    em: s.map((value) => value / count),
  };
}

/** Adds u_i' K^-1 u_j of all slots. */
function addQuadratics(
  equations: Equations,
  term: number,
  solution: Float64Array,
  s: Square,
): void {
  const { slots, levels, inverse } = equations.model.random[term]!;
  const size = slots.length;
  const numbers = equations.termEquation[term]!;
  const u = (level: number, slot: number): number => {
    const equation = numbers[level * size + slot]!;
    return equation < 0 ? 0 : solution[equation]!;
  };
  const add = (a: number, b: number, value: number): void => {
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) s[i * size + j]! += value * u(a, i) * u(b, j);
  };
  if (inverse === undefined) for (let level = 0; level < levels; level++) add(level, level, 1);
  else
    for (let k = 0; k < inverse.rows.length; k++)
      add(inverse.rows[k]!, inverse.columns[k]!, inverse.values[k]!);
}

function residualSlope(fit: Fit, traces: Float64Array): { derivative: Square; em: Square } {
  const { equations, residuals, variances } = fit;
  const { model, patterns, patternOf, parts } = equations;
  const size = model.traits.length;
  const sums = patterns.map(() => new Float64Array(size * size));
  parts.forEach((key, part) => {
    if (key.kind !== 'residual') return;
    const { s, t, pattern } = key;
    const trace = s === t ? traces[part]! : traces[part]! / 2;
    sums[pattern]![s * size + t] = trace;
    sums[pattern]![t * size + s] = trace;
  });
  for (let row = 0; row < model.rows; row++) {
    const pattern = patternOf[row]!;
    if (pattern < 0) continue;
    const weight = model.weights?.[row] ?? 1;
    const scored = patterns[pattern]!.traits;
    for (const s of scored)
      for (const t of scored)
        sums[pattern]![s * size + t]! += weight * residuals[s]![row]! * residuals[t]![row]!;
  }
  const derivative = new Float64Array(size * size);
  let rows = 0;
  patterns.forEach(({ rows: count }, k) => {
    rows += count;
    const inverse = fit.inverse.residual[k]!.inverse;
    const middle = multiplySquares(multiplySquares(inverse, sums[k]!, size), inverse, size);
    for (let e = 0; e < derivative.length; e++) derivative[e]! += count * inverse[e]! - middle[e]!;
  });
  const r = Float64Array.from(variances.residual.flat());
  const change = multiplySquares(multiplySquares(r, derivative, size), r, size);
  return { derivative, em: r.map((value, k) => value - change[k]! / rows) };
}

/**
 * Average information matrix of the parameters: 1/2 f_i' P f_j with the working variates f_i = dV/di P y.
 *
 * Source: Gilmour AR, Thompson R & Cullis BR (1995) Biometrics 51:1440-1450; Johnson & Thompson (1995).
 * Cost: one solution of the equations a parameter.
 */
export function averageInformation(
  fit: SolvedScores,
  parameters: readonly VarianceParameter[],
): Float64Array {
  const { equations, inverse } = fit;
  const variates = parameters.map((parameter) => workingVariate(fit, parameter));
  const weightedVariates = variates.map((f) => weighted(equations, inverse, f));
  const sides = weightedVariates.map((f) => rightSide(equations, f));
  const solutions = sides.map((side) => fit.factor.solve(side));
  const size = parameters.length;
  const information = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let product = sumOfProducts(variates[i]!, weightedVariates[j]!);
      const [side, solution] = [sides[i]!, solutions[j]!];
      for (let k = 0; k < side.length; k++) product -= side[k]! * solution[k]!;
      information[i * size + j] = information[j * size + i] = product / 2;
    }
  }
  return information;
}

function workingVariate(fit: SolvedScores, { term, i, j }: VarianceParameter): Float64Array[] {
  const { equations } = fit;
  if (term < 0) return residualVariate(fit, i, j);
  const result = equations.model.traits.map(() => new Float64Array(equations.model.rows));
  const { slots, levels } = equations.model.random[term]!;
  const size = slots.length;
  const inverse = fit.inverse.random[term]!.inverse;
  const u = deviations(equations, term, fit.solution);
  const add = (slot: number, from: number): void => {
    const { trait, level, coefficient } = slots[slot]!;
    const { values } = equations.model.traits[trait]!;
    const effect = new Float64Array(levels);
    for (let k = 0; k < levels; k++)
      for (let m = 0; m < size; m++) effect[k]! += inverse[from * size + m]! * u[k * size + m]!;
    for (let row = 0; row < values.length; row++) {
      if (level[row]! < 0 || Number.isNaN(values[row]!)) continue;
      result[trait]![row]! += effect[level[row]!]! * (coefficient?.[row] ?? 1);
    }
  };
  add(i, j);
  if (i !== j) add(j, i);
  return result;
}

/** Solutions of a term, without the part of genetic groups. */
function deviations(equations: Equations, term: number, solution: Float64Array): Float64Array {
  const { slots, levels, groups } = equations.model.random[term]!;
  const size = slots.length;
  const numbers = equations.termEquation[term]!;
  const u = new Float64Array(numbers.length);
  for (let k = 0; k < u.length; k++) if (numbers[k]! >= 0) u[k] = solution[numbers[k]!]!;
  const count = groups?.names.length ?? 0;
  const own = levels - count;
  for (let level = 0; level < own; level++) {
    for (let g = 0; g < count; g++) {
      const share = groups!.shares[level * count + g]!;
      if (share === 0) continue;
      for (let m = 0; m < size; m++) u[level * size + m]! -= share * u[(own + g) * size + m]!;
    }
  }
  // Groups themselves are no random effects.
  u.fill(0, own * size);
  return u;
}

function residualVariate(fit: SolvedScores, i: number, j: number): Float64Array[] {
  const { equations, inverse, residuals } = fit;
  const { model, patterns, patternOf } = equations;
  const size = model.traits.length;
  const result = model.traits.map(() => new Float64Array(model.rows));
  for (let row = 0; row < model.rows; row++) {
    const pattern = patternOf[row]!;
    if (pattern < 0) continue;
    const scored = patterns[pattern]!.traits;
    if (!scored.includes(i) || !scored.includes(j)) continue;
    const own = inverse.residual[pattern]!.inverse;
    const at = (s: number): number => {
      let sum = 0;
      for (const t of scored) sum += own[s * size + t]! * residuals[t]![row]!;
      return sum;
    };
    result[i]![row]! += at(j);
    if (i !== j) result[j]![row]! += at(i);
  }
  return result;
}
