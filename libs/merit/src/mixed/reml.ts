import { MeritError } from '../merit-error.js';
import type { Equations } from './equations.js';
import { Fit } from './fit.js';
import { averageInformation, slopeOf, type Slope } from './information.js';
import type { Variances } from './mixed-model.js';
import { parametersOf, valuesOf, variancesFrom, type VarianceParameter } from './parameters.js';
import { choleskyOf, eigenOf, invertDefinite, withLeastEigenvalue } from './small-matrix.js';

export interface RemlOptions {
  /** Where to begin; by default shares of the variance of the scores. */
  readonly start?: Variances;
  /**
   * Parameters as weighted sums of fewer: `theta = map phi`, row by row. For a given heritability the additive variance is a
   * multiple of the sum of all others.
   */
  readonly map?: readonly (readonly number[])[];
  /** Default 100. */
  readonly iterations?: number;
  /** Called after each step, for progress and for stopping: return false to stop. */
  readonly onStep?: (step: number, logLikelihood: number) => boolean;
}

/** Estimates by restricted maximum likelihood. */
export interface RemlResult {
  readonly fit: Fit;
  readonly variances: Variances;
  readonly parameters: readonly VarianceParameter[];
  readonly values: Float64Array;
  /** Covariances of the estimates by the inverse of the average information; 0 for those at the edge and given ones. */
  readonly covariances: Float64Array;
  /** Parameters that ended at the edge of their range: a variance of 0. */
  readonly atEdge: readonly boolean[];
  readonly logLikelihood: number;
  readonly iterations: number;
}

/** A variance this share of the total stands for 0, so that the equations can still be written. */
const EDGE = 1e-8;

/**
 * Variances by restricted maximum likelihood: steps by the average information, halved until the likelihood rises; EM steps where
 * that does not help; a variance that wants to fall below 0 is held at the edge as long as the likelihood falls from there.
 *
 * Sources: Patterson HD & Thompson R (1971) Biometrika 58:545-554 (REML); Gilmour, Thompson & Cullis (1995) (average information).
 * Cost: a factorisation and a sparse inverse a step.
 * @throws MeritError MERIT_TOO_FEW, MERIT_NO_VARIATION, MERIT_NOT_SEPARABLE, MERIT_NOT_CONVERGED.
 */
export function reml(equations: Equations, options: RemlOptions = {}): RemlResult {
  return new Ascent(equations, options).run();
}

class Ascent {
  readonly #parameters: VarianceParameter[];
  /** Free quantities in columns, parameters in rows. */
  readonly #map: readonly (readonly number[])[];
  readonly #free: number;
  readonly #total: number;
  #phi: Float64Array;
  #fit: Fit;
  #held: boolean[];
  #step = 0;

