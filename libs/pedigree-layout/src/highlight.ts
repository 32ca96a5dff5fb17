import {
  matingIdOf,
  offspringLinkId,
  parentLinkId,
  type PedigreeScene,
  type SceneLink,
} from './scene.js';

/** One step of a path: from a fish to its parent or its young, along two links. */
export interface HighlightStep {
  /** 1 for the first step of the path. */
  readonly number: number;
  readonly fromId: string;
  readonly toId: string;
  readonly direction: 'up' | 'down';
  /** Ids of the two links, in the direction walked. */
  readonly linkIds: readonly [string, string];
}

/** What to draw strongly for one path of Wright's. */
export interface PathHighlight {
  readonly fishIds: readonly string[];
  readonly steps: readonly HighlightStep[];
  /** All links of the steps, and the pair's own links to `closeAt` that shut the loop. */
  readonly linkIds: readonly string[];
  /** Where the path turns: the common ancestor. */
  readonly ancestorId: string | null;
  /** Fish of the path that are not in the scene, and pairs of neighbours that no link joins. */
  readonly missing: readonly string[];
}

/**
 * The links that one path of inbreeding runs along: sire … common ancestor … dam, and, when the brood of that pair is in the scene
 * (`broodId`), the two links from its parents to their mating and the one to the brood, which close the loop.
 *
 * Nothing throws: fish that the scene does not show are named in `missing`. O(path · log links).
 * @example traceHighlight(scene, ['sire', 'grandsire', 'dam'], 'brood').linkIds
 */
export function traceHighlight(
  scene: PedigreeScene,
  path: readonly string[],
  broodId?: string,
): PathHighlight {
  const links = new Map<string, SceneLink>(scene.links.map((link) => [link.id, link] as const));
  const origin = originOf(scene);
  const shown = new Set(scene.nodes.map((node) => node.id));
  const missing = path.filter((id) => !shown.has(id));
  const steps: HighlightStep[] = [];
  for (let i = 0; i + 1 < path.length; i++) {
    const fromId = path[i]!;
    const toId = path[i + 1]!;
    const step = stepBetween(links, origin, fromId, toId);
    if (step === null) {
      if (shown.has(fromId) && shown.has(toId)) missing.push(`${fromId} - ${toId}`);
    } else steps.push({ number: i + 1, fromId, toId, ...step });
  }
  const closing = closingLinks(links, path, broodId);
  const turn = steps.findIndex((step) => step.direction === 'down');
  const ancestorId = path.length === 0 ? null : turn < 0 ? path.at(-1)! : steps[turn]!.fromId;
  return {
    fishIds: [...path],
    steps,
    linkIds: [...steps.flatMap((step) => step.linkIds), ...closing],
    ancestorId,
    missing,
  };
}

function originOf(scene: PedigreeScene): ReadonlyMap<string, string> {
  const origin = new Map<string, string>();
  for (const mating of scene.matings) {
    for (const id of mating.offspringIds) origin.set(id, mating.id);
  }
  return origin;
}

function stepBetween(
  links: ReadonlyMap<string, SceneLink>,
  origin: ReadonlyMap<string, string>,
  fromId: string,
  toId: string,
): { direction: 'up' | 'down'; linkIds: readonly [string, string] } | null {
  const joined = (parent: string, young: string): readonly [string, string] | null => {
    const mating = origin.get(young);
    if (mating === undefined || !links.has(parentLinkId(mating, parent))) return null;
    return [parentLinkId(mating, parent), offspringLinkId(mating, young)];
  };
  const up = joined(toId, fromId);
  if (up !== null) return { direction: 'up', linkIds: [up[1], up[0]] };
  const down = joined(fromId, toId);
  return down === null ? null : { direction: 'down', linkIds: down };
}

function closingLinks(
  links: ReadonlyMap<string, SceneLink>,
  path: readonly string[],
  broodId: string | undefined,
): string[] {
  const sire = path[0];
  const dam = path.at(-1);
  if (broodId === undefined || sire === undefined || dam === undefined) return [];
  return [matingIdOf(sire, dam), matingIdOf(dam, sire)]
    .flatMap((mating) => [
      parentLinkId(mating, sire),
      parentLinkId(mating, dam),
      offspringLinkId(mating, broodId),
    ])
    .filter((id) => links.has(id));
}
