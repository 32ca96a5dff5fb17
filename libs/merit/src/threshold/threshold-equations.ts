import { normalQuantile } from '../distributions.js';
import { MeritError } from '../merit-error.js';
import { designFixed, rowPlaces, type FixedEquation } from '../mixed/fixed-design.js';
import { RowEntries } from '../mixed/row-entries.js';
import type { ThresholdParts } from './threshold-parts.js';

/** Numbering of a threshold model: thresholds first, then fixed effects, then the levels of the random terms. */
export interface ThresholdEquations {
  readonly size: number;
  readonly classes: number;
  readonly fixed: readonly FixedEquation[];
  /** First equation of each random term. */
  readonly firstOfTerm: readonly number[];
  readonly randomEquations: number;
  readonly rows: RowEntries;
  readonly unitOf: Int32Array;
  readonly units: number;
  readonly start: Float64Array;
  /** Visits the entries of the precision at these variances, one half: of random effects, and of fixed ones that are not flat before. */
  readonly eachPrior: (
    variances: readonly number[],
    visit: (i: number, j: number, value: number) => void,
  ) => void;
}

/** @throws MeritError MERIT_TOO_FEW, MERIT_OUT_OF_RANGE. */
export function thresholdEquations(model: ThresholdParts): ThresholdEquations {
  const { classes, random } = model;
  const seen = classesSeen(model);
  const { fixed, firstPlaces } = fixedEquations(model);
  const firstFixed = classes - 1;
  let next = firstFixed + fixed.length;
  const firstOfTerm = random.map(({ levels }) => {
    const first = next;
    next += levels;
    return first;
  });
  const size = next;
  const rows = rowsOf(model, firstPlaces, firstFixed, firstOfTerm);
  return {
    size,
    classes,
    fixed,
    firstOfTerm,
    randomEquations: size - firstFixed - fixed.length,
    rows,
    unitOf: Int32Array.from({ length: size }, (_, k) => k),
    units: size,
    start: startAt(seen, size),
    eachPrior: priorOf(model, firstOfTerm, fixedPrecisions(model, fixed, rows, firstFixed)),
  };
}

/** Looks of each class. @throws MeritError MERIT_TOO_FEW, MERIT_OUT_OF_RANGE. */
function classesSeen({ scores, classes, counts }: ThresholdParts): Float64Array {
  const seen = new Float64Array(classes);
  scores.forEach((score, row) => {
    if (score >= classes)
      throw new MeritError(
        'MERIT_OUT_OF_RANGE',
        `There is no class ${score}; there are ${classes}.`,
      );
    if (score >= 0) seen[score]! += counts?.[row] ?? 1;
  });
  if (classes < 2 || seen.some((count) => count === 0)) {
    throw new MeritError(
      'MERIT_TOO_FEW',
      'Each class must have been seen at least once: join classes that were not.',
      { seen: [...seen] },
    );
  }
  return seen;
}

function rowsOf(
  { scores, random }: ThresholdParts,
  { columns, equationOf }: ReturnType<typeof fixedEquations>['firstPlaces'],
  firstFixed: number,
  firstOfTerm: readonly number[],
): RowEntries {
  const rows = new RowEntries(scores.length);
  for (let row = 0; row < scores.length; row++) {
    if (scores[row]! >= 0) {
      rowPlaces(columns, row, (place, value) => {
        const equation = equationOf[place]!;
        if (equation >= 0) rows.add(firstFixed + equation, value);
      });
      random.forEach(({ slots }, term) => {
        const slot = slots[0]!;
        if (slot.level[row]! >= 0)
          rows.add(firstOfTerm[term]! + slot.level[row]!, slot.coefficient?.[row] ?? 1);
      });
    }
    rows.endRow();
  }
  return rows;
}

/** Precision of each fixed effect by its equation, where the whole variance is 1; none where they are flat. */
function fixedPrecisions(
  { scores, fixedDeviation }: ThresholdParts,
  fixed: readonly FixedEquation[],
  rows: RowEntries,
  firstFixed: number,
): Map<number, number> {
  if (fixedDeviation === undefined) return new Map();
  const [sums, squares] = [
    new Float64Array(firstFixed + fixed.length),
    new Float64Array(firstFixed + fixed.length),
  ];
  scores.forEach((score, row) => {
    if (score >= 0)
      rows.each(row, (equation, value) => {
        if (equation >= sums.length) return;
        sums[equation]! += value;
        squares[equation]! += value * value;
      });
  });
  const scored = scores.reduce((count, score) => count + (score >= 0 ? 1 : 0), 0);
  return new Map(
    fixed.map(({ level }, k) => {
      const equation = firstFixed + k;
      const variance = squares[equation]! / scored - (sums[equation]! / scored) ** 2;
      return [equation, (level === null ? variance : 1) / fixedDeviation ** 2];
    }),
  );
}

function priorOf(
  { random }: ThresholdParts,
  firstOfTerm: readonly number[],
  ofFixed: ReadonlyMap<number, number>,
): ThresholdEquations['eachPrior'] {
  const terms = random.map((term, k) => lowerHalf(term, firstOfTerm[k]!));
  return (variances, visit) => {
    const whole = variances.reduce((sum, variance) => sum + variance, 1);
    for (const [equation, precision] of ofFixed) visit(equation, equation, precision / whole);
    for (let term = 0; term < terms.length; term++) {
      const { rows, columns, values } = terms[term]!;
      const precision = 1 / variances[term]!;
      for (let k = 0; k < rows.length; k++) visit(rows[k]!, columns[k]!, precision * values[k]!);
    }
  };
}

/** The lower half of a term's inverse relationships at the places of its equations. */
function lowerHalf({ levels, inverse }: ThresholdParts['random'][number], first: number) {
  const places = inverse === undefined ? Array.from({ length: levels }, (_, level) => level) : [];
  inverse?.rows.forEach((row, k) => {
    if (row >= inverse.columns[k]!) places.push(k);
  });
  const at = (of: ArrayLike<number> | undefined): Int32Array =>
    Int32Array.from(places, (k) => first + (of === undefined ? k : of[k]!));
  return {
    rows: at(inverse?.rows),
    columns: at(inverse?.columns),
    values: Float64Array.from(places, (k) => inverse?.values[k] ?? 1),
  };
}

/** Thresholds of the shares of the classes, effects at 0. */
function startAt(seen: Float64Array, size: number): Float64Array {
  const total = seen.reduce((sum, count) => sum + count, 0);
  const start = new Float64Array(size);
  let below = 0;
  for (let k = 0; k < seen.length - 1; k++) {
    below += seen[k]!;
    start[k] = normalQuantile(below / total);
  }
  return start;
}

/** The fixed part without the level that the thresholds stand for. */
function fixedEquations({ scores, fixed }: ThresholdParts) {
  // With a mean in front, the first level of every column of classes falls out.
  const mean = {
    kind: 'classes' as const,
    name: '',
    levels: [''],
    codes: new Int32Array(scores.length),
  };
  const values = Float64Array.from(scores, (score) => (score < 0 ? NaN : score));
  const design = designFixed({
    rows: scores.length,
    traits: [{ name: 'classes', values }],
    fixed: [mean, ...fixed],
    random: [],
  });
  const kept = design.equations.filter(({ column }) => column !== '');
  const equationOf = design.equationOf[0]!.map((equation) => (equation < 0 ? -1 : equation - 1));
  return { fixed: kept, firstPlaces: { columns: design.columns, equationOf } };
}
