import type { MapFish } from './map-fish.js';
import type { MapMeasures } from './relationship-map-paint.js';

export interface Cell {
  readonly row: number;
  readonly column: number;
}

const steps: Readonly<Record<string, readonly [rows: number, columns: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
  PageUp: [-10, 0],
  PageDown: [10, 0],
};

/** Where a key leads from a cell of so many fish by as many: never past an edge; `null` for a key that leads nowhere. */
export function cellAfterKey(key: string, { row, column }: Cell, fishCount: number): Cell | null {
  const last = fishCount - 1;
  if (key === 'Home') return { row, column: 0 };
  if (key === 'End') return { row, column: last };
  const step = steps[key];
  if (step === undefined) return null;
  const within = (place: number): number => Math.min(last, Math.max(0, place));
  return { row: within(row + step[0]), column: within(column + step[1]) };
}

/** The two fish of a cell; `null` on a map without them. */
export function pairOf(
  fish: readonly MapFish[],
  { row, column }: Cell,
): { a: MapFish; b: MapFish } | null {
  const [a, b] = [fish[row], fish[column]];
  return a === undefined || b === undefined ? null : { a, b };
}

/** Scrolls a cell into view, with three cells around it. */
export function reveal(box: HTMLElement, measures: MapMeasures, cell: Cell): void {
  const x = measures.left + cell.column * measures.cell;
  const y = measures.top + cell.row * measures.cell;
  const margin = 3 * measures.cell;
  if (x < box.scrollLeft + margin) box.scrollLeft = x - margin;
  if (x > box.scrollLeft + box.clientWidth - margin) box.scrollLeft = x - box.clientWidth + margin;
  if (y < box.scrollTop + margin) box.scrollTop = y - margin;
  if (y > box.scrollTop + box.clientHeight - margin) box.scrollTop = y - box.clientHeight + margin;
}
