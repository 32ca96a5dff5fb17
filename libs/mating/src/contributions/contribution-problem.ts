import { MatingError } from '../mating-error.js';

/** Candidates, what they are worth, how they are related, and how much each may give to the next generation. */
export interface ContributionProblem {
  /** Names of the candidates, for messages. */
  readonly ids: readonly string[];
  /** Worth of each, such as a breeding value, in any unit. */
  readonly value: Float64Array;
  /** Coancestries, candidates x candidates, row by row; of a fish with itself (1 + F) / 2. */
  readonly coancestry: Float64Array;
  /** Which group each candidate is of, 0 and up: males and females. */
  readonly group: Int32Array;
  /** What each group gives in all: one half and one half. */
  readonly totals: readonly number[];
  /** The least that each must give; 0 unless given. */
  readonly least?: Float64Array;
  /** The most that each may give; all that its group gives unless given. */
  readonly most?: Float64Array;
}

/** The same with all bounds filled in. */
export interface BoundedProblem extends ContributionProblem {
  readonly least: Float64Array;
  readonly most: Float64Array;
}

/** Bounds and totals nearer than this are taken as the same. */
const SAME = 1e-12;

/**
 * Checks a problem and fills in its bounds.
 *
 * @throws MatingError MATING_BAD_CONTRIBUTION (a bound, value, coancestry or total that cannot be), MATING_TOO_FEW_FISH (a group that
 *   gives something and has no fish).
 */
export function boundedProblem(problem: ContributionProblem): BoundedProblem {
  const { ids, value, coancestry, group, totals } = problem;
  const size = ids.length;
  const least = problem.least ?? new Float64Array(size);
  const most = problem.most ?? Float64Array.from(group, (of) => totals[of]!);
  expectLengths({ value, group, least, most }, size);
  if (coancestry.length !== size ** 2)
    throw bad('coancestry', `${coancestry.length} coancestries for ${size} candidates`);
  const firstBad = (list: Float64Array): number => list.findIndex((each) => !Number.isFinite(each));
  for (const [name, list] of Object.entries({ value, least, most })) {
    const at = firstBad(list);
    if (at >= 0) throw bad(ids[at]!, `The ${name} of "${ids[at]!}" is not a number`);
  }
  const odd = firstBad(coancestry);
  if (odd >= 0)
    throw bad(
      ids[Math.floor(odd / size)]!,
      `A coancestry of "${ids[Math.floor(odd / size)]!}" is not a number`,
    );
  const crossed = least.findIndex((low, k) => low < 0 || low > most[k]! + SAME);
  if (crossed >= 0)
    throw bad(
      ids[crossed]!,
      `"${ids[crossed]!}" may give ${most[crossed]!} at most and must give ${least[crossed]!}: give bounds from 0 up, the first no larger`,
    );
  totals.forEach((total, of) => expectReachable({ ...problem, least, most }, total, of));
  return { ...problem, least, most };
}

function expectLengths(lists: Record<string, ArrayLike<number>>, size: number): void {
  for (const [name, { length }] of Object.entries(lists))
    if (length !== size) throw bad(name, `${length} entries of ${name} for ${size} candidates`);
}

function expectReachable({ group, least, most }: BoundedProblem, total: number, of: number): void {
  let [count, low, high] = [0, 0, 0];
  group.forEach((own, k) => {
    if (own !== of) return;
    count++;
    low += least[k]!;
    high += most[k]!;
  });
  if (count === 0 && total > 0)
    throw new MatingError(
      'MATING_TOO_FEW_FISH',
      String(of),
      `Group ${of + 1} has to give ${total} and has no candidate: add one.`,
    );
  if (low > total + SAME || high < total - SAME)
    throw bad(
      String(of),
      `The candidates of group ${of + 1} can give ${low} to ${high} together, and have to give ${total}: change what each must or may give`,
    );
}

const bad = (subject: string, message: string): MatingError =>
  new MatingError('MATING_BAD_CONTRIBUTION', subject, `${message}.`);
