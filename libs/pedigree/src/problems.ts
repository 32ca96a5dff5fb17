import {
  UNLISTED,
  type InternedColumns,
  type PedigreeColumns,
  type PedigreeOptions,
} from './columns.js';
import { countGenerations, findCycles, parentsComeFirst, type GenerationCount } from './order.js';
import { isCalendarDate } from './file/written.js';
import type { PedigreeProblem, PedigreeProblemCode } from './pedigree-error.js';

type Report = (
  code: PedigreeProblemCode,
  row: number,
  message: string,
  others?: readonly string[],
) => void;

/** Faults, and the generations if they had to be counted to find cycles. */
export interface ProblemReport {
  readonly problems: PedigreeProblem[];
  readonly generations: GenerationCount | undefined;
}

/**
 * Every fault of the columns, sorted by row. Cost: linear in rows, plus sorting the problems.
 */
export function collectProblems(
  columns: PedigreeColumns,
  interned: InternedColumns,
  options: PedigreeOptions,
): ProblemReport {
  const found: { row: number; problem: PedigreeProblem }[] = [];
  const report: Report = (code, row, message, others = []) => {
    const line = columns.rows?.[row];
    const where = line === undefined ? '' : `Line ${line}: `;
    const base = { code, id: interned.ids[row]!, others, message: where + message };
    found.push({ row, problem: line === undefined ? base : { ...base, row: line } });
  };
  reportIds(columns, interned, report);
  if (interned.unlisted) reportUnlisted(columns, interned, report);
  reportSameParents(interned, options, report);
  reportSex(columns, interned, options, report);
  if (columns.bornOn !== undefined) reportDates(columns.bornOn, interned, report);
  const generations = reportCycles(interned, report);
  found.sort((a, b) => a.row - b.row);
  return { problems: found.map((entry) => entry.problem), generations };
}

function reportIds(
  columns: Pick<PedigreeColumns, 'rows'>,
  interned: InternedColumns,
  report: Report,
): void {
  for (const row of interned.nameless) {
    report('PEDIGREE_EMPTY_ID', row, 'the tag is empty. Give the fish a tag or remove the row.');
  }
  for (const row of interned.duplicates) {
    const id = interned.ids[row]!;
    const first = interned.rowOf!.get(id)!;
    const line = columns.rows?.[first];
    const place = line === undefined ? `record ${first + 1}` : `line ${line}`;
    const text = `"${id}" has a record already (${place}). Keep one of the two or give this fish another tag.`;
    report('PEDIGREE_DUPLICATE_ID', row, text);
  }
}

function reportUnlisted(columns: PedigreeColumns, interned: InternedColumns, report: Report): void {
  const { ids, sire, dam } = interned;
  for (let row = 0; row < columns.ids.length; row++) {
    const roles = [
      ['sire', sire[row], columns.sire[row]],
      ['dam', dam[row], columns.dam[row]],
    ] as const;
    for (const [role, parent, name] of roles) {
      if (parent !== UNLISTED || typeof name !== 'string') continue;
      report(
        'PEDIGREE_UNKNOWN_PARENT',
        row,
        `the ${role} "${name}" of "${ids[row]!}" has no record. Add a record for it, correct the tag, or leave the ${role} empty.`,
        [name],
      );
    }
  }
}

function reportSameParents(
  interned: InternedColumns,
  options: PedigreeOptions,
  report: Report,
): void {
  if (options.allowSelfing === true) return;
  const { sire, dam } = interned;
  for (let row = 0; row < sire.length; row++) {
    const parent = sire[row]!;
    if (parent < 0 || parent !== dam[row] || parent === row) continue;
    const { ids } = interned;
    const name = ids[parent]!;
    report(
      'PEDIGREE_SAME_PARENTS',
      row,
      `"${name}" is given as both sire and dam of "${ids[row]!}". Correct one of the two, or leave it empty if it is not known.`,
      [name],
    );
  }
}

