import type { Sex } from '@linewright/pedigree';
import { LayoutError } from './layout-error.js';

/** One fish as the layout sees it. A parent id that is not in the slice counts as a parent not shown. */
export interface SliceFish {
  readonly id: string;
  /** What people see. Fish are ordered by tag (numbers as numbers), so input order changes nothing. */
  readonly tag: string;
  readonly sex: Sex;
  readonly sireId: string | null;
  readonly damId: string | null;
  /** Keeps two spawns of one pair apart when they fold. */
  readonly spawnId?: string | null;
  /** Lines of text carried to the scene untouched. */
  readonly label?: readonly string[];
  /** A brood that is only planned. */
  readonly planned?: boolean;
  /** Known from a wider pedigree than this slice: are the parents related? Absent: judged from the slice. */
  readonly parentsRelated?: boolean;
}

/** A planned brood to be dropped into a slice. */
export interface PlannedBrood {
  readonly id?: string;
  readonly sireId: string;
  readonly damId: string;
  readonly label: string;
  readonly lines?: readonly string[];
  readonly parentsRelated?: boolean;
}

/** Id that a planned brood gets when none is given. */
export const PLANNED_BROOD_ID = 'planned-brood';

/**
 * The slice with one more fish: a planned brood of the given pair, marked `planned`.
 *
 * @throws LayoutError `LAYOUT_UNKNOWN_PARENT` when a parent is not in the slice, `LAYOUT_SAME_PARENTS` when both are one fish,
 * `LAYOUT_DUPLICATE_ID` when the id is taken.
 * @example withPlannedBrood(slice, { sireId: 'a', damId: 'b', label: 'planned' })
 */
export function withPlannedBrood(
  slice: readonly SliceFish[],
  brood: PlannedBrood,
): readonly SliceFish[] {
  const id = brood.id ?? PLANNED_BROOD_ID;
  const ids = new Set(slice.map((fish) => fish.id));
  for (const parent of [brood.sireId, brood.damId]) {
    if (!ids.has(parent)) {
      const message = `The planned brood names ${parent} as a parent, which is not in the drawing; add that fish to the slice.`;
      throw new LayoutError('LAYOUT_UNKNOWN_PARENT', message, [parent]);
    }
  }
  if (brood.sireId === brood.damId) throw sameParents(id, brood.sireId);
  if (ids.has(id)) throw duplicateId(id);
  const planned: SliceFish = {
    id,
    tag: brood.label,
    sex: 'unknown',
    sireId: brood.sireId,
    damId: brood.damId,
    planned: true,
    label: brood.lines ?? [],
    ...(brood.parentsRelated === undefined ? {} : { parentsRelated: brood.parentsRelated }),
  };
  return [...slice, planned];
}

export function sameParents(id: string, parent: string): LayoutError {
  const message = `${id} has ${parent} as sire and as dam; correct one of the two.`;
  return new LayoutError('LAYOUT_SAME_PARENTS', message, [id, parent]);
}

export function duplicateId(id: string): LayoutError {
  const message = `The id ${id} stands twice in the slice; each fish is given once.`;
  return new LayoutError('LAYOUT_DUPLICATE_ID', message, [id]);
}
