import type { PedigreeScene, SceneMating, SceneNode } from './scene.js';

/** The near kin of a node among the nodes drawn, each list in drawing order. */
export interface NodeKin {
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly offspringIds: readonly string[];
  readonly mateIds: readonly string[];
  readonly sibIds: readonly string[];
}

/** Where to go from a node: to a parent, its young, a mate, or its neighbour in the row. */
export type Move =
  | 'sire'
  | 'dam'
  | 'parent'
  | 'young'
  | 'mate'
  | 'before'
  | 'after'
  | 'first'
  | 'last';

export interface Navigator {
  kinOf(id: string): NodeKin;
  /** The node that a move leads to; `null` when there is none. */
  go(id: string, move: Move): string | null;
}

/**
 * Steps from node to node for keyboards and screen readers. Building costs O(nodes + links); a step O(kin).
 * `mate` and `young` lead to the nearest in the drawing.
 */
export function navigate(scene: PedigreeScene): Navigator {
  const node = new Map(scene.nodes.map((one) => [one.id, one] as const));
  const rank = new Map(scene.nodes.map((one, i) => [one.id, i] as const));
  const inOrder = (ids: Iterable<string>): string[] =>
    [...new Set(ids)].sort((a, b) => rank.get(a)! - rank.get(b)!);
  const originOf = new Map(
    scene.matings.flatMap((mating) => mating.offspringIds.map((id) => [id, mating] as const)),
  );
  const matingsOf = new Map<string, SceneMating[]>();
  for (const mating of scene.matings) {
    for (const id of [mating.sireId, mating.damId]) {
      if (id !== null) matingsOf.set(id, [...(matingsOf.get(id) ?? []), mating]);
    }
  }

  const kinOf = (id: string): NodeKin => {
    const origin = originOf.get(id);
    const matings = matingsOf.get(id) ?? [];
    const mates = matings.map((mating) => (mating.sireId === id ? mating.damId : mating.sireId));
    return {
      sireId: origin?.sireId ?? null,
      damId: origin?.damId ?? null,
      offspringIds: inOrder(matings.flatMap((mating) => mating.offspringIds)),
      mateIds: inOrder(mates.filter((mate) => mate !== null)),
      sibIds: inOrder((origin?.offspringIds ?? []).filter((sib) => sib !== id)),
    };
  };

  const nearest = (id: string, ids: readonly string[]): string | null => {
    const from = node.get(id)!;
    const distance = (other: string): number =>
      Math.hypot(node.get(other)!.x - from.x, node.get(other)!.y - from.y);
    return ids.reduce<string | null>(
      (best, other) => (best === null || distance(other) < distance(best) ? other : best),
      null,
    );
  };

  const go = (id: string, move: Move): string | null => {
    const from = node.get(id);
    if (from === undefined) return null;
    const ways = waysFrom(from, kinOf(id), scene.layers[from.layer]!.nodeIds)[move];
    return nearest(id, ways);
  };
  return { kinOf, go };
}

/** Nodes that each move may lead to, of which it leads to the nearest. */
function waysFrom(
  { order }: SceneNode,
  { sireId, damId, offspringIds, mateIds }: NodeKin,
  row: readonly string[],
): Readonly<Record<Move, readonly string[]>> {
  const known = (...ids: readonly (string | null | undefined)[]): string[] =>
    ids.filter((id) => id !== null && id !== undefined);
  return {
    sire: known(sireId),
    dam: known(damId),
    parent: known(sireId, damId),
    young: offspringIds,
    mate: mateIds,
    before: known(row[order - 1]),
    after: known(row[order + 1]),
    first: known(row[0]),
    last: known(row.at(-1)),
  };
}
