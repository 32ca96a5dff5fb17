import { MeritError } from '../merit-error.js';
import { invertDefinite } from '../mixed/small-matrix.js';
import { expectCounts, fitBetaBinomial, type BroodCounts, type CountFit } from './counts-model.js';

/** Broods counted at two stages, with the inbreeding behind each. */
export interface CountedBroods {
  /** Young alive, or sound, at the end of the stage, and at its beginning. */
  readonly survivors: readonly number[];
  readonly counted: readonly number[];
  /** Coefficients by brood, such as F of the young, F of the dam, or old and recent inbreeding apart. */
  readonly inbreeding: readonly { readonly name: string; readonly values: readonly number[] }[];
  /** What else moves -ln survival, such as 0 and 1 for broods of a line: fitted beside, and not told. */
  readonly beside?: readonly (readonly number[])[];
}

/** What inbreeding costs by one of its coefficients. */
export interface InbreedingLoad {
  readonly name: string;
  /** B: lethal equivalents a gamete. -ln survival rises by B from F = 0 to F = 1. */
  readonly perGamete: number;
  /** 2 B, a diploid fish. */
  readonly perFish: number;
  readonly standardError: number | null;
  /** By the profile of the likelihood; in units of B. */
  readonly interval: { readonly low: number; readonly high: number };
  /**
   * The smallest B that broods like these would have shown: found in four of five such sets of broods by a two-sided test at 5 %. Infinity
   * when all have the same F.
   */
  readonly smallestDetectable: number;
  /** Never that there is no effect: broods can only fail to show one. */
  readonly verdict: 'costs' | 'cannot tell yet' | 'helps';
}

export interface LoadAnswer {
  /** A: -ln survival of a brood without inbreeding. */
  readonly withoutInbreeding: number;
  /** Correlation of young of one brood beyond what inbreeding explains. */
  readonly betweenBroods: number;
  readonly loads: readonly InbreedingLoad[];
  readonly broods: number;
  readonly logLikelihood: number;
}

/** Normal quantiles of 97.5 % and 80 %. */
const TWO_SIDED_5 = 1.959963984540054;
const POWER_80 = 0.8416212335729143;

/**
 * Inbreeding depression in lethal equivalents: -ln S = A + B F, with counts that vary between broods by more than chance
 * (beta-binomial).
 *
 * Source: Morton NE, Crow JF & Muller HJ (1956) PNAS 42:855-863.
 * Assumes that causes of death act one by one, and that broods of all F are treated alike. Later broods are often more inbred: what has
 * changed with time looks like inbreeding.
 * @throws MeritError MERIT_TOO_FEW, MERIT_NO_VARIATION when no brood differs in F, MERIT_OUT_OF_RANGE.
 * Cost: young times some thousand evaluations.
 */
export function inbreedingLoad({
  survivors,
  counted,
  inbreeding,
  beside = [],
}: CountedBroods): LoadAnswer {
  for (const { name, values } of inbreeding) {
    const wrong = values.find((f) => !(f >= 0 && f <= 1));
    if (wrong !== undefined)
      throw new MeritError(
        'MERIT_OUT_OF_RANGE',
        `"${name}" of ${wrong} is no inbreeding coefficient: it lies between 0 and 1.`,
        {
          name,
        },
      );
    if (new Set(values).size < 2)
      throw new MeritError(
        'MERIT_NO_VARIATION',
        `All broods have the same "${name}": there is nothing to compare.`,
        { name },
      );
  }
  const counts: BroodCounts = {
    successes: survivors,
    totals: counted,
    columns: [survivors.map(() => 1), ...inbreeding.map(({ values }) => values), ...beside],
  };
  expectCounts(counts);
  const fit = fitBetaBinomial(counts, 'log loss');
  const atNone = smallestDetectable(counts, fit.effects, fit.spread);
  const loads = inbreeding.map(({ name }, k): InbreedingLoad => {
    const b = fit.effects[k + 1]!;
    const interval = profileInterval(counts, k + 1, fit);
    return {
      name,
      perGamete: b,
      perFish: 2 * b,
      standardError: fit.standardErrors[k + 1]!,
      interval,
      smallestDetectable: atNone[k]!,
      verdict: interval.low > 0 ? 'costs' : interval.high < 0 ? 'helps' : 'cannot tell yet',
    };
  });
  return {
    withoutInbreeding: fit.effects[0]!,
    betweenBroods: fit.spread,
    loads,
    broods: survivors.length,
    logLikelihood: fit.logLikelihood,
  };
}

