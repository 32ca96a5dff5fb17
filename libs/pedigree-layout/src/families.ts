import type { SliceFish } from './slice.js';
import { matingIdOf } from './scene.js';
import { reach, shareAncestor, type Kindred } from './kindred.js';

/** A box of the drawing before it has a place: one fish, or sibs folded into one. `members` are indices in the kindred. */
export interface FamilyNode {
  readonly id: string;
  readonly members: readonly number[];
  readonly folded: boolean;
  /** Index of its parents' mating, -1 for a founder. */
  readonly origin: number;
}

export interface FamilyMating {
  readonly id: string;
  /** Node index, -1 unknown or not shown. */
  readonly sire: number;
  readonly dam: number;
  readonly offspring: readonly number[];
  readonly related: boolean;
  readonly planned: boolean;
}

export interface Families {
  readonly nodes: readonly FamilyNode[];
  readonly matings: readonly FamilyMating[];
  /** Matings of each node as a parent. */
  readonly matingsOf: readonly (readonly number[])[];
}

export interface FamilyOptions {
  readonly focusId: string;
  readonly scope: 'relatives' | 'all';
  readonly maxAncestorGenerations: number;
  readonly maxDescendantGenerations: number;
  readonly foldSpawnsAbove: number;
  readonly expandedFolds: ReadonlySet<string>;
  readonly keepIds: ReadonlySet<string>;
}

/** Which fish are drawn: the focus, its ancestors and descendants, and the ancestors of a planned brood. */
export function chooseShown(kindred: Kindred, options: FamilyOptions): Set<number> {
  if (options.scope === 'all') return new Set(kindred.fish.keys());
  const focus = kindred.indexOf.get(options.focusId)!;
  const shown = new Set([focus]);
  const add = (more: Iterable<number>): void => {
    for (const i of more) shown.add(i);
  };
  add(reach(kindred, focus, 'up', options.maxAncestorGenerations));
  add(reach(kindred, focus, 'down', options.maxDescendantGenerations));
  // A descendant's other parent closes its family; without it a pair would look like a single parent.
  for (const i of reach(kindred, focus, 'down', options.maxDescendantGenerations)) {
    add([kindred.sire[i]!, kindred.dam[i]!].filter((parent) => parent >= 0));
  }
  kindred.fish.forEach((fish, i) => {
    if (fish.planned !== true) return;
    shown.add(i);
    add(reach(kindred, i, 'up', options.maxAncestorGenerations));
  });
  for (const id of options.keepIds) {
    const kept = kindred.indexOf.get(id);
    if (kept !== undefined) shown.add(kept);
  }
  return shown;
}

interface Draft {
  readonly sire: number;
  readonly dam: number;
  readonly young: number[];
}

/** Groups the shown fish into nodes and matings and folds big sibships. O(n) plus a search of ancestors a mating. */
export function formFamilies(
  kindred: Kindred,
  shown: ReadonlySet<number>,
  options: FamilyOptions,
): Families {
  const drafts = draftMatings(kindred, shown);
  const isParent = new Set<number>();
  for (const draft of drafts.values()) {
    isParent.add(draft.sire);
    isParent.add(draft.dam);
  }
  const nodes: FamilyNode[] = [];
  const nodeOf = new Map<number, number>();
  const place = (id: string, members: readonly number[], folded: boolean, origin: number): void => {
    for (const member of members) nodeOf.set(member, nodes.length);
    nodes.push({ id, members, folded, origin });
  };
  const originOf = new Map<number, number>();
  [...drafts.values()].forEach((draft, m) => draft.young.forEach((i) => originOf.set(i, m)));
  const folds = chooseFolds(kindred, drafts, isParent, options);
  const inFold = new Set([...folds.values()].flat());
  for (let i = 0; i < kindred.fish.length; i++) {
    if (!shown.has(i) || inFold.has(i)) continue;
    place(kindred.fish[i]!.id, [i], false, originOf.get(i) ?? -1);
  }
  for (const [id, members] of folds) place(id, members, true, originOf.get(members[0]!) ?? -1);
  return assemble(kindred, nodes, nodeOf, drafts);
}

function draftMatings(kindred: Kindred, shown: ReadonlySet<number>): Map<string, Draft> {
  const drafts = new Map<string, Draft>();
  for (let i = 0; i < kindred.fish.length; i++) {
    if (!shown.has(i)) continue;
    const sire = shown.has(kindred.sire[i]!) ? kindred.sire[i]! : -1;
    const dam = shown.has(kindred.dam[i]!) ? kindred.dam[i]! : -1;
    if (sire < 0 && dam < 0) continue;
    const id = matingIdOf(kindred.fish[sire]?.id ?? null, kindred.fish[dam]?.id ?? null);
    const draft = drafts.get(id);
    if (draft === undefined) drafts.set(id, { sire, dam, young: [i] });
    else draft.young.push(i);
  }
  return drafts;
}

function chooseFolds(
  kindred: Kindred,
  drafts: ReadonlyMap<string, Draft>,
  isParent: ReadonlySet<number>,
  options: FamilyOptions,
): Map<string, number[]> {
  const folds = new Map<string, number[]>();
  const foldable = (fish: SliceFish, i: number): boolean =>
    !isParent.has(i) &&
    fish.planned !== true &&
    fish.id !== options.focusId &&
    !options.keepIds.has(fish.id);
  for (const [matingId, draft] of drafts) {
    const bySpawn = new Map<string, number[]>();
    for (const i of draft.young) {
      const fish = kindred.fish[i]!;
      if (!foldable(fish, i)) continue;
      const id = `fold:${matingId}:${fish.spawnId ?? ''}`;
      bySpawn.set(id, [...(bySpawn.get(id) ?? []), i]);
    }
    for (const [id, members] of bySpawn) {
      if (members.length > Math.max(1, options.foldSpawnsAbove) && !options.expandedFolds.has(id))
        folds.set(id, members);
    }
  }
  return folds;
}

function assemble(
  kindred: Kindred,
  nodes: readonly FamilyNode[],
  nodeOf: ReadonlyMap<number, number>,
  drafts: ReadonlyMap<string, Draft>,
): Families {
  const matingsOf: number[][] = nodes.map(() => []);
  const matings = [...drafts].map(([id, draft], m): FamilyMating => {
    const sire = nodeOf.get(draft.sire) ?? -1;
    const dam = nodeOf.get(draft.dam) ?? -1;
    if (sire >= 0) matingsOf[sire]!.push(m);
    if (dam >= 0) matingsOf[dam]!.push(m);
    const young = draft.young.map((i) => kindred.fish[i]!);
    const stated = young.find((fish) => fish.parentsRelated !== undefined)?.parentsRelated;
    return {
      id,
      sire,
      dam,
      offspring: [...new Set(draft.young.map((i) => nodeOf.get(i)!))].sort((a, b) => a - b),
      related:
        draft.sire >= 0 &&
        draft.dam >= 0 &&
        (stated ?? shareAncestor(kindred, draft.sire, draft.dam)),
      planned: young.every((fish) => fish.planned === true),
    };
  });
  return { nodes, matings, matingsOf };
}
