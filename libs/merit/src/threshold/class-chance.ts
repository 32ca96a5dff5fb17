import { normalBelow, normalDensity } from '../distributions.js';

/** A symmetric matrix over the upper and the lower end of a class, each less the liability. */
export interface Ends {
  readonly hh: number;
  readonly ll: number;
  readonly hl: number;
}

/** A normal belief about both ends of a class. An end that is open stands at 0 with variance 1, and nothing touches it. */
export interface EndsBelief {
  readonly high: number;
  readonly low: number;
  readonly spread: Ends;
}

/** What seeing the class says of such a belief: its chance, and the first and second derivatives of ln of it by the two means. */
export interface ChanceSlopes {
  readonly logChance: number;
  readonly high: number;
  readonly low: number;
  readonly bend: Ends;
}

/** Below it the chance of an end is taken by its limit. */
const FAR_OUT = -30;

/** ln of P(Z < a) and its slope. */
function logBelow(a: number): { readonly log: number; readonly slope: number } {
  if (a < FAR_OUT) return { log: -0.5 * a * a - Math.log(-a * Math.sqrt(2 * Math.PI)), slope: -a };
  const p = normalBelow(a);
  return { log: Math.log(p), slope: normalDensity(a) / p };
}

/**
 * Chance that a liability whose residual is standard normal falls between two ends, both of them known with an error: P(lower < residual <=
 * upper), which for normal errors is a difference of two normal probabilities at the ends' means over sqrt(1 + variance).
 *
 * @returns null where the belief has the ends out of order, so that nothing can be said.
 */
export function classChance(
  { high, low, spread }: EndsBelief,
  hasUpper: boolean,
  hasLower: boolean,
): ChanceSlopes | null {
  const [sh, sl] = [Math.sqrt(1 + spread.hh), Math.sqrt(1 + spread.ll)];
  const [a, b] = [high / sh, low / sl];
  if (!hasLower) {
    const { log, slope } = logBelow(a);
    return {
      logChance: log,
      high: slope / sh,
      low: 0,
      bend: { hh: -(slope * (a + slope)) / sh ** 2, ll: 0, hl: 0 },
    };
  }
  if (!hasUpper) {
    const { log, slope } = logBelow(-b);
    return {
      logChance: log,
      high: 0,
      low: -slope / sl,
      bend: { hh: 0, ll: -(slope * (slope - b)) / sl ** 2, hl: 0 },
    };
  }
  const gap = spread.hh + spread.ll - 2 * spread.hl;
  if (high - low < IN_ORDER * Math.sqrt(gap)) return inOrder({ high, low, spread });
  const chance = b > 0 ? normalBelow(-b) - normalBelow(-a) : normalBelow(a) - normalBelow(b);
  if (!(chance > LEAST)) return null;
  const gh = normalDensity(a) / sh / chance;
  const gl = -normalDensity(b) / sl / chance;
  return {
    logChance: Math.log(chance),
    high: gh,
    low: gl,
    bend: { hh: (-a / sh) * gh - gh * gh, ll: (-b / sl) * gl - gl * gl, hl: -gh * gl },
  };
}

/** Chances below it are taken for none. */
const LEAST = 1e-12;
/** Ends so many standard deviations apart are taken to be in order for certain. */
const IN_ORDER = 6;
/** Steps over the gap between two ends that may be out of order. */
const GAP_STEPS = 24;

/** The same where the belief holds ends out of order, which cannot be: summed over even steps of the gap between them. */
function inOrder({ high, low, spread }: EndsBelief): ChanceSlopes | null {
  const { hh, ll, hl } = spread;
  const variance = hh + ll - 2 * hl;
  const deviation = Math.sqrt(variance);
  const from = Math.max(0, high - low - 8 * deviation);
  const to = Math.max(high - low, 0) + 8 * deviation;
  const step = (to - from) / GAP_STEPS;
  // The upper end at a given gap.
  const slope = (hh - hl) / variance;
  const left = Math.max(0, hh - slope * (hh - hl));
  const w = Math.sqrt(1 + left);
  let [all, sh, sl, shh, sll, shl] = [0, 0, 0, 0, 0, 0];
  for (let k = 0; k < GAP_STEPS; k++) {
    const gap = from + (k + 0.5) * step;
    const off = (gap - (high - low)) / deviation;
    const weight = (normalDensity(off) / deviation) * step;
    const at = high + slope * (gap - (high - low));
    const [a, b] = [at / w, (at - gap) / w];
    const [da, db] = [normalDensity(a), normalDensity(b)];
    const chance = b > 0 ? normalBelow(-b) - normalBelow(-a) : normalBelow(a) - normalBelow(b);
    // Chance, its first and its second slope: mean and square of the upper end where the class is seen.
    const [first, second] = [(da - db) / w, (b * db - a * da) / w ** 2];
    const mean = at * chance + left * first;
    const square = (at * at + left) * chance + 2 * at * left * first + left * left * second;
    all += weight * chance;
    sh += weight * mean;
    sl += weight * (mean - gap * chance);
    shh += weight * square;
    shl += weight * (square - gap * mean);
    sll += weight * (square - 2 * gap * mean + gap * gap * chance);
  }
  if (!(all > LEAST)) return null;
  const [mh, ml] = [sh / all, sl / all];
  const seen = { hh: shh / all - mh * mh, ll: sll / all - ml * ml, hl: shl / all - mh * ml };
  return { logChance: Math.log(all), ...slopesOf({ high, low, spread }, mh, ml, seen) };
}

/** g = V^-1 (mean - m) and H = V^-1 S V^-1 - V^-1, of mean and spread once the class is seen. */
function slopesOf({ high, low, spread }: EndsBelief, mh: number, ml: number, seen: Ends) {
  const { hh, ll, hl } = spread;
  const determinant = hh * ll - hl * hl;
  const [p, q, r] = [ll / determinant, -hl / determinant, hh / determinant];
  const [dh, dl] = [mh - high, ml - low];
  const d = { hh: seen.hh - hh, ll: seen.ll - ll, hl: seen.hl - hl };
  // V^-1 (S - V) V^-1.
  const [a, b, c, e] = [
    p * d.hh + q * d.hl,
    p * d.hl + q * d.ll,
    q * d.hh + r * d.hl,
    q * d.hl + r * d.ll,
  ];
  return {
    high: p * dh + q * dl,
    low: q * dh + r * dl,
    bend: { hh: a * p + b * q, hl: a * q + b * r, ll: c * q + e * r },
  };
}
