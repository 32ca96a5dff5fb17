import { coefficient, sexName } from '../figures.js';
import { pairOf, type Cell } from './map-cells.js';
import type { MapFish } from './map-fish.js';

/** Whether fish of unknown origin are behind a coancestry, so that it is a lowest value. */
const atLeast = (a: MapFish, b: MapFish): boolean =>
  a.originKnown === false || b.originKnown === false;

/** The pair of a cell with its coancestry, and what that would be in a brood. */
export function pairWords(
  fish: readonly MapFish[],
  coancestry: ArrayLike<number>,
  cell: Cell,
): string {
  const pair = pairOf(fish, cell);
  if (pair === null) return 'No fish to compare.';
  const { a, b } = pair;
  const value = coancestry[cell.row * fish.length + cell.column] ?? 0;
  if (a.id === b.id) return `${a.tag} with itself: coancestry ${coefficient(value)}`;
  const least = atLeast(a, b) ? ' or more (fish of unknown origin are behind it)' : '';
  return `${a.tag} (${sexName(a.sex)}) and ${b.tag} (${sexName(b.sex)}): coancestry ${coefficient(value)}${least}, the F that their brood would have`;
}

/** Pairs in the table: all, or so many of either end. */
const LISTED_AT_ONCE = 60;
const LISTED_OF_EITHER_END = 30;

export function tableSummary(fish: number): string {
  const pairs = (fish * (fish - 1)) / 2;
  return pairs <= LISTED_AT_ONCE
    ? `All ${pairs} pairs, as a table`
    : `The ${LISTED_OF_EITHER_END} closest and the ${LISTED_OF_EITHER_END} most distant of ${pairs.toLocaleString('en')} pairs, as a table`;
}

/** Pairs with their coancestry, the closest first; where there are many, those of either end. */
export function extremePairs(fish: readonly MapFish[], coancestry: ArrayLike<number>): string[][] {
  const pairs: { readonly a: number; readonly b: number; readonly value: number }[] = [];
  for (let a = 0; a < fish.length; a++) {
    for (let b = 0; b < a; b++) pairs.push({ a, b, value: coancestry[a * fish.length + b] ?? 0 });
  }
  pairs.sort((p, q) => q.value - p.value || p.a - q.a || p.b - q.b);
  const end = LISTED_OF_EITHER_END;
  const shown =
    pairs.length <= LISTED_AT_ONCE ? pairs : [...pairs.slice(0, end), ...pairs.slice(-end)];
  return shown.map((pair) => [
    `${fish[pair.a]!.tag} and ${fish[pair.b]!.tag}`,
    `${atLeast(fish[pair.a]!, fish[pair.b]!) ? '≥ ' : ''}${coefficient(pair.value)}`,
  ]);
}
