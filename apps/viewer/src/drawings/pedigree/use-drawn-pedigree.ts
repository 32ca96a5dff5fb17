import { useMemo, useState } from 'react';
import {
  navigate,
  type Navigator,
  type PathHighlight,
  type PedigreeScene,
  type SceneNode,
} from '@linewright/pedigree-layout';
import { nameNodes, type NodeNames } from './node-names.js';
import type { PedigreeDrawingProps, PedigreeFish, PlannedBrood } from './types.js';
import { highlightsOf, sceneOf } from './view.js';

type FoldIds = ReadonlySet<string>;
type Paths = readonly (readonly string[])[];

const NO_FOLDS: FoldIds = new Set();
const NO_PATHS: Paths = [];
const NONE_PLANNED: readonly PlannedBrood[] = [];

/** What is laid out: the scene, its names and steps, and the fish that stand out in it. */
export interface DrawnPedigree {
  readonly scene: PedigreeScene;
  readonly steps: Navigator;
  readonly names: NodeNames;
  readonly byId: ReadonlyMap<string, SceneNode>;
  readonly highlights: readonly PathHighlight[];
  readonly marks: PedigreeMarks;
}

export interface PedigreeMarks {
  readonly onPath: ReadonlySet<string>;
  readonly commonAncestors: ReadonlySet<string | null>;
  readonly dead: ReadonlySet<string>;
  /** Parents that nobody knows. */
  readonly unknownParents: ReadonlySet<string>;
  /** Fish without a page to open. */
  readonly pageless: ReadonlySet<string>;
}

/** Which broods are drawn fish by fish although they are large. */
export interface Folds {
  readonly expanded: FoldIds;
  expand(id: string): void;
  foldAll(): void;
}

export function useFolds(): Folds {
  const [expanded, setExpanded] = useState(NO_FOLDS);
  return useMemo(
    () => ({
      expanded,
      expand: (id) => setExpanded((folds) => new Set([...folds, id])),
      foldAll: () => setExpanded(NO_FOLDS),
    }),
    [expanded],
  );
}

const idsWhere = (
  fish: readonly PedigreeFish[],
  holds: (one: PedigreeFish) => boolean,
): ReadonlySet<string> => new Set(fish.filter(holds).map((one) => one.id));

function usePaths({ highlightedPath, highlightedPaths }: PedigreeDrawingProps): Paths {
  return useMemo(
    () => highlightedPaths ?? (highlightedPath ? [highlightedPath] : NO_PATHS),
    [highlightedPaths, highlightedPath],
  );
}

/** Laid out anew only when what is drawn changes: a large pedigree takes a while. */
function useScene(props: PedigreeDrawingProps, paths: Paths, expandedFolds: FoldIds) {
  const { fish, focusId, scope, maxAncestorGenerations, maxDescendantGenerations } = props;
  const orientation = props.orientation ?? 'down';
  const foldSpawnsAbove = props.foldSpawnsAbove ?? 5;
  const planned = props.planned ?? NONE_PLANNED;
  // By its text: another path through the same fish is no reason to lay them out again.
  const keepKey = [...new Set(paths.flat())].sort().join('\n');
  return useMemo(
    () =>
      sceneOf({
        fish,
        focusId,
        planned,
        orientation,
        foldSpawnsAbove,
        expandedFolds,
        keepIds: keepKey === '' ? [] : keepKey.split('\n'),
        ...(scope === undefined ? {} : { scope }),
        ...(maxAncestorGenerations === undefined ? {} : { maxAncestorGenerations }),
        ...(maxDescendantGenerations === undefined ? {} : { maxDescendantGenerations }),
      }),
    // prettier-ignore
    [fish, focusId, planned, orientation, foldSpawnsAbove, expandedFolds, keepKey, scope, maxAncestorGenerations, maxDescendantGenerations],
  );
}

export function useDrawnPedigree(
  props: PedigreeDrawingProps,
  expandedFolds: FoldIds,
): DrawnPedigree {
  const { fish } = props;
  const planned = props.planned ?? NONE_PLANNED;
  const paths = usePaths(props);
  const scene = useScene(props, paths, expandedFolds);
  const steps = useMemo(() => navigate(scene), [scene]);
  const names = useMemo(() => nameNodes(scene, steps), [scene, steps]);
  const byId = useMemo(() => new Map(scene.nodes.map((node) => [node.id, node] as const)), [scene]);
  const highlights = useMemo(() => highlightsOf(scene, paths, planned), [scene, paths, planned]);
  const marks = useMemo(
    (): PedigreeMarks => ({
      onPath: new Set(paths.flat()),
      commonAncestors: new Set(highlights.map((highlight) => highlight.ancestorId)),
      dead: idsWhere(fish, (one) => one.dead === true),
      unknownParents: idsWhere(fish, (one) => one.unknownParent === true),
      pageless: idsWhere(fish, (one) => one.pageless === true),
    }),
    [fish, paths, highlights],
  );
  return { scene, steps, names, byId, highlights, marks };
}
