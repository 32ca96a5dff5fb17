import { countCrossings, placesOf, swapCost } from './crossings.js';
import type { Rows } from './rows.js';

const NO_MATES: readonly number[] = [];
const SWEEPS = 24;
const SIFTING_ROUNDS = 6;
/** A vertex is tried this many places to either side: beyond it a row of thousands would cost its width squared. */
const SIFTING_REACH = 150;
/** A place of distance between mates weighs this much against one crossing. */
const MATES_APART = 0.6;
/** A place of distance between neighbours along a passing line or in a sibship, so that equal orders settle compactly. */
const STRAIGHTNESS = 0.02;

/**
 * Orders every row to lessen crossings and bring mates together: sweeps of weighted means of neighbours' places (Sugiyama, Tagawa
 * & Toda 1981, IEEE Trans. SMC 11:109-125; basis: from memory), the best order kept, then sifting, in which each vertex in turn
 * takes the best place of its row (Matuszewski, Schönfeld & Molitor 1999; basis: from memory). Same input, same order.
 *
 * Cost: O(sweeps · edges · log width) and O(rounds · sum of width · reach · degree). Returns the crossings left.
 */
export function orderRows(rows: Rows): number {
  startOrder(rows);
  let best = copyOrder(rows);
  let bestCost = orderCost(rows);
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    sweepRows(rows, sweep % 2 === 0);
    const cost = orderCost(rows);
    if (cost < bestCost) {
      bestCost = cost;
      best = copyOrder(rows);
    }
  }
  best.forEach((row, r) => (rows.order[r] = row));
  siftRows(rows);
  return countCrossings(rows, placesOf(rows));
}

const copyOrder = (rows: Rows): number[][] => rows.order.map((row) => [...row]);

/** A walk through the whole drawing puts what belongs together side by side before the first sweep. */
function startOrder(rows: Rows): void {
  const fresh: number[][] = rows.order.map(() => []);
  const seen = new Uint8Array(rows.vertices.length);
  for (const start of rows.order.flat()) {
    const stack = [start];
    while (stack.length > 0) {
      const v = stack.pop()!;
      if (seen[v] === 1) continue;
      seen[v] = 1;
      fresh[rows.vertices[v]!.row]!.push(v);
      for (const around of [rows.down[v]!, rows.up[v]!]) {
        for (let i = around.length - 1; i >= 0; i--) stack.push(around[i]!);
      }
    }
  }
  fresh.forEach((row, r) => (rows.order[r] = row));
}

function matePorts(rows: Rows): Map<number, number[]> {
  const mates = new Map<number, number[]>();
  const note = (a: number, b: number): void => {
    mates.set(a, [...(mates.get(a) ?? []), b]);
  };
  rows.sirePort.forEach((sire, m) => {
    const dam = rows.damPort[m]!;
    if (sire < 0 || dam < 0) return;
    note(sire, dam);
    note(dam, sire);
  });
  return mates;
}

function orderCost(rows: Rows): number {
  const place = placesOf(rows);
  let apart = 0;
  rows.sirePort.forEach((sire, m) => {
    const dam = rows.damPort[m]!;
    if (sire >= 0 && dam >= 0) apart += Math.abs(place[sire]! - place[dam]!) - 1;
  });
  return countCrossings(rows, place) + MATES_APART * apart;
}

function sweepRows(rows: Rows, downwards: boolean): void {
  const place = placesOf(rows);
  const last = rows.order.length - 1;
  for (let step = 1; step <= last; step++) {
    const r = downwards ? step : last - step;
    const row = rows.order[r]!;
    const nearer = downwards ? rows.up : rows.down;
    const further = downwards ? rows.down : rows.up;
    const key = new Map<number, readonly [number, number]>();
    for (const v of row) {
      const main = meanPlace(nearer[v]!, place);
      const tie = meanPlace(further[v]!, place);
      key.set(v, [main, tie]);
    }
    fillMissing(row, key);
    row.sort((a, b) => {
      const [mainA, tieA] = key.get(a)!;
      const [mainB, tieB] = key.get(b)!;
      return mainA - mainB || tieA - tieB || place[a]! - place[b]!;
    });
    row.forEach((v, i) => (place[v] = i));
  }
}

