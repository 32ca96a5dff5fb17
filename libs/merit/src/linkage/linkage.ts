import { MeritError } from '../merit-error.js';
import { crossing } from '../numeric/maximise.js';

/** Young of one pair that tell of recombination between two loci. */
export type LinkageBrood = {
  /** Whose gametes are counted, where only one parent is heterozygous at both loci. */
  readonly parent?: 'sire' | 'dam';
} & (
  | {
      /** One parent heterozygous at both loci, the other homozygous recessive at both. */
      readonly kind: 'testcross';
      /** Young of the two classes that would be recombinants; of either pair of classes when the phase is unknown. */
      readonly recombinant: number;
      readonly total: number;
      readonly phase: 'known' | 'unknown';
    }
  | {
      /** Both parents heterozygous at both loci, dominance at both: young A_B_, A_bb, aaB_, aabb. */
      readonly kind: 'intercross';
      readonly counts: readonly [number, number, number, number];
      readonly phase: 'coupling' | 'repulsion' | 'unknown';
    }
);

/** What broods say of the recombination between two loci. */
export interface Linkage {
  /** Most likely share of recombinants, 0 to 0.5. */
  readonly recombination: number;
  /** From the expected information, or from the curvature where a phase is unknown; null at the ends of the range. */
  readonly standardError: number | null;
  /** log10 of the likelihood there over that of free recombination. */
  readonly lod: number;
  /** Where the lod lies within `drop` of its top. */
  readonly support: { readonly low: number; readonly high: number };
}

/**
 * lod score of a share of recombinants: log10 L(theta) - log10 L(1/2), summed over broods. With unknown phase the mean over phases.
 *
 * Source: Morton NE (1955) Am J Hum Genet 7:277-318.
 * @throws MeritError MERIT_OUT_OF_RANGE.
 */
export function lodScore(broods: readonly LinkageBrood[], theta: number): number {
  if (!(theta >= 0 && theta <= 0.5))
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `A share of recombinants of ${theta} is not between 0 and 0.5.`,
      { theta },
    );
  return broods.reduce(
    (sum, brood) => sum + logLikelihood(brood, theta) - logLikelihood(brood, 0.5),
    0,
  );
}

/**
 * The most likely recombination between two loci with its support interval (Conneally PM et al. 1985, Cytogenet Cell Genet 40:356-359: one
 * lod unit).
 *
 * A lod of 3 is Morton's line for linkage, -2 against it; both are conventions.
 * @throws MeritError MERIT_TOO_FEW, MERIT_OUT_OF_RANGE. Cost: some thousand likelihoods.
 */
export function linkage(broods: readonly LinkageBrood[], drop = 1): Linkage {
  broods.forEach(expectCounts);
  if (broods.length === 0)
    throw new MeritError(
      'MERIT_TOO_FEW',
      'No brood shows how these two loci go together: count young of a parent that carries both.',
    );
  const lod = (theta: number): number => lodScore(broods, theta);
  const recombination = top(lod);
  const highest = lod(recombination);
  const above = (theta: number): number => {
    const value = lod(theta) - (highest - drop);
    return Number.isNaN(value) ? -Infinity : value;
  };
  const low = above(0) >= 0 ? 0 : crossing(above, 0, recombination);
  const high = above(0.5) >= 0 ? 0.5 : crossing(above, recombination, 0.5);
  return {
    recombination,
    standardError: errorAt(broods, lod, recombination),
    lod: highest,
    support: { low, high },
  };
}

/** The same for the gametes of sires and of dams apart; null for a sex without broods. */
export function linkageBySex(
  broods: readonly LinkageBrood[],
  drop = 1,
): { readonly sire: Linkage | null; readonly dam: Linkage | null } {
  const of = (sex: 'sire' | 'dam'): Linkage | null => {
    const own = broods.filter(({ parent }) => parent === sex);
    return own.length === 0 ? null : linkage(own, drop);
  };
  return { sire: of('sire'), dam: of('dam') };
}

/**
 * Recombination of an intercross by the product ratio (Fisher & Balmukand 1928): (2 + P) P / (1 - P)^2 = ad / bc, with P the product of the
 * non-recombinant shares in coupling, of the recombinant ones in repulsion. Quick, and hardly worse than likelihood when classes are
 * wrong; for comparison.
 */