/** Sex conflicts are put down to the parent, with one young as the example. */
function reportSex(
  columns: PedigreeColumns,
  interned: InternedColumns,
  options: PedigreeOptions,
  report: Report,
): void {
  const { sire, dam } = interned;
  const size = sire.length;
  const sired = new Int32Array(size).fill(-1);
  const bore = new Int32Array(size).fill(-1);
  for (let row = size - 1; row >= 0; row--) {
    const s = sire[row]!;
    const d = dam[row]!;
    if (s === d) continue;
    if (s >= 0) sired[s] = row;
    if (d >= 0) bore[d] = row;
  }
  for (let row = 0; row < size; row++) {
    const asSire = sired[row]!;
    const asDam = bore[row]!;
    if (asSire < 0 && asDam < 0) continue;
    const sex = columns.sex?.[row];
    if (sex !== 'male' && sex !== 'female' && (asSire < 0 || asDam < 0)) continue;
    const { ids } = interned;
    const id = ids[row]!;
    if (sex === 'male' && asDam >= 0) {
      const young = ids[asDam]!;
      const text = `"${id}" is recorded as male but is the dam of "${young}". Correct its sex or that parent.`;
      report('PEDIGREE_SEX_CONFLICT', row, text, [young]);
    } else if (sex === 'female' && asSire >= 0) {
      const young = ids[asSire]!;
      const text = `"${id}" is recorded as female but is the sire of "${young}". Correct its sex or that parent.`;
      report('PEDIGREE_SEX_CONFLICT', row, text, [young]);
    } else if (asSire >= 0 && asDam >= 0 && options.allowSelfing !== true) {
      const text = `"${id}" is the sire of "${ids[asSire]!}" and the dam of "${ids[asDam]!}". Correct one of the two.`;
      report('PEDIGREE_SEX_CONFLICT', row, text, [ids[asSire]!, ids[asDam]!]);
    }
  }
}

function reportDates(
  bornOn: readonly (string | null | undefined)[],
  { ids, sire, dam }: InternedColumns,
  report: Report,
): void {
  const dates: (string | null)[] = bornOn.map((date, row) => {
    if (date === null || date === undefined || date === '') return null;
    if (isCalendarDate(date)) return date;
    const text = `the date "${date}" of "${ids[row]!}" is not a calendar date. Write it as year-month-day, for example 2026-03-14.`;
    report('PEDIGREE_BAD_DATE', row, text);
    return null;
  });
  for (let row = 0; row < dates.length; row++) {
    const born = dates[row];
    if (born === null || born === undefined) continue;
    for (const [role, parents] of [
      ['sire', sire],
      ['dam', dam],
    ] as const) {
      const parent = parents[row]!;
      const parentBorn = parent < 0 ? null : dates[parent];
      // ISO dates sort as text.
      if (parentBorn === null || parentBorn === undefined || parentBorn < born) continue;
      report(
        'PEDIGREE_PARENT_YOUNGER',
        row,
        `the ${role} "${ids[parent]!}" (${parentBorn}) is not older than its young "${ids[row]!}" (${born}). Correct a date or the ${role}.`,
        [ids[parent]!],
      );
    }
  }
}

function reportCycles(interned: InternedColumns, report: Report): GenerationCount | undefined {
  const { sire, dam } = interned;
  if (parentsComeFirst(sire, dam)) return undefined;
  const generations = countGenerations(sire, dam);
  const { depth, placed } = generations;
  if (placed === sire.length) return generations;
  const { ids } = interned;
  for (const cycle of findCycles(sire, dam, depth)) {
    const names = cycle.map((row) => ids[row]!);
    report(
      'PEDIGREE_CYCLE',
      cycle[0]!,
      `"${names[0]!}" is its own ancestor: ${spellCycle(names)}. Correct one of these parents.`,
      names,
    );
  }
  return generations;
}

/** Young to old and back to the start; the middle of a very long cycle is counted, not written. */
function spellCycle(names: readonly string[]): string {
  const quoted = names.map((name) => `"${name}"`);
  const shown =
    quoted.length <= 12
      ? quoted
      : [...quoted.slice(0, 6), `(${quoted.length - 10} more)`, ...quoted.slice(-4)];
  return [...shown, quoted[0]!].join(' is a young of ');
}