function meanPlace(ends: readonly number[], place: Int32Array): number {
  if (ends.length === 0) return Number.NaN;
  let sum = 0;
  for (const end of ends) sum += place[end]!;
  return sum / ends.length;
}

/** A vertex with no neighbour on the side looked at stays beside the one on its left. */
function fillMissing(row: readonly number[], key: Map<number, readonly [number, number]>): void {
  let before = -1;
  for (const v of row) {
    const [main, tie] = key.get(v)!;
    if (Number.isNaN(main)) key.set(v, [before, Number.isNaN(tie) ? 0 : tie]);
    else {
      before = main;
      if (Number.isNaN(tie)) key.set(v, [main, 0]);
    }
  }
}

function siftRows(rows: Rows): void {
  const place = placesOf(rows);
  const mates = matePorts(rows);
  for (let round = 0; round < SIFTING_ROUNDS; round++) {
    let moved = false;
    const last = rows.order.length - 1;
    for (let step = 0; step <= last; step++) {
      if (siftRow(rows, round % 2 === 0 ? step : last - step, place, mates)) moved = true;
    }
    if (!moved) return;
  }
}

function siftRow(
  rows: Rows,
  r: number,
  place: Int32Array,
  mates: ReadonlyMap<number, readonly number[]>,
): boolean {
  const row = rows.order[r]!;
  const ends = (v: number, side: readonly (readonly number[])[]): number[] =>
    side[v]!.map((w) => place[w]!).sort((a, b) => a - b);
  const upEnds: number[][] = [];
  const downEnds: number[][] = [];
  for (const v of row) {
    upEnds[v] = ends(v, rows.up);
    downEnds[v] = ends(v, rows.down);
  }
  const cost = (left: number, right: number): number =>
    swapCost(upEnds[left]!, upEnds[right]!) + swapCost(downEnds[left]!, downEnds[right]!);
  const widthAbove = rows.order[r - 1]?.length ?? 1;
  const widthBelow = rows.order[r + 1]?.length ?? 1;
  const pull = (v: number, at: number): number => {
    let sum = 0;
    for (const mate of mates.get(v) ?? NO_MATES) sum += MATES_APART * Math.abs(at - place[mate]!);
    const here = (at + 0.5) / row.length;
    let stretch = 0;
    for (const w of rows.up[v]!) stretch += Math.abs(here - (place[w]! + 0.5) / widthAbove);
    for (const w of rows.down[v]!) stretch += Math.abs(here - (place[w]! + 0.5) / widthBelow);
    sum += STRAIGHTNESS * row.length * stretch;
    return sum;
  };
  let moved = false;
  for (const v of [...row]) if (siftOne(row, v, place, cost, pull)) moved = true;
  return moved;
}

/** Moves one vertex to the best place of its row; true when that is another place. */
function siftOne(
  row: number[],
  v: number,
  place: Int32Array,
  cost: (left: number, right: number) => number,
  pull: (v: number, at: number) => number,
): boolean {
  const from = place[v]!;
  let bestAt = from;
  let bestCost = -1e-9;
  for (const step of [-1, 1]) {
    let sum = 0;
    for (
      let at = from + step;
      at >= 0 && at < row.length && Math.abs(at - from) <= SIFTING_REACH;
      at += step
    ) {
      const other = row[at]!;
      sum += step > 0 ? cost(v, other) : cost(other, v);
      // The one stepped over moves the other way by one place, which its own mates feel.
      sum += pull(other, at - step) - pull(other, at);
      const total = sum + pull(v, at) - pull(v, from);
      if (total < bestCost - 1e-9) {
        bestCost = total;
        bestAt = at;
      }
    }
  }
  if (bestAt === from) return false;
  row.splice(from, 1);
  row.splice(bestAt, 0, v);
  const low = Math.min(from, bestAt);
  const high = Math.max(from, bestAt);
  for (let at = low; at <= high; at++) place[row[at]!] = at;
  return true;
}
