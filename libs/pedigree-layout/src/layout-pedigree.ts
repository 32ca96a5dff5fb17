import { placeAcross, type Spacing } from './coordinates.js';
import {
  chooseShown,
  formFamilies,
  type Families,
  type FamilyNode,
  type FamilyOptions,
} from './families.js';
import { indexKindred, type Kindred } from './kindred.js';
import { assignLayers } from './layers.js';
import { LayoutError } from './layout-error.js';
import { orderRows } from './ordering.js';
import { routeLines, type Routes, type RouteSpacing, type Spot } from './routing.js';
import { buildRows, type Rows } from './rows.js';
import {
  offspringLinkId,
  parentLinkId,
  type PedigreeScene,
  type SceneBounds,
  type SceneLayer,
  type SceneLink,
  type SceneMating,
  type SceneNode,
  type ScenePoint,
} from './scene.js';
import type { SliceFish } from './slice.js';
import { straightenLines } from './straighten.js';

export interface LayoutOptions {
  readonly focusId: string;
  /** `relatives` (default): ancestors and descendants of the focus, the descendants' other parents, planned broods' ancestors. */
  readonly scope?: 'relatives' | 'all';
  readonly maxAncestorGenerations?: number;
  readonly maxDescendantGenerations?: number;
  /** `down` (default): oldest above. `right`: oldest at the left. */
  readonly orientation?: 'down' | 'right';
  /** Box of one fish, pixels. Defaults 84 x 62 downwards, 132 x 36 to the right. */
  readonly nodeWidth?: number;
  readonly nodeHeight?: number;
  /** Side of the symbol, which stands at the beginning of the box along the axis of generations. Default 28. */
  readonly symbolSize?: number;
  /** More full sibs without young than this fold into one node. Default 5; at least 1; `Infinity` folds nothing. */
  readonly foldSpawnsAbove?: number;
  /** Ids of folds to be drawn fish by fish. */
  readonly expandedFolds?: Iterable<string>;
  /** Fish that are always shown and never folded, such as those on a highlighted path. */
  readonly keepIds?: Iterable<string>;
}

interface Measures {
  readonly down: boolean;
  readonly width: number;
  readonly height: number;
  readonly symbol: number;
  readonly spacing: Spacing;
  readonly route: RouteSpacing;
}

/**
 * Lays out a pedigree: each fish once, parents above (or left of) their young, one row a generation, mates near each other, loops
 * drawn as loops.
 *
 * Assumptions: parent ids not in the slice are parents not shown. Units: pixels. The scene is frozen, and the same slice (in any
 * order) with the same options gives the same scene.
 *
 * @throws LayoutError `LAYOUT_UNKNOWN_FOCUS`, `LAYOUT_DUPLICATE_ID`, `LAYOUT_SAME_PARENTS`, `LAYOUT_CYCLE`.
 * Cost: about O(sum over rows of width² · degree) for the ordering; see `tests/bench/layout.bench.ts`.
 * @example
 * const scene = layoutPedigree(
 *   [
 *     { id: 'a', tag: 'A', sex: 'male', sireId: null, damId: null },
 *     { id: 'b', tag: 'B', sex: 'female', sireId: null, damId: null },
 *     { id: 'c', tag: 'C', sex: 'unknown', sireId: 'a', damId: 'b' },
 *   ],
 *   { focusId: 'c' },
 * );
 * scene.layers.length; // 2
 */
export function layoutPedigree(slice: readonly SliceFish[], options: LayoutOptions): PedigreeScene {
  const kindred = indexKindred(slice);
  if (!kindred.indexOf.has(options.focusId)) {
    const message = `The focus ${options.focusId} is not in the slice; choose one of its ${slice.length} fish.`;
    throw new LayoutError('LAYOUT_UNKNOWN_FOCUS', message, [options.focusId]);
  }
  const familyOptions = withDefaults(options);
  const shown = chooseShown(kindred, familyOptions);
  const families = formFamilies(kindred, shown, familyOptions);
  const measures = measure(options);
  const level = assignLayers(families);
  const rows = buildRows(families, level);
  const crossings = orderRows(rows);
  const across = placeAcross(rows, families, measures.spacing);
  straightenLines(rows, families, across, measures.spacing);
  const routes = routeLines(rows, families, across, measures.route);
  const scene = compose(kindred, families, rows, across, routes, measures, options.focusId);
  return deepFreeze({ ...scene, crossings, leftOut: slice.length - shown.size });
}

function withDefaults(options: LayoutOptions): FamilyOptions {
  return {
    focusId: options.focusId,
    scope: options.scope ?? 'relatives',
    maxAncestorGenerations: options.maxAncestorGenerations ?? Number.POSITIVE_INFINITY,
    maxDescendantGenerations: options.maxDescendantGenerations ?? Number.POSITIVE_INFINITY,
    foldSpawnsAbove: options.foldSpawnsAbove ?? 5,
    expandedFolds: new Set(options.expandedFolds ?? []),
    keepIds: new Set(options.keepIds ?? []),
  };
}

function measure(options: LayoutOptions): Measures {
  const down = (options.orientation ?? 'down') === 'down';
  const width = options.nodeWidth ?? (down ? 84 : 132);
  const height = options.nodeHeight ?? (down ? 62 : 36);
  const symbol = options.symbolSize ?? 28;
  return {
    down,
    width,
    height,
    symbol,
    spacing: {
      nodeSize: down ? width : height,
      siblingGap: 12,
      familyGap: down ? 28 : 20,
      lineGap: 12,
    },
    route: {
      nodeAlong: down ? height : width,
      symbolSize: symbol,
      trackGap: 10,
      channelPadding: 12,
    },
  };
}

