import {
  PLANNED_BROOD_ID,
  layoutPedigree,
  traceHighlight,
  withPlannedBrood,
  type PathHighlight,
  type PedigreeScene,
  type SliceFish,
} from '@linewright/pedigree-layout';
import { markedF } from '../figures.js';
import type { PedigreeDrawingProps, PedigreeFish, PlannedBrood } from './types.js';

/** Mean width of a character of a tag, pixels. */
const TEXT_WIDTH = 7.6;

function sliceOf(
  fish: readonly PedigreeFish[],
  planned: readonly PlannedBrood[],
): readonly SliceFish[] {
  const slice = fish.map((one): SliceFish => {
    const label = [];
    if (one.unknownParent === true) label.push('not recorded');
    else if (typeof one.inbreeding === 'number') label.push(markedF(one.inbreeding, one.basis));
    if (typeof one.note === 'string' && one.note !== '') label.push(one.note);
    return {
      id: one.id,
      tag: one.tag,
      sex: one.sex,
      sireId: one.sireId,
      damId: one.damId,
      spawnId: one.spawnId ?? null,
      label,
      ...(typeof one.inbreeding === 'number' ? { parentsRelated: one.inbreeding > 0 } : {}),
    };
  });
  return planned.reduce((before: readonly SliceFish[], brood) => {
    const known = typeof brood.inbreeding === 'number';
    return withPlannedBrood(before, {
      ...(brood.id === undefined ? {} : { id: brood.id }),
      sireId: brood.sireId,
      damId: brood.damId,
      label: brood.label,
      lines: known ? [markedF(brood.inbreeding ?? 0, brood.basis)] : [],
      ...(known ? { parentsRelated: (brood.inbreeding ?? 0) > 0 } : {}),
    });
  }, slice);
}

export type SceneInput = Pick<
  PedigreeDrawingProps,
  'fish' | 'focusId' | 'scope' | 'maxAncestorGenerations' | 'maxDescendantGenerations'
> & {
  readonly planned: readonly PlannedBrood[];
  readonly orientation: 'down' | 'right';
  readonly foldSpawnsAbove: number;
  readonly expandedFolds: ReadonlySet<string>;
  readonly keepIds: readonly string[];
};

/** Props to scene: box sizes follow the longest tag and whether there are notes. */
export function sceneOf(input: SceneInput): PedigreeScene {
  const tags = [...input.fish.map(({ tag }) => tag), ...input.planned.map(({ label }) => label)];
  const longest = tags.reduce((most, tag) => Math.max(most, tag.length), 7);
  const text = Math.min(140, Math.max(66, Math.ceil(longest * TEXT_WIDTH) + 6));
  const notes = input.fish.some((one) => typeof one.note === 'string' && one.note !== '');
  const down = input.orientation === 'down';
  return layoutPedigree(sliceOf(input.fish, input.planned), {
    focusId: input.focusId,
    scope: input.scope ?? 'relatives',
    orientation: input.orientation,
    nodeWidth: down ? text : text + 40,
    nodeHeight: down ? (notes ? 78 : 65) : notes ? 48 : 36,
    foldSpawnsAbove: input.foldSpawnsAbove,
    expandedFolds: input.expandedFolds,
    keepIds: input.keepIds,
    ...(input.maxAncestorGenerations === undefined
      ? {}
      : { maxAncestorGenerations: input.maxAncestorGenerations }),
    ...(input.maxDescendantGenerations === undefined
      ? {}
      : { maxDescendantGenerations: input.maxDescendantGenerations }),
  });
}

/** Highlights of all paths asked for, each closed at the brood it belongs to. */
export function highlightsOf(
  scene: PedigreeScene,
  paths: readonly (readonly string[])[],
  planned: readonly PlannedBrood[],
): readonly PathHighlight[] {
  return paths
    .filter((path) => path.length > 0)
    .map((path) => {
      const ends = new Set([path[0], path.at(-1)]);
      const brood = planned.find(({ sireId, damId }) => ends.has(sireId) && ends.has(damId));
      const end = brood === undefined ? scene.focusId : (brood.id ?? PLANNED_BROOD_ID);
      return traceHighlight(scene, path, end);
    });
}