export function productRatio(
  [a, b, c, d]: readonly [number, number, number, number],
  phase: 'coupling' | 'repulsion',
): number {
  const ratio = (a * d) / (b * c);
  if (!(ratio >= 0 && Number.isFinite(ratio)))
    throw new MeritError('MERIT_TOO_FEW', 'The product ratio needs young in both middle classes.');
  const p = crossing((x) => (2 + x) * x - ratio * (1 - x) ** 2, 0, 1);
  const root = Math.sqrt(p);
  return phase === 'coupling' ? 1 - root : root;
}

function logLikelihood(brood: LinkageBrood, theta: number): number {
  if (brood.kind === 'testcross') {
    const { recombinant, total, phase } = brood;
    const one = logPower(theta, recombinant) + logPower(1 - theta, total - recombinant);
    if (phase === 'known') return one;
    const other = logPower(theta, total - recombinant) + logPower(1 - theta, recombinant);
    return logMean([
      [0.5, one],
      [0.5, other],
    ]);
  }
  const [stay, move] = [1 - theta, theta];
  const of = (p: number): number => logOfIntercross(brood.counts, p);
  if (brood.phase === 'coupling') return of(stay * stay);
  if (brood.phase === 'repulsion') return of(move * move);
  return logMean([
    [0.25, of(stay * stay)],
    [0.5, of(stay * move)],
    [0.25, of(move * move)],
  ]);
}

/** Young A_B_ 2 + P, A_bb and aaB_ 1 - P each, aabb P, out of 4. */
const logOfIntercross = ([a, b, c, d]: readonly [number, number, number, number], p: number) =>
  logPower((2 + p) / 4, a) + logPower((1 - p) / 4, b + c) + logPower(p / 4, d);

const logPower = (base: number, times: number): number =>
  times === 0 ? 0 : times * Math.log10(base);

function logMean(parts: readonly (readonly [weight: number, log: number])[]): number {
  const most = Math.max(...parts.map(([, log]) => log));
  if (most === -Infinity) return -Infinity;
  return most + Math.log10(parts.reduce((sum, [w, log]) => sum + w * 10 ** (log - most), 0));
}

/** The highest point between 0 and 0.5: a fine grid, then golden sections. */
function top(f: (x: number) => number): number {
  const steps = 500;
  let best = 0;
  for (let k = 1; k <= steps; k++) if (f((0.5 * k) / steps) > f((0.5 * best) / steps)) best = k;
  let low = (0.5 * Math.max(0, best - 1)) / steps;
  let high = (0.5 * Math.min(steps, best + 1)) / steps;
  const golden = (Math.sqrt(5) - 1) / 2;
  for (let k = 0; k < 100 && high - low > 1e-12; k++) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    if (f(a) >= f(b)) high = b;
    else low = a;
  }
  const found = (low + high) / 2;
  return [0, 0.5].find((end) => f(end) >= f(found)) ?? found;
}

function errorAt(
  broods: readonly LinkageBrood[],
  lod: (theta: number) => number,
  at: number,
): number | null {
  const h = 1e-4;
  if (at < h || at > 0.5 - h) return null;
  const expected = broods.map((brood) => expectedInformation(brood, at));
  const information = expected.some(Number.isNaN)
    ? -((lod(at + h) - 2 * lod(at) + lod(at - h)) / h ** 2) * Math.LN10
    : expected.reduce((sum, value) => sum + value, 0);
  return information > 0 ? 1 / Math.sqrt(information) : null;
}

/** NaN where the phase is unknown. Source: Mather (1938), chapter on information. */
function expectedInformation(brood: LinkageBrood, theta: number): number {
  if (brood.phase === 'unknown') return NaN;
  if (brood.kind === 'testcross') return brood.total / (theta * (1 - theta));
  const root = brood.phase === 'coupling' ? 1 - theta : theta;
  const p = root * root;
  const young = brood.counts.reduce((sum, count) => sum + count, 0);
  return (4 * p * young * (1 + 2 * p)) / (2 * p * (1 - p) * (2 + p));
}

function expectCounts(brood: LinkageBrood): void {
  const counts =
    brood.kind === 'testcross'
      ? [brood.recombinant, brood.total - brood.recombinant]
      : [...brood.counts];
  if (counts.every((count) => Number.isInteger(count) && count >= 0)) return;
  throw new MeritError(
    'MERIT_OUT_OF_RANGE',
    `Counts of a brood must be whole numbers: ${counts.join(', ')}.`,
    { counts },
  );
}
