import { MeritError } from '../merit-error.js';
import { choleskyOf, solveFactored, type Square } from '../mixed/small-matrix.js';
import { PERMANENT } from '../values/animal-model.js';
import { inner, type OneScore } from '../values/one-more.js';
import { type ThresholdEquations, thresholdEquations } from './threshold-equations.js';
import { ThresholdHeight } from './threshold-height.js';
import { type ThresholdModel, type ThresholdSolution } from './threshold-model.js';
import type { ThresholdParts } from './threshold-parts.js';

/** What some looks more make of a solved threshold model; by level of the first random term, on the scale on which the residual is 1. */
export interface MoreClasses {
  readonly value: Float64Array;
  readonly errorVariance: Float64Array;
  readonly steps: number;
}

/** Steps that are taken at most; two or three do. */
const MOST_STEPS = 30;
/** What a step may still gain, of ln likelihood, when the mode counts as found. */
const SETTLED = 1e-14;
/** A row of which nothing is unknown bends the likelihood by no less than this. */
const LEAST_BEND = 1e-12;

/**
 * The mode with some looks more, from the last solution: Newton steps with the last factor, to which the bend of the new rows is added exactly
 * (Woodbury MA 1950, from memory), and slopes of all rows. The mode is that of all looks together; error variances take the bend of the
 * rows before as it was. `value` of a score is its class; levels that were not met (-1) come with the variance of their term.
 *
 * @throws MeritError MERIT_OUT_OF_RANGE where the scores make another model; MERIT_NOT_CONVERGED. Cost: a solution by the factor a step and a score.
 */
export function moreClasses(
  model: ThresholdModel,
  solved: ThresholdSolution,
  scores: readonly OneScore[],
): MoreClasses {
  const parts = withRows(model, scores);
  const equations = thresholdEquations(parts);
  if (equations.fixed.length !== solved.equations.fixed.length)
    throw new MeritError('MERIT_OUT_OF_RANGE', 'These scores make another model: solve it again.');
  const frame = new Frame(model, solved, equations);
  const of = new ThresholdHeight(parts, equations, model.variances);
  const added = new AddedRows(of, frame, model.scores.length);
  let at = frame.widen(solved.solution);
  let height = of.height(at);
  for (let step = 1; step <= MOST_STEPS; step++) {
    const gradient = of.gradient(at);
    const direction = added.step(at, frame.solve(gradient));
    const gain = inner(direction, gradient);
    let share = 1;
    let next = at;
    for (; share > 1e-6; share /= 2) {
      const tried = at.map((value, k) => value + share * direction[k]!);
      const risen = of.height(tried);
      if (!(risen >= height - 1e-12 * Math.abs(height))) continue;
      [next, height] = [tried, risen];
      break;
    }
    at = next;
    if (gain < SETTLED * (1 + Math.abs(height))) {
      const errors = added.errorsAt(at, frame.widen(solved.errorVariances));
      const { levels } = parts.random[0]!;
      const first = equations.firstOfTerm[0]!;
      const ofFirst = (all: Float64Array): Float64Array => all.slice(first, first + levels);
      return { value: ofFirst(at), errorVariance: ofFirst(errors), steps: step };
    }
  }
  throw new MeritError('MERIT_NOT_CONVERGED', 'The last solution does not lead to the next one.');
}

/** Old equations among the new: levels that were not met stand behind those of their term. */
class Frame {
  readonly #place: Int32Array;
  /** New equations with the variance of their term. */
  readonly #unmet: { readonly equation: number; readonly variance: number }[] = [];

  constructor(
    model: ThresholdModel,
    readonly solved: ThresholdSolution,
    readonly equations: ThresholdEquations,
  ) {
    const before = solved.equations;
    this.#place = Int32Array.from({ length: before.size }, (_, k) => k);
    before.firstOfTerm.forEach((first, term) => {
      const { levels } = model.random[term]!;
      const now = equations.firstOfTerm[term]!;
      for (let level = 0; level < levels; level++) this.#place[first + level] = now + level;
      const end = equations.firstOfTerm[term + 1] ?? equations.size;
      for (let equation = now + levels; equation < end; equation++)
        this.#unmet.push({ equation, variance: model.variances[term]! });
    });
  }

  /** Figures of the old equations, 0 at the new. */
  widen(old: Float64Array): Float64Array {
    const wide = new Float64Array(this.equations.size);
    this.#place.forEach((place, k) => (wide[place] = old[k]!));
    return wide;
  }

