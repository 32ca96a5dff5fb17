import { seededChance } from '@linewright/pedigree';
import type { PedigreeFish } from '../index.js';

export interface InventedFish extends PedigreeFish {
  readonly generation: number;
}

/** Coancestry of all fish by the tabular method; parents stand before their young. */
export function coancestryOf(fish: readonly PedigreeFish[]): Float64Array {
  const n = fish.length;
  const index = new Map(fish.map((one, i) => [one.id, i] as const));
  const kin = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    const sire = index.get(fish[i]!.sireId ?? '') ?? -1;
    const dam = index.get(fish[i]!.damId ?? '') ?? -1;
    for (let j = 0; j < i; j++) {
      const value = (sire < 0 ? 0 : kin[sire * n + j]!) / 2 + (dam < 0 ? 0 : kin[dam * n + j]!) / 2;
      kin[i * n + j] = value;
      kin[j * n + i] = value;
    }
    kin[i * n + i] = 0.5 * (1 + (sire < 0 || dam < 0 ? 0 : kin[sire * n + dam]!));
  }
  return kin;
}

/** A line: `pairs` spawns a generation from sibs, cousins and back to older males, with a late outcross. */
export function inventedLine(
  seed: number,
  generations: number,
  pairs: number,
  young: number,
): InventedFish[] {
  const random = seededChance(seed);
  const drafts: InventedFish[] = [];
  const rows: InventedFish[][] = [];
  const add = (
    generation: number,
    spawn: string | null,
    sire: string | null,
    dam: string | null,
  ) => {
    const row = (rows[generation] ??= []);
    const number = String(row.length + 1).padStart(2, '0');
    const one: InventedFish = {
      id: `g${generation}-${number}`,
      tag: spawn === null ? `F${generation}-${number}` : `RB${generation}-${spawn}-${number}`,
      sex: row.length % 5 === 4 ? 'unknown' : row.length % 2 === 0 ? 'male' : 'female',
      sireId: sire,
      damId: dam,
      spawnId: spawn === null ? null : `${generation}-${spawn}`,
      generation,
      dead: generation < generations - 2 && random() < 0.3,
    };
    row.push(one);
    drafts.push(one);
    return one;
  };
  for (let i = 0; i < Math.max(4, pairs); i++) add(0, null, null, null);
  const pick = (row: readonly InventedFish[], sex: string): InventedFish => {
    const some = row.filter((one) => one.sex === sex);
    return some[Math.floor(random() * some.length)]!;
  };
  for (let g = 1; g < generations; g++) {
    for (let p = 0; p < pairs; p++) {
      const back = g > 2 && random() < 0.22 ? g - 2 : g - 1;
      const outcross = g === generations - 2 && p === 0;
      const sire = outcross ? add(g - 1, null, null, null) : pick(rows[back]!, 'male');
      const dam = pick(rows[g - 1]!, 'female');
      const size = Math.max(1, Math.round(young * (0.5 + random())));
      const spawn = String.fromCharCode(65 + p);
      for (let y = 0; y < size; y++) add(g, spawn, sire.id, dam.id);
    }
  }
  return withInbreeding(drafts);
}

function withInbreeding(fish: readonly InventedFish[]): InventedFish[] {
  const ordered = [...fish].sort((a, b) => a.generation - b.generation);
  const kin = coancestryOf(ordered);
  return ordered.map((one, i) => ({
    ...one,
    inbreeding: Math.max(0, 2 * kin[i * ordered.length + i]! - 1),
  }));
}

/** One path of inbreeding of a fish: sire up to the first common ancestor met, down to the dam. */
export function somePaths(fish: readonly PedigreeFish[], id: string, count: number): string[][] {
  const byId = new Map(fish.map((one) => [one.id, one] as const));
  const climbs = (start: string): string[][] => {
    const all: string[][] = [];
    const queue: string[][] = [[start]];
    while (queue.length > 0 && all.length < 4000) {
      const path = queue.shift()!;
      all.push(path);
      const top = byId.get(path.at(-1)!)!;
      for (const parent of [top.sireId, top.damId]) {
        if (parent !== null && byId.has(parent)) queue.push([...path, parent]);
      }
    }
    return all;
  };
  const young = byId.get(id)!;
  if (young.sireId === null || young.damId === null) return [];
  const fromDam = climbs(young.damId);
  const found: string[][] = [];
  for (const up of climbs(young.sireId)) {
    for (const down of fromDam) {
      if (up.at(-1) !== down.at(-1)) continue;
      if (up.slice(0, -1).some((one) => down.includes(one))) continue;
      found.push([...up, ...down.slice(0, -1).reverse()]);
    }
  }
  return found.sort((a, b) => a.length - b.length).slice(0, count);
}
