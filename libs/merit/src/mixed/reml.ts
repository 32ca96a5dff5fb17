import { MeritError } from '../merit-error.js';
import type { Equations } from './equations.js';
import { Fit } from './fit.js';
import { factorQuantities, mappedQuantities, type FreeQuantities } from './free-quantities.js';
import { averageInformation, slopeOf, type Slope } from './information.js';
import type { Variances } from './mixed-model.js';
import { neverMet } from './never-met.js';
import { parametersOf, valuesOf, variancesFrom, type VarianceParameter } from './parameters.js';
import { eigenOf, invertDefinite } from './small-matrix.js';

export interface RemlOptions {
  /** Where to begin; by default shares of the variance of the scores. */
  readonly start?: Variances;
  /**
   * Parameters as weighted sums of fewer: `theta = map phi`, row by row. For a given heritability the additive variance is a
   * multiple of the sum of all others.
   */
  readonly map?: readonly (readonly number[])[];
  /** Random terms whose slots are taken as independent: no covariances of them are sought. */
  readonly independent?: readonly number[];
  /** Most steps, 100 unless given; a likelihood that rises by less than 0.001 in the last of them counts as settled. */
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
  /** Covariances of which no score tells, taken as 0. */
  readonly neverMet: readonly boolean[];
  readonly logLikelihood: number;
  readonly iterations: number;
}