  /** Solves the old equations, and those of levels that no old row tells of. */
  solve(side: Float64Array): Float64Array {
    const old = Float64Array.from(this.#place, (place) => side[place]!);
    const solution = this.widen(this.solved.factor.solve(old));
    for (const { equation, variance } of this.#unmet)
      solution[equation] = variance * side[equation]!;
    return solution;
  }
}

/** The new rows: along which directions each bends the likelihood, and how the old equations answer those. */
class AddedRows {
  /** Each row's ends of its class, less its liability. */
  readonly #directions: Float64Array[] = [];
  readonly #answers: Float64Array[];
  readonly #firstRow: number;

  constructor(
    readonly of: ThresholdHeight,
    frame: Frame,
    firstRow: number,
  ) {
    this.#firstRow = firstRow;
    const { equations, model } = of;
    const { size, classes, rows } = equations;
    for (let row = firstRow; row < model.scores.length; row++) {
      const score = model.scores[row]!;
      for (const end of [score < classes - 1 ? score : -1, score - 1]) {
        if (end < 0) continue;
        const direction = new Float64Array(size);
        direction[end] = 1;
        rows.addTo(row, -1, direction);
        this.#directions.push(direction);
      }
    }
    this.#answers = this.#directions.map((direction) => frame.solve(direction));
  }

  /** The step of the old equations with the bend of the new rows. */
  step(at: Float64Array, old: Float64Array): Float64Array {
    const { root, factor, size } = this.#bendAt(at);
    const along = Float64Array.from(this.#directions, (direction) => inner(direction, old));
    const part = timesTransposed(root, size, along);
    solveFactored(factor, size, part);
    const taken = times(root, size, part);
    return old.map((value, k) =>
      this.#answers.reduce((sum, answer, a) => sum - answer[k]! * taken[a]!, value),
    );
  }

  /** Error variances with the new rows. */
  errorsAt(at: Float64Array, before: Float64Array): Float64Array {
    const { root, factor, size } = this.#bendAt(at);
    return before.map((variance, k) => {
      const answer = Float64Array.from(this.#answers, (each) => each[k]!);
      const part = timesTransposed(root, size, answer);
      const solved = part.slice();
      solveFactored(factor, size, solved);
      return variance - inner(part, solved);
    });
  }

  /** With B what the new rows bend and S = W'H^-1 W: L with LL' = B, and the Cholesky factor of I + L'SL. */
  #bendAt(at: Float64Array): { root: Square; factor: Square; size: number } {
    const size = this.#directions.length;
    const bend = new Float64Array(size * size);
    let place = 0;
    this.of.eachRow(at, (row, { highHigh, lowLow, lowHigh, upper, lower }) => {
      if (row < this.#firstRow) return;
      const ends = [...(upper >= 0 ? [-highHigh] : []), ...(lower >= 0 ? [-lowLow] : [])];
      ends.forEach((end, e) => {
        bend[(place + e) * size + place + e] = Math.max(end, LEAST_BEND);
      });
      if (ends.length === 2) {
        bend[(place + 1) * size + place] = -lowHigh;
        bend[place * size + place + 1] = -lowHigh;
      }
      place += ends.length;
    });
    const root = choleskyOf(bend, size);
    if (root === null)
      throw new MeritError('MERIT_NOT_CONVERGED', 'The last solution does not lead to the next.');
    const inside = new Float64Array(size * size);
    for (let j = 0; j < size; j++) {
      const column = times(root, size, unit(size, j));
      const answered = Float64Array.from(this.#directions, (direction) =>
        this.#answers.reduce((sum, answer, a) => sum + inner(answer, direction) * column[a]!, 0),
      );
      timesTransposed(root, size, answered).forEach((value, i) => {
        inside[i * size + j] = value + (i === j ? 1 : 0);
      });
    }
    return { root, factor: choleskyOf(inside, size)!, size };
  }
}

const unit = (size: number, at: number): Float64Array => {
  const vector = new Float64Array(size);
  vector[at] = 1;
  return vector;
};

/** L v of a lower triangle. */
const times = (l: Square, size: number, v: Float64Array): Float64Array =>
  v.map((_, i) => {
    let sum = 0;
    for (let j = 0; j <= i; j++) sum += l[i * size + j]! * v[j]!;
    return sum;
  });

/** L'v. */
const timesTransposed = (l: Square, size: number, v: Float64Array): Float64Array =>
  v.map((_, j) => {
    let sum = 0;
    for (let i = j; i < size; i++) sum += l[i * size + j]! * v[i]!;
    return sum;
  });

const withNumber = (of: Int32Array, more: readonly number[]): Int32Array =>
  Int32Array.from([...of, ...more]);

/** The model's rows with those of the scores behind them. */
function withRows(model: ThresholdModel, scores: readonly OneScore[]): ThresholdParts {
  const { scores: classes, counts, fixed, random, classes: number, link, fixedDeviation } = model;
  const { levels: fish, slots } = random[0]!;
  if (scores.some((score) => !(score.fish >= 0 && score.fish < fish)))
    throw new MeritError('MERIT_OUT_OF_RANGE', 'A fish of these scores is not in the model.');
  let sharedAt = 0;
  return {
    classes: number,
    ...(link !== undefined && { link }),
    ...(fixedDeviation !== undefined && { fixedDeviation }),
    scores: withNumber(
      classes,
      scores.map(({ value }) => value),
    ),
    ...(counts !== undefined && { counts: Float64Array.from([...counts, ...scores.map(() => 1)]) }),
    fixed: fixed.map((column, k) => {
      const given = scores.map(({ fixed: of = [] }) => of[k] ?? NaN);
      if (column.kind === 'covariate')
        return { ...column, values: Float64Array.from([...column.values, ...given]) };
      if (given.some((level) => !(level >= 0 && level < column.levels.length)))
        throw new MeritError(
          'MERIT_OUT_OF_RANGE',
          `A level of "${column.name}" is not in the model.`,
        );
      return { ...column, codes: withNumber(column.codes, given) };
    }),
    random: random.map((term, k) => {
      const nth = k === 0 || term.name === PERMANENT ? -1 : sharedAt++;
      const given = scores.map(({ fish: of, shared = [] }): number | null => {
        if (k === 0) return of;
        if (nth >= 0) return shared[nth] ?? null;
        const row = slots[0]!.level.indexOf(of);
        return row < 0 ? -1 : term.slots[0]!.level[row]!;
      });
      let { levels } = term;
      const codes = given.map((level) => (level === null ? -1 : level < 0 ? levels++ : level));
      const [slot] = term.slots;
      return { ...term, levels, slots: [{ ...slot!, level: withNumber(slot!.level, codes) }] };
    }),
  };
}
