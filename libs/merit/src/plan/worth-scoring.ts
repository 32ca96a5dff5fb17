import { MeritError } from '../merit-error.js';
import type { SolvedModel } from '../values/breeding-values.js';
import { inner, rowOf, type OneScore } from '../values/one-more.js';

/** A look that might be taken, and what it would narrow after those before it in the list. */
export interface WorthScoring {
  readonly fish: number;
  /** Mean error variance of the values that matter, before this look and after it, in the square of the trait's unit. */
  readonly before: number;
  readonly after: number;
}

/** Numbers kept at once: candidates times equations. */
const MOST_NUMBERS = 3e7;

/**
 * Which fish to score next: the looks that narrow the values most, each chosen after those before it, so that two fish that tell the same
 * are not both named. At the variances as they are, which more looks would sharpen as well; exact, and whatever the scores will be.
 *
 * An error variance shrinks by x^2 / (V_E + w'x) with w what the look holds of the equations and x = C^-1 w (Sherman & Morrison 1950).
 * Cost: a solution by the factor a candidate; then candidates times equations a choice.
 * @param candidates looks to choose from, a fish's own at most once; their scores are not asked for.
 * @param matter indices of the fish whose values matter.
 * @throws MeritError MERIT_OUT_OF_RANGE for a model of several traits or a level that is not in it; MERIT_TOO_LARGE.
 */
export function worthScoring(
  solved: SolvedModel,
  candidates: readonly Omit<OneScore, 'value'>[],
  count: number,
  matter: ArrayLike<number>,
): WorthScoring[] {
  const { equations, fit, scale, errorVariances } = solved;
  expectAffordable(solved, candidates.length);
  const of = Int32Array.from(matter, (fish) => equations.termEquation[0]![fish]!);
  const residual = fit.variances.residual[0]![0]!;
  const open = candidates.map((candidate) => {
    const { w, extra } = rowOf(solved, { ...candidate, value: 0 });
    return { fish: candidate.fish, w, x: fit.factor.solve(w), noise: residual + extra / scale };
  });
  let before = 0;
  for (const k of of) before += errorVariances[k]! / of.length;
  const chosen: WorthScoring[] = [];
  while (chosen.length < count && open.length > 0) {
    let best = 0;
    let gained = -1;
    open.forEach(({ w, x, noise }, k) => {
      let squares = 0;
      for (const e of of) squares += x[e]! ** 2;
      const gain = (scale * squares) / (noise + inner(w, x)) / of.length;
      if (gain > gained) [best, gained] = [k, gain];
    });
    const [taken] = open.splice(best, 1);
    const after = before - gained;
    chosen.push({ fish: taken!.fish, before, after });
    before = after;
    const spread = taken!.noise + inner(taken!.w, taken!.x);
    for (const { w, x } of open) {
      const share = inner(taken!.x, w) / spread;
      for (let e = 0; e < x.length; e++) x[e]! -= share * taken!.x[e]!;
    }
  }
  return chosen;
}

function expectAffordable({ equations }: SolvedModel, candidates: number): void {
  if (equations.model.traits.length !== 1)
    throw new MeritError('MERIT_OUT_OF_RANGE', 'Looks are chosen for one trait at a time.');
  const most = Math.floor(MOST_NUMBERS / equations.size);
  if (candidates <= most) return;
  throw new MeritError(
    'MERIT_TOO_LARGE',
    `${candidates} looks to choose from are too many for ${equations.size} equations: name at most ${most}.`,
    { candidates, most },
  );
}