/** A variance this share of the total stands for 0, so that the equations can still be written. */
const EDGE = 1e-6;

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
  readonly #quantities: FreeQuantities;
  #phi: Float64Array;
  #fit: Fit;
  #held: boolean[];
  readonly #neverMet: readonly boolean[];
  /** Quantities that stay at 0. */
  readonly #atZero: readonly boolean[];
  /** Information that each quantity would have if all scores told of it alone: the scale of damping. */
  readonly #stiffness: Float64Array;
  #damping = 0;
  #step = 0;

  constructor(
    readonly equations: Equations,
    readonly options: RemlOptions,
  ) {
    this.#parameters = parametersOf(equations);
    const free = options.map?.[0]?.length ?? this.#parameters.length;
    const totals = expectEnough(equations, free);
    this.#quantities =
      options.map === undefined
        ? factorQuantities(
            equations,
            this.#parameters,
            totals.map((total) => EDGE * total),
          )
        : mappedQuantities(options.map, EDGE * totals[0]!);
    const unmet = neverMet(equations, this.#parameters);
    const atZero = this.#parameters.map(
      ({ term, i, j }, a) =>
        unmet[a] === true || (i !== j && options.independent?.includes(term) === true),
    );
    const start = valuesOf(this.#parameters, options.start ?? firstGuess(equations, totals)).map(
      (value, a) => (atZero[a] === true ? 0 : value),
    );
    const phi = this.#quantities.fromParameters(start);
    if (phi === null)
      throw new MeritError(
        'MERIT_NOT_DEFINITE',
        'The variances to begin with do not fit together.',
      );
    this.#phi = phi.map((value, a) => Math.max(value, this.#quantities.least[a]!));
    this.#fit = this.#at(this.#phi);
    expectLeft(this.#fit);
    this.#stiffness = this.#quantities.least.map((_, a) => {
      const { term, i } = this.#parameters[a] ?? { term: -1, i: 0 };
      const trait = term < 0 ? i : equations.model.random[term]!.slots[i]!.trait;
      const single =
        options.map !== undefined ||
        (term < 0 ? totals : equations.model.random[term]!.slots).length === 1;
      return equations.scores / (single ? totals[trait]! ** 2 : totals[trait]!);
    });
    this.#neverMet = unmet;
    // Given sums of variances have no covariances.
    this.#atZero = options.map === undefined ? atZero : new Array<boolean>(free).fill(false);
    this.#held = [...this.#atZero];
  }

  run(): RemlResult {
    const limit = this.options.iterations ?? 100;
    let information = this.#information();
    this.#expectSeparable(information);
    let small = 0;
    for (this.#step = 1; this.#step <= limit; this.#step++) {
      const slope = slopeOf(this.#fit, this.#parameters);
      const scores = this.#freeScores(slope);
      this.#hold(scores);
      // Twice what the likelihood would rise by if it were as round as the information says.
      const direction = this.#direction(information, scores, 0);
      const gain = direction?.reduce((sum, d, k) => sum + d * scores[k]!, 0) ?? Infinity;
      const before = this.#fit.logLikelihood;
      const moved = this.#move(information, scores) || this.#moveByEm(slope);
      const rise = this.#fit.logLikelihood - before;
      if (this.options.onStep?.(this.#step, this.#fit.logLikelihood) === false) break;
      if (!moved || gain < 1e-9) return this.#result();
      // On a ridge, as where a correlation wants to be 1, steps gain less and less.
      small = rise < 1e-7 ? small + 1 : 0;
      if (small >= 3 || (this.#step === limit && rise < 1e-3)) return this.#result();
      information = this.#information();
    }
    throw new MeritError(
      'MERIT_NOT_CONVERGED',
      `The variances did not settle in ${this.#step - 1} steps. Fit fewer terms, or more scores.`,
      { iterations: this.#step - 1 },
    );
  }

  #at(phi: Float64Array): Fit {
    const values = this.#quantities.toParameters(phi);
    return new Fit(this.equations, variancesFrom(this.equations, this.#parameters, values));
  }

  #information(): Float64Array {
    const full = averageInformation(this.#fit, this.#parameters);
    const slope = this.#quantities.slope(this.#phi);
    const [count, free] = [this.#parameters.length, this.#quantities.count];
    const half = slope.map((_, i) => {
      const row = new Float64Array(free);
      for (let j = 0; j < count; j++)
        for (let b = 0; b < free; b++) row[b]! += full[i * count + j]! * slope[j]![b]!;
      return row;
    });
    const reduced = new Float64Array(free * free);
    for (let i = 0; i < count; i++)
      for (let a = 0; a < free; a++)
        for (let b = 0; b < free; b++) reduced[a * free + b]! += slope[i]![a]! * half[i]![b]!;
    return reduced;
  }

  #freeScores({ scores }: Slope): Float64Array {
    const slope = this.#quantities.slope(this.#phi);
    return Float64Array.from({ length: this.#quantities.count }, (_, a) =>
      scores.reduce((sum, score, i) => sum + score * slope[i]![a]!, 0),
    );
  }

  #hold(scores: Float64Array): void {
    const { least } = this.#quantities;
    this.#held = this.#atZero.map(
      (stays, a) => stays || (this.#phi[a]! <= least[a]! * 1.0001 && scores[a]! < 0),
    );
  }

  /**
   * The step by the average information, damped where the likelihood is not as round as it says (Marquardt 1963); null where the information
   * has no inverse.
   */
  #direction(
    information: Float64Array,
    scores: Float64Array,
    damping: number,
  ): Float64Array | null {
    const free = this.#held.flatMap((held, a) => (held ? [] : [a]));
    const size = free.length;
    const direction = new Float64Array(this.#quantities.count);
    const part = this.#part(information, free);
    free.forEach((a, k) => (part[k * size + k]! += damping * this.#stiffness[a]!));
    const inverted = invertDefinite(part, size);
    if (inverted === null) return null;
    free.forEach((a, i) => {
      direction[a] = free.reduce(
        (sum, b, j) => sum + inverted.inverse[i * size + j]! * scores[b]!,
        0,
      );
    });
    return direction;
  }

  #part(information: Float64Array, free: readonly number[]): Float64Array {
    const [size, all] = [free.length, this.#quantities.count];
    const part = new Float64Array(size * size);
    free.forEach((a, i) =>
      free.forEach((b, j) => (part[i * size + j] = information[a * all + b]!)),
    );
    return part;
  }

  /** Steps by the average information, damped more each time until the likelihood does not fall; false when that does not help. */
  #move(information: Float64Array, scores: Float64Array): boolean {
    const before = this.#fit.logLikelihood;
    let damping = this.#damping < 1e-5 ? 0 : this.#damping / 10;
    for (let trial = 0; trial < 12; trial++) {
      const direction = this.#direction(information, scores, damping);
      if (
        direction?.some((d) => d !== 0) === true &&
        this.#tried(
          this.#phi.map((value, a) => value + direction[a]!),
          before,
        )
      ) {
        this.#damping = damping;
        return true;
      }
      damping = damping === 0 ? 1e-4 : damping * 10;
    }
    this.#damping = 0;
    return false;
  }

  #moveByEm({ emRandom, emResidual }: Slope): boolean {
    if (this.options.map !== undefined) return false;
    const traits = this.equations.model.traits.length;
    const next = Float64Array.from(this.#parameters, ({ term, i, j }) => {
      if (term < 0) return emResidual[i * traits + j]!;
      return emRandom[term]![i * this.equations.model.random[term]!.slots.length + j]!;
    });
    const phi = this.#quantities.fromParameters(next);
    return phi !== null && this.#tried(phi, this.#fit.logLikelihood);
  }

  /** Takes these values, brought within their range, unless the likelihood falls. */
  #tried(wanted: Float64Array, before: number): boolean {
    const phi = wanted.map((value, a) => Math.max(value, this.#quantities.least[a]!));
    const fit = this.#possible(phi);
    if (fit === null) return false;
    // Rounding alone may let it fall by a hair at the top.
    if (!(fit.logLikelihood > before - 1e-10 * (1 + Math.abs(before)))) return false;
    this.#fit = fit;
    this.#phi = phi;
    return true;
  }

  /** Null where a step has led so far that the equations cannot be solved. */
  #possible(phi: Float64Array): Fit | null {
    try {
      return this.#at(phi);
    } catch (error) {
      if (error instanceof MeritError && error.code === 'MERIT_NOT_DEFINITE') return null;
      throw error;
    }
  }

  #expectSeparable(information: Float64Array): void {
    const size = this.#quantities.count;
    const scale = Float64Array.from({ length: size }, (_, a) =>
      Math.sqrt(information[a * size + a]!),
    );
    // Where fish, or broods, hardly differ from each other the average information is rounding alone, and as good as 0 in truth.
    const silent = scale.map((value, a) => +!(value ** 2 > 1e-10 * this.#stiffness[a]!));
    const correlations = information.map((value, k) => {
      const [i, j] = [Math.floor(k / size), k % size];
      return silent[i] || silent[j] ? +(i === j) : value / (scale[i]! * scale[j]!);
    });
    const { values, vectors } = eigenOf(correlations, size);
    const least = values.indexOf(Math.min(...values));
    if (values[least]! > 1e-9) return;
    const slope = this.#quantities.slope(this.#phi);
    const names = new Set(
      Array.from({ length: size }, (_, a) => a)
        .filter((a) => Math.abs(vectors[a * size + least]!) > 0.1)
        .flatMap((a) => this.#parameters.filter((_, i) => slope[i]![a] !== 0))
        .map(({ term }) => (term < 0 ? 'residual' : this.equations.model.random[term]!.name)),
    );
    throw new MeritError(
      'MERIT_NOT_SEPARABLE',
      `These scores cannot tell ${[...names].join(' and ')} apart. ${REMEDY}`,
      { terms: [...names] },
    );
  }

  #result(): RemlResult {
    const scores = this.#freeScores(slopeOf(this.#fit, this.#parameters));
    this.#hold(scores);
    const free = this.#held.flatMap((held, a) => (held ? [] : [a]));
    const inverted = invertDefinite(this.#part(this.#information(), free), free.length);
    const slope = this.#quantities.slope(this.#phi);
    const count = this.#parameters.length;
    const covariances = new Float64Array(count * count).fill(inverted === null ? NaN : 0);
    for (let i = 0; i < count && inverted !== null; i++)
      for (let j = 0; j < count; j++)
        free.forEach((a, p) =>
          free.forEach((b, q) => {
            covariances[i * count + j]! +=
              slope[i]![a]! * inverted.inverse[p * free.length + q]! * slope[j]![b]!;
          }),
        );
    const atEdge = slope.map((row) => row.every((b, a) => b === 0 || this.#held[a] === true));
    const values = this.#quantities
      .toParameters(this.#phi)
      .map((value, i) => (atEdge[i] === true ? 0 : value));
    return {
      fit: this.#fit,
      variances: variancesFrom(this.equations, this.#parameters, values),
      parameters: this.#parameters,
      values,
      covariances,
      atEdge,
      neverMet: this.#neverMet,
      // What is left of the way from the edge to 0, where the likelihood is all but straight.
      logLikelihood: this.#held.reduce(
        (sum, held, a) => (held ? sum - scores[a]! * this.#phi[a]! : sum),
        this.#fit.logLikelihood,
      ),
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
    // Each of several traits has its share of the variances and of the covariances.
    const least = Math.ceil(free / model.traits.length);
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

/** At first variances of the size of the scores' own, what is left after the fixed part counts about one a score. */
function expectLeft({ quadratic, equations }: Fit): void {
  if (quadratic > 1e-12 * equations.scores) return;
  throw new MeritError(
    'MERIT_NO_VARIATION',
    'Within the fixed levels all scores are the same: nothing varies, so nothing can be estimated.',
  );
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
