import { MatingError } from '../mating-error.js';

/** Candidates for the pairs of one round, what each pair is worth, how they are related, and what is allowed. */
export interface PairProblem {
  /** Names of the males and of the females, for messages. */
  readonly males: readonly string[];
  readonly females: readonly string[];
  /** Worth of each pair in any unit, males x females, row by row; NaN: the pair cannot be made. */
  readonly worth: Float64Array;
  /** Coancestries of all candidates, males first, then females; of a fish with itself (1 + F) / 2. */
  readonly coancestry: Float64Array;
  /** Broods to make, each in a vessel of its own, beside those that stand. */
  readonly broods: number;
  /** Most broods of one fish, those that stand among them. */
  readonly mostPerFish: number;
  /** Pairs that were decided before: [place of the male, place of the female]. They count for coancestry and for how often a fish is used. */
  readonly standing?: readonly (readonly [number, number])[];
  /** Highest F of a brood; 1 unless given. */
  readonly ceiling?: number;
}

/** What a keeper insists on. Fish are told by their place, males first, then females; pairs by place of male and of female in their lists. */
export interface PairWishes {
  readonly mustFish?: readonly number[];
  readonly mustNotFish?: readonly number[];
  readonly mustPairs?: readonly (readonly [number, number])[];
  readonly mustNotPairs?: readonly (readonly [number, number])[];
}

/** Cells of the matrix of worth that may be chosen. */
export interface Cells {
  readonly male: Int32Array;
  /** Place among all candidates, behind the males. */
  readonly female: Int32Array;
  readonly worth: Float64Array;
}

/**
 * Pairs that may be made, those with a worth and an F within the ceiling; and those that stand, worth 0.
 *
 * @throws MatingError MATING_BAD_SETTING for sizes and figures that do not fit, MATING_TOO_FEW_FISH without males or without females.
 */
export function allowedCells(problem: PairProblem): Cells {
  checkProblem(problem);
  const { males, females, worth, coancestry, ceiling = 1, standing = [] } = problem;
  const size = males.length + females.length;
  const stands = new Set(standing.map(([m, f]) => m * females.length + f));
  const found: number[] = [];
  worth.forEach((each, cell) => {
    const m = Math.floor(cell / females.length);
    const f = males.length + (cell % females.length);
    const may = !Number.isNaN(each) && coancestry[m * size + f]! <= ceiling;
    if (may || stands.has(cell)) found.push(cell);
  });
  return {
    male: Int32Array.from(found, (cell) => Math.floor(cell / females.length)),
    female: Int32Array.from(found, (cell) => males.length + (cell % females.length)),
    worth: Float64Array.from(found, (cell) => (stands.has(cell) ? 0 : worth[cell]!)),
  };
}

function checkProblem(problem: PairProblem): void {
  const { males, females, worth, coancestry, broods, mostPerFish, ceiling = 1 } = problem;
  for (const [group, ids] of Object.entries({ males, females }))
    if (ids.length === 0)
      throw new MatingError('MATING_TOO_FEW_FISH', group, `There are no ${group}: add one.`);
  const size = males.length + females.length;
  if (worth.length !== males.length * females.length)
    throw bad('worth', worth.length, `${males.length * females.length} figures`);
  if (coancestry.length !== size ** 2)
    throw bad('coancestry', coancestry.length, `${size ** 2} figures`);
  const odd = coancestry.find((each) => !Number.isFinite(each));
  if (odd !== undefined) throw bad('coancestry', odd, 'numbers');
  if (worth.some((each) => Math.abs(each) === Infinity)) throw bad('worth', Infinity, 'numbers');
  for (const [name, value] of Object.entries({ broods, mostPerFish }))
    if (!Number.isInteger(value) || value < 1) throw bad(name, value, 'a whole number from 1 up');
  if (!(ceiling >= 0 && ceiling <= 1)) throw bad('ceiling', ceiling, 'from 0 to 1');
}

/** @throws MatingError MATING_BAD_SETTING for a place where no candidate is. */
export function checkPlaces(problem: PairProblem, wishes: PairWishes): void {
  const { males, females, standing = [] } = problem;
  const size = males.length + females.length;
  const inside = (value: number, end: number): boolean =>
    Number.isInteger(value) && value >= 0 && value < end;
  for (const fish of [...(wishes.mustFish ?? []), ...(wishes.mustNotFish ?? [])])
    if (!inside(fish, size)) throw bad('fish', fish, `a place from 0 to ${size - 1}`);
  const { mustPairs = [], mustNotPairs = [] } = wishes;
  for (const [m, f] of [...standing, ...mustPairs, ...mustNotPairs])
    if (!inside(m, males.length) || !inside(f, females.length))
      throw bad('pair', `${m}, ${f}`, 'the place of a male and that of a female');
}

const bad = (name: string, value: number | string, wanted: string): MatingError =>
  new MatingError('MATING_BAD_SETTING', name, `${name}: ${value} given; it must be ${wanted}.`);
