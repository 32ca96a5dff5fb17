import { sheetTotal, type SheetTotal } from '@linewright/merit';
import type { SheetVersion } from '../../api/score-sheets.js';

interface AgeWindow {
  readonly fromAgeDays: number | null;
  readonly toAgeDays: number | null;
}

/** Whether a sheet was made for this age; one for any age is made for none in particular. */
export const isMeantFor = ({ fromAgeDays: from, toAgeDays: to }: AgeWindow, age: number | null) =>
  age !== null && (from !== null || to !== null) && (from ?? 0) <= age && age <= (to ?? Infinity);

/** The first sheet that was made for this age, if any. */
export const sheetOfAge = <Sheet extends { readonly current: AgeWindow }>(
  sheets: readonly Sheet[],
  age: number | null,
): Sheet | undefined => sheets.find(({ current }) => isMeantFor(current, age));

/** The total so far, computed here by the same library as the server's. */
export function totalSoFar(
  { lines, faults }: Pick<SheetVersion, 'lines' | 'faults'>,
  values: ReadonlyMap<string, number>,
  seen: ReadonlySet<string>,
): SheetTotal {
  return sheetTotal(
    lines.map(({ trait, weight, noneAt, fullAt }) => ({
      trait: trait.id,
      weight,
      noneAt,
      fullAt,
    })),
    values,
    faults
      .filter((fault) => seen.has(fault.id))
      .map(({ name, severity, points }) => ({
        name,
        disqualifying: severity === 'DISQUALIFYING',
        points,
      })),
  );
}
