import type { RecordChecker } from './record-checker.js';

/** A set that clashes and of which every part is needed, by divide and conquer (QuickXplain, Junker 2004). */
export function irreducible(checker: RecordChecker, all: readonly number[]): number[] {
  const explain = (base: readonly number[], added: boolean, rest: readonly number[]): number[] => {
    if (added && !checker.possible(base)) return [];
    if (rest.length === 1) return [...rest];
    const half = Math.floor(rest.length / 2);
    const first = rest.slice(0, half);
    const second = rest.slice(half);
    const fromSecond = explain([...base, ...first], first.length > 0, second);
    const fromFirst = explain([...base, ...fromSecond], fromSecond.length > 0, first);
    return [...fromFirst, ...fromSecond];
  };
  return explain([], false, all);
}

/** A smallest set of places that shares one with every given set; depth first over the sizes. */
function smallestHitting(sets: readonly (readonly number[])[], upTo: number): number[] | null {
  const search = (chosen: readonly number[], room: number): number[] | null => {
    const open = sets.find((set) => !set.some((place) => chosen.includes(place)));
    if (!open) return [...chosen];
    if (room === 0) return null;
    for (const place of open) {
      const found = search([...chosen, place], room - 1);
      if (found) return found;
    }
    return null;
  };
  for (let size = 0; size <= upTo; size++) {
    const found = search([], size);
    if (found) return found;
  }
  return null;
}

/**
 * A clash of the smallest size: every clash meets every set of records whose removal mends all, so a smallest set that meets
 * those known so far is either a clash, and then a smallest one, or shows a further such set (implicit hitting sets,
 * Ignatiev et al. 2015).
 */
export function smallestClash(
  checker: RecordChecker,
  all: readonly number[],
  start: readonly number[],
): { clash: readonly number[]; smallest: boolean } {
  const corrections: number[][] = [];
  while (!checker.spent) {
    const guess = smallestHitting(corrections, start.length - 1);
    // Nothing smaller than the start meets all of them, so the start is a smallest.
    if (!guess) return { clash: start, smallest: true };
    if (guess.length > 0 && !checker.possible(guess)) return { clash: guess, smallest: true };
    const grown = checker.grow(guess, all);
    if (checker.spent) break;
    const kept = new Set(grown);
    corrections.push(all.filter((place) => !kept.has(place)));
  }
  return { clash: start, smallest: false };
}