  constructor(
    readonly equations: Equations,
    readonly options: RemlOptions,
  ) {
    this.#parameters = parametersOf(equations);
    const count = this.#parameters.length;
    this.#map =
      options.map ??
      Array.from({ length: count }, (_, i) =>
        Array.from({ length: count }, (__, j) => (i === j ? 1 : 0)),
      );
    this.#free = this.#map[0]!.length;
    const totals = expectEnough(equations, this.#free);
    this.#total = Math.max(...totals);
    const start = options.start ?? firstGuess(equations, totals);
    this.#phi = this.#unmapped(valuesOf(this.#parameters, start));
    this.#fit = this.#at(this.#phi);
    this.#held = new Array<boolean>(this.#free).fill(false);
  }

  run(): RemlResult {
    const limit = this.options.iterations ?? 100;
    let information = this.#information();
    this.#expectSeparable(information);
    let small = 0;
    for (this.#step = 1; this.#step <= limit; this.#step++) {
      const slope = slopeOf(this.#fit, this.#parameters);
      const scores = this.#reducedScores(slope);
      this.#hold(scores);
      const direction = this.#direction(information, scores);
      const gain = direction.reduce((sum, d, k) => sum + d * scores[k]!, 0);
      const before = this.#fit.logLikelihood;
      const moved = this.#move(direction) || this.#moveByEm(slope);
      const rise = this.#fit.logLikelihood - before;
      if (this.options.onStep?.(this.#step, this.#fit.logLikelihood) === false) break;
      if (!moved || gain < 1e-9) return this.#result();
      // At the edge of several traits' range steps are bent and gain what they can.
      small = rise < 1e-8 * (1 + Math.abs(before)) ? small + 1 : 0;
      if (small >= 4) return this.#result();
      information = this.#information();
    }
    throw new MeritError(
      'MERIT_NOT_CONVERGED',
      `The variances did not settle in ${limit} steps. Fit fewer terms, or more scores.`,
      { iterations: limit },
    );
  }

  #at(phi: Float64Array): Fit {
    return new Fit(
      this.equations,
      variancesFrom(this.equations, this.#parameters, this.#mapped(phi)),
    );
  }

  #mapped(phi: Float64Array): Float64Array {
    return Float64Array.from(this.#map, (row) => row.reduce((sum, b, k) => sum + b * phi[k]!, 0));
  }

  /** Free quantities from parameters: those rows of the map that are a single 1. */
  #unmapped(theta: Float64Array): Float64Array {
    const phi = new Float64Array(this.#free);
    this.#map.forEach((row, i) => {
      const at = row.findIndex((b) => b !== 0);
      if (row.filter((b) => b !== 0).length === 1 && row[at] === 1) phi[at] = theta[i]!;
    });
    return phi;
  }

  #information(): Float64Array {
    const full = averageInformation(this.#fit, this.#parameters);
    const [count, free] = [this.#parameters.length, this.#free];
    const reduced = new Float64Array(free * free);
    for (let a = 0; a < free; a++)
      for (let b = 0; b < free; b++)
        for (let i = 0; i < count; i++)
          for (let j = 0; j < count; j++)
            reduced[a * free + b]! += this.#map[i]![a]! * full[i * count + j]! * this.#map[j]![b]!;
    return reduced;
  }

  #reducedScores({ scores }: Slope): Float64Array {
    return Float64Array.from({ length: this.#free }, (_, a) =>
      scores.reduce((sum, score, i) => sum + score * this.#map[i]![a]!, 0),
    );
  }

  /** A single variance, which may be held at 0; elements of matrices of several traits are bent instead. */
  #mayBeHeld(a: number): boolean {
    return this.#map.every((row, i) => {
      if (row[a] === 0) return true;
      const { term } = this.#parameters[i]!;
      const { model } = this.equations;
      return (term < 0 ? model.traits.length : model.random[term]!.slots.length) === 1;
    });
  }

  #hold(scores: Float64Array): void {
    const edge = EDGE * this.#total;
    this.#held = this.#held.map(
      (_, a) => this.#mayBeHeld(a) && this.#phi[a]! <= edge * 1.0001 && scores[a]! < 0,
    );
  }

  #direction(information: Float64Array, scores: Float64Array): Float64Array {
    const free = this.#held.flatMap((held, a) => (held ? [] : [a]));
    const size = free.length;
    const direction = new Float64Array(this.#free);
    for (let ridge = 0; size > 0 && ridge < 1e6; ridge = ridge === 0 ? 1e-8 : ridge * 10) {
      const part = new Float64Array(size * size);
      free.forEach((a, i) => {
        free.forEach((b, j) => (part[i * size + j] = information[a * this.#free + b]!));
        part[i * size + i]! *= 1 + ridge;
      });
      const inverted = invertDefinite(part, size);
      if (inverted === null) continue;
      free.forEach((a, i) => {
        direction[a] = free.reduce(
          (sum, b, j) => sum + inverted.inverse[i * size + j]! * scores[b]!,
          0,
        );
      });
      break;
    }
    return direction;
  }

  /** Goes along, half as far each time until the likelihood does not fall; false when that does not help. */
  #move(direction: Float64Array): boolean {
    const before = this.#fit.logLikelihood;
    for (let half = 0; half < 12; half++) {
      const share = 0.5 ** half;
      const fit = this.#tried(
        this.#phi.map((value, a) => value + share * direction[a]!),
        before,
      );
      if (fit) return true;
    }
    return false;
  }

  #moveByEm({ emRandom, emResidual }: Slope): boolean {
    if (this.options.map !== undefined) return false;
    const traits = this.equations.model.traits.length;
    const next = Float64Array.from(this.#parameters, ({ term, i, j }) => {
      if (term < 0) return emResidual[i * traits + j]!;
      return emRandom[term]![i * this.equations.model.random[term]!.slots.length + j]!;
    });
    return this.#tried(next, this.#fit.logLikelihood);
  }

  /** Takes these values, brought within their range, unless the likelihood falls. */
  #tried(wanted: Float64Array, before: number): boolean {
    const phi = this.#within(wanted);
    if (phi === null) return false;
    const fit = this.#at(phi);
    // Rounding alone may let it fall by a hair at the top.
    if (!(fit.logLikelihood > before - 1e-10 * (1 + Math.abs(before)))) return false;
    this.#fit = fit;
    this.#phi = phi;
    return true;
  }

  #within(phi: Float64Array): Float64Array | null {
    const edge = EDGE * this.#total;
    const bounded = phi.map((value, a) => (this.#mayBeHeld(a) ? Math.max(value, edge) : value));
    if (this.options.map !== undefined) return bounded;
    const variances = variancesFrom(this.equations, this.#parameters, bounded);
    const bend = (matrix: readonly (readonly number[])[]): number[][] => {
      const size = matrix.length;
      if (size === 1) return matrix.map((row) => [...row]);
      const mean = matrix.reduce((sum, row, i) => sum + Math.abs(row[i]!), 0) / size;
      const scaled = withLeastEigenvalue(Float64Array.from(matrix.flat()), size, 1e-5 * mean);
      return matrix.map((row, i) => row.map((_, j) => scaled[i * size + j]!));
    };
    return valuesOf(this.#parameters, {
      random: variances.random.map(bend),
      residual: bend(variances.residual),
    });
  }

  #expectSeparable(information: Float64Array): void {
    const size = this.#free;
    const scale = Float64Array.from({ length: size }, (_, a) =>
      Math.sqrt(information[a * size + a]!),
    );
    const correlations = information.map(
      (value, k) => value / (scale[Math.floor(k / size)]! * scale[k % size]!),
    );
    const { values, vectors } = eigenOf(correlations, size);
    const least = values.indexOf(Math.min(...values));
    if (values[least]! > 1e-9) return;
    const names = new Set(
      Array.from({ length: size }, (_, a) => a)
        .filter((a) => Math.abs(vectors[a * size + least]!) > 0.1)
        .flatMap((a) => this.#parameters.filter((_, i) => this.#map[i]![a] !== 0))
        .map(({ term }) => (term < 0 ? 'residual' : this.equations.model.random[term]!.name)),
    );
    throw new MeritError(
      'MERIT_NOT_SEPARABLE',
      `These scores cannot tell ${[...names].join(' and ')} apart. ${REMEDY}`,
      { terms: [...names] },
    );
  }

  #result(): RemlResult {
    const scores = this.#reducedScores(slopeOf(this.#fit, this.#parameters));
    this.#hold(scores);
    const free = this.#held.flatMap((held, a) => (held ? [] : [a]));
    const information = this.#information();
    const size = free.length;
    const part = new Float64Array(size * size);
    free.forEach((a, i) =>
      free.forEach((b, j) => (part[i * size + j] = information[a * this.#free + b]!)),
    );
    const inverted = choleskyOf(part, size) === null ? null : invertDefinite(part, size);
    const count = this.#parameters.length;
    const covariances = new Float64Array(count * count).fill(inverted === null ? NaN : 0);
    for (let i = 0; i < count && inverted !== null; i++)
      for (let j = 0; j < count; j++)
        free.forEach((a, p) =>
          free.forEach((b, q) => {
            covariances[i * count + j]! +=
              this.#map[i]![a]! * inverted.inverse[p * size + q]! * this.#map[j]![b]!;
          }),
        );
    const atEdge = this.#parameters.map((_, i) =>
      this.#map[i]!.every((b, a) => b === 0 || this.#held[a]),
    );
    const values = this.#mapped(this.#phi).map((value, i) => (atEdge[i] === true ? 0 : value));
    return {
      fit: this.#fit,
      variances: variancesFrom(this.equations, this.#parameters, values),
      parameters: this.#parameters,
      values,
      covariances,
      atEdge,
      logLikelihood: this.#fit.logLikelihood,
      iterations: this.#step,
    };
  }
}

const REMEDY =
  'Score more relatives (sibs and half sibs of several pairs, parents with their young), look at fish again, or leave one of them out.';

/** Variance of each trait's scores about the fixed part's rough means; refuses what holds no information. */
function expectEnough(equations: Equations, free: number): number[] {
  const { design, model } = equations;
  return model.traits.map(({ name, values }, t) => {
    const scores = values.filter((value) => !Number.isNaN(value));
    const fixed =
      design.equations.filter(({ trait }) => trait === t).length +
      (design.groupsEstimated[t]?.filter(Boolean).length ?? 0);
    const least = model.traits.length === 1 ? free : 2;
    if (scores.length - fixed < least + 1) {
      throw new MeritError(
        'MERIT_TOO_FEW',
        `"${name}" has ${scores.length} scores for ${fixed} fixed levels and ${least} variances: score more fish, or take a heritability as given.`,
        { trait: name, scores: scores.length, fixed },
      );
    }
    const mean = scores.reduce((sum, value) => sum + value, 0) / scores.length;
    const squares = scores.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    if (squares <= 1e-24 * scores.length * mean * mean)
      throw new MeritError(
        'MERIT_NO_VARIATION',
        `All scores of "${name}" are the same: nothing varies, so nothing can be estimated.`,
        { trait: name },
      );
    return squares / (scores.length - 1);
  });
}

function firstGuess({ model }: Equations, totals: readonly number[]): Variances {
  const share = 0.5 / Math.max(1, model.random.length);
  const diagonal = (size: number, at: (k: number) => number): number[][] =>
    Array.from({ length: size }, (_, i) =>
      Array.from({ length: size }, (__, j) => (i === j ? at(i) : 0)),
    );
  return {
    random: model.random.map(({ slots }) =>
      diagonal(slots.length, (k) => {
        const { trait, coefficient } = slots[k]!;
        const square =
          coefficient === undefined
            ? 1
            : coefficient.reduce((sum, value) => sum + value * value, 0) / coefficient.length;
        return (share * totals[trait]!) / Math.max(square, 1e-12);
      }),
    ),
    residual: diagonal(totals.length, (t) => 0.5 * totals[t]!),
  };
}
