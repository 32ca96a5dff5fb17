import { pointsText, severitiesInOrder } from '../../wording/sheet-words.js';
import { newId } from '../../api/new-id.js';
import type { NewEntry } from '../../outbox/entry.js';
import { sheetOfAge, totalSoFar } from '../score-sheets/filled-sheet.js';
import type { Bench, BenchFish, BenchSheet } from './bench-facts.js';

/** Chosen in place of a sheet: the traits of the fish's age, one by one. */
export const NO_SHEET = 'none';

/** One look at a fish on a sheet, as far as it is filled in. */
export interface SheetLook {
  readonly sheet: BenchSheet;
  readonly values: ReadonlyMap<string, number>;
  readonly faultIds: readonly string[];
  readonly note: string | null;
}

/** What was scored of a fish: on the sheet, and beside it. */
export interface Scored {
  readonly look: SheetLook | null;
  readonly plain: ReadonlyMap<string, number>;
}

export const nothingScored: Scored = { look: null, plain: new Map() };

/** The sheet that was asked for; none asked for, the first that was made for the age; else the plain list. */
export function chosenSheet(
  sheets: readonly BenchSheet[],
  asked: string | null,
  age: number | null,
): BenchSheet | null {
  if (asked === NO_SHEET) return null;
  return sheets.find(({ id }) => id === asked) ?? sheetOfAge(sheets, age) ?? null;
}

export const isOnSheet = (sheet: BenchSheet, traitId: string): boolean =>
  sheet.current.lines.some((line) => line.trait.id === traitId);

/**
 * What was marked on a sheet that is no longer the chosen one, in words that say how not to lose it; null when nothing was.
 * Typed values are never left behind: they are entered beside the sheet.
 */
export function leftOnOtherSheet(
  sheets: readonly BenchSheet[],
  sheet: BenchSheet | null,
  seen: ReadonlySet<string>,
  note: string,
): string | null {
  const here = new Set(sheet?.current.faults.map(({ id }) => id));
  const left = [...seen].filter((id) => !here.has(id));
  for (const other of sheets) {
    const names = other.current.faults
      .filter(({ id }) => left.includes(id))
      .map(({ name }) => name);
    if (names.length === 0) continue;
    return `Marked on the sheet “${other.name}”: ${names.join(', ')}. Choose that sheet again to enter it, or to remove the mark.`;
  }
  if (sheet !== null || sheets.length === 0 || note.trim() === '') return null;
  return `The note “${note.trim()}” belongs to scores on a sheet: choose the sheet again to enter it, or to empty the note.`;
}

/** Parts what was typed: what the sheet asks for makes the look, the rest stays plain scores. */
export function scoredOn(
  sheet: BenchSheet | null,
  values: ReadonlyMap<string, number>,
  seen: ReadonlySet<string>,
  note: string,
): Scored {
  if (sheet === null) return { look: null, plain: values };
  const asked = new Map([...values].filter(([id]) => isOnSheet(sheet, id)));
  const plain = new Map([...values].filter(([id]) => !isOnSheet(sheet, id)));
  const faultIds = sheet.current.faults.filter(({ id }) => seen.has(id)).map(({ id }) => id);
  if (asked.size === 0 && faultIds.length === 0) return { look: null, plain };
  return {
    look: { sheet, values: asked, faultIds, note: note.trim() === '' ? null : note.trim() },
    plain,
  };
}

/** The sheet's faults by class, slight ones first; classes without one are left out. */
export function faultsByClass({ current: { faults } }: BenchSheet) {
  return severitiesInOrder
    .map((severity) => ({ severity, faults: faults.filter((one) => one.severity === severity) }))
    .filter((each) => each.faults.length > 0);
}

/** "Q26-04-01: Eight weeks, 76.3 of 100, Torn fin". */
function lookLabel(fish: BenchFish, { sheet, values, faultIds }: SheetLook): string {
  const { total, disqualified } = totalSoFar(sheet.current, values, new Set(faultIds));
  const faults = sheet.current.faults.filter(({ id }) => faultIds.includes(id));
  const words = [
    sheet.name,
    total === null ? '' : `${pointsText(total)} of 100`,
    ...faults.map(({ name }) => name),
    disqualified ? 'disqualified' : '',
  ];
  return `${fish.tag}: ${words.filter(Boolean).join(', ')}`;
}

/** The whole look as one entry: it is recorded, undone or refused as one. */
export function lookEntry(bench: Bench, fish: BenchFish, on: string, look: SheetLook): NewEntry {
  const { sheet, values, faultIds, note } = look;
  return {
    kind: 'sheet_look',
    spawnId: bench.id,
    subject: fish.id,
    label: lookLabel(fish, look),
    input: {
      id: newId(),
      fishId: fish.id,
      sheetId: sheet.id,
      sheetVersion: sheet.version,
      scoredOn: on,
      note,
      scores: [...values].map(([traitId, value]) => {
        const version = sheet.current.lines.find(({ trait }) => trait.id === traitId)?.trait
          .version;
        const seen = version === undefined ? {} : { traitVersion: version };
        return { id: newId(), traitId, value, ...seen };
      }),
      faultIds: [...faultIds],
    },
  };
}