/** Furthest that an end is looked for. */
const FURTHEST = 1e4;

/** Where the likelihood, all else at its best, has fallen by half the 95 % point of chi-square. */
function profileInterval(counts: BroodCounts, column: number, best: CountFit) {
  return { low: endOf(counts, column, best, -1), high: endOf(counts, column, best, 1) };
}

/** One end: the root of twice the fall grows nearly evenly with the distance, so that a straight line through two points foretells it. */
function endOf(counts: BroodCounts, column: number, best: CountFit, direction: 1 | -1): number {
  const estimate = best.effects[column]!;
  let near = best;
  let inside = { distance: 0, fall: 0 };
  let outside: typeof inside | null = null;
  let distance = TWO_SIDED_5 * (best.standardErrors[column] ?? 0.5);
  for (let k = 0; k < 60 && distance < FURTHEST; k++) {
    const held = new Map([[column, estimate + direction * distance]]);
    const fit = fitBetaBinomial(counts, 'log loss', held, near);
    const fall = Math.sqrt(Math.max(0, 2 * (best.logLikelihood - fit.logLikelihood)));
    if (Math.abs(fall - TWO_SIDED_5) < 1e-4) break;
    if (fall < TWO_SIDED_5) [inside, near] = [{ distance, fall }, fit];
    else outside = { distance, fall };
    if (outside !== null && outside.distance - inside.distance < 1e-6 * outside.distance) break;
    distance = nextDistance(inside, outside);
  }
  return distance < FURTHEST ? estimate + direction * distance : direction * Infinity;
}

function nextDistance(
  inside: { readonly distance: number; readonly fall: number },
  outside: { readonly distance: number; readonly fall: number } | null,
): number {
  if (outside === null) {
    const foretold = (1.02 * TWO_SIDED_5 * inside.distance) / Math.max(inside.fall, 1e-9);
    return Math.min(foretold, 3 * inside.distance);
  }
  const width = outside.distance - inside.distance;
  if (!Number.isFinite(outside.fall)) return inside.distance + width / 2;
  const share = (TWO_SIDED_5 - inside.fall) / (outside.fall - inside.fall);
  return inside.distance + width * Math.min(0.95, Math.max(0.05, share));
}

/** From the information that broods of these sizes and F hold about each B when there is no load. */
function smallestDetectable(
  counts: BroodCounts,
  effects: readonly number[],
  rho: number,
): number[] {
  const { totals, columns } = counts;
  const p = Math.exp(-Math.max(effects[0]!, 1e-3));
  const size = columns.length;
  const information = new Float64Array(size * size);
  totals.forEach((n, brood) => {
    if (n === 0) return;
    const weight = (n * p) / ((1 - p) * (1 + (n - 1) * rho));
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++)
        information[i * size + j]! += weight * columns[i]![brood]! * columns[j]![brood]!;
  });
  const variances = diagonalOfInverse(information, size);
  return columns.slice(1).map((_, k) => (TWO_SIDED_5 + POWER_80) * Math.sqrt(variances[k + 1]!));
}

function diagonalOfInverse(matrix: Float64Array, size: number): number[] {
  const inverted = invertDefinite(matrix, size);
  return Array.from({ length: size }, (_, k) => inverted?.inverse[k * size + k] ?? Infinity);
}

/** Share of young that inbreeding costs: 1 - exp(-B F). */
export const costOfInbreeding = (perGamete: number, inbreeding: number): number =>
  -Math.expm1(-perGamete * inbreeding);

/** Further share that dies at this inbreeding, beside what dies without: exp(-A) - exp(-A - B F). */
export const excessRisk = (without: number, perGamete: number, inbreeding: number): number =>
  Math.exp(-without) - Math.exp(-without - perGamete * inbreeding);

/**
 * Lethal equivalents a gamete from published losses against outbred fish kept alongside: least squares of -ln(1 - loss) on F through 0.
 *
 * @throws MeritError MERIT_OUT_OF_RANGE.
 */
export function loadFromLosses(
  losses: readonly { readonly inbreeding: number; readonly loss: number }[],
): number {
  let [product, square] = [0, 0];
  for (const { inbreeding, loss } of losses) {
    if (!(loss < 1 && inbreeding > 0 && inbreeding <= 1))
      throw new MeritError(
        'MERIT_OUT_OF_RANGE',
        `A loss of ${loss} at F ${inbreeding} cannot be used: losses lie below 1, F above 0.`,
      );
    product += -Math.log1p(-loss) * inbreeding;
    square += inbreeding ** 2;
  }
  return product / square;
}