function compose(
  kindred: Kindred,
  families: Families,
  rows: Rows,
  across: Float64Array,
  routes: Routes,
  measures: Measures,
  focusId: string,
): Omit<PedigreeScene, 'crossings' | 'leftOut'> {
  const point = (spot: Spot): ScenePoint =>
    measures.down ? { x: spot.across, y: spot.along } : { x: spot.along, y: spot.across };
  const nodes = orderedNodes(rows).map(({ node, layer, order }) => {
    const start = routes.rowStart[layer]!;
    const place = across[rows.nodeVertex[node]!]!;
    const box = {
      layer,
      order,
      ...point({ across: place, along: start + measures.route.nodeAlong / 2 }),
      width: measures.width,
      height: measures.height,
      symbol: point({ across: place, along: start + measures.symbol / 2 }),
    };
    return sceneNode(kindred, families.nodes[node]!, box, focusId);
  });
  const matings = families.matings.map((mating, m): SceneMating => {
    const routed = routes.matings[m]!;
    return {
      id: mating.id,
      sireId: families.nodes[mating.sire]?.id ?? null,
      damId: families.nodes[mating.dam]?.id ?? null,
      offspringIds: mating.offspring.map((i) => families.nodes[i]!.id),
      related: mating.related,
      planned: mating.planned,
      ...point(routed.spot),
      line: routed.line.map(point),
    };
  });
  const links = matings.flatMap((mating, m) => sceneLinks(mating, routes.matings[m]!, point));
  const layers = sceneLayers(nodes, routes, measures);
  return {
    orientation: measures.down ? 'down' : 'right',
    focusId,
    nodes,
    matings,
    links,
    layers,
    bounds: boundsOf(nodes, links),
  };
}

function orderedNodes(rows: Rows): { node: number; layer: number; order: number }[] {
  const list: { node: number; layer: number; order: number }[] = [];
  for (let r = 0; r < rows.order.length; r += 2) {
    let order = 0;
    for (const v of rows.order[r]!) {
      const vertex = rows.vertices[v]!;
      if (vertex.kind === 'node') list.push({ node: vertex.ref, layer: r / 2, order: order++ });
    }
  }
  return list;
}

type Box = Pick<SceneNode, 'layer' | 'order' | 'x' | 'y' | 'width' | 'height' | 'symbol'>;

function sceneNode(kindred: Kindred, node: FamilyNode, box: Box, focusId: string): SceneNode {
  const members = node.members.map((i) => kindred.fish[i]!);
  const first = members[0]!;
  if (node.folded) {
    return {
      kind: 'fold',
      id: node.id,
      ...box,
      count: members.length,
      memberIds: members.map((fish) => fish.id),
      memberTags: members.map((fish) => fish.tag),
      males: members.filter((fish) => fish.sex === 'male').length,
      females: members.filter((fish) => fish.sex === 'female').length,
      spawnId: first.spawnId ?? null,
    };
  }
  return {
    kind: 'fish',
    id: first.id,
    ...box,
    tag: first.tag,
    sex: first.sex,
    label: [...(first.label ?? [])],
    isFocus: first.id === focusId,
    planned: first.planned === true,
    founder: node.origin < 0,
  };
}

function sceneLinks(
  mating: SceneMating,
  routed: Routes['matings'][number],
  point: (spot: Spot) => ScenePoint,
): SceneLink[] {
  const shared = {
    matingId: mating.id,
    related: mating.related,
    planned: mating.planned,
  };
  const links: SceneLink[] = [];
  const addParent = (nodeId: string | null, path: readonly Spot[]): void => {
    if (nodeId === null) return;
    const id = parentLinkId(mating.id, nodeId);
    links.push({ id, kind: 'parent', nodeId, points: path.map(point), ...shared });
  };
  addParent(mating.sireId, routed.sirePath);
  addParent(mating.damId, routed.damPath);
  mating.offspringIds.forEach((nodeId, i) => {
    const id = offspringLinkId(mating.id, nodeId);
    const points = routed.offspringPaths[i]!.map(point);
    links.push({ id, kind: 'offspring', nodeId, points, ...shared });
  });
  return links;
}

function sceneLayers(
  nodes: readonly SceneNode[],
  routes: Routes,
  measures: Measures,
): SceneLayer[] {
  const ids: string[][] = routes.rowStart.map(() => []);
  for (const node of nodes) ids[node.layer]!.push(node.id);
  return routes.rowStart.map((from, index) => ({
    index,
    from,
    to: from + measures.route.nodeAlong,
    nodeIds: ids[index]!,
  }));
}

function boundsOf(nodes: readonly SceneNode[], links: readonly SceneLink[]): SceneBounds {
  let left = Number.POSITIVE_INFINITY;
  let top = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  let bottom = Number.NEGATIVE_INFINITY;
  const include = (x: number, y: number, dx: number, dy: number): void => {
    left = Math.min(left, x - dx);
    right = Math.max(right, x + dx);
    top = Math.min(top, y - dy);
    bottom = Math.max(bottom, y + dy);
  };
  for (const node of nodes) include(node.x, node.y, node.width / 2, node.height / 2);
  for (const link of links) for (const at of link.points) include(at.x, at.y, 0, 0);
  return { x: left, y: top, width: right - left, height: bottom - top };
}

function deepFreeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const part of Object.values(value)) deepFreeze(part);
  }
  return value;
}
