import type { FixedColumn, SharedColumn } from '@linewright/merit';
import { decimalIn } from '@linewright/pedigree';
import { InputError, type Looks } from './read-pedigree.js';

/** Fields of a column, by row; none where the file has no such column. */
export const fieldsOf = ({ columns }: Looks, name: string): readonly string[] =>
  columns.get(name.trim().toLowerCase()) ?? [];

/** A column of numbers, `NaN` where a field is empty. @throws {InputError} with each field that is no number. */
export function numbersOf(looks: Looks, name: string): Float64Array {
  const faults: string[] = [];
  const numbers = Float64Array.from(fieldsOf(looks, name), (field, row) => {
    const text = field.trim();
    if (text === '') return NaN;
    const value = numberIn(text);
    if (value === null)
      faults.push(
        `Line ${looks.line[row]!}: "${text}" in "${name}" is not a number. Write it as 12.5, or leave the field empty where there is none.`,
      );
    return value ?? NaN;
  });
  if (faults.length > 0) throw new InputError(faults);
  return numbers;
}

/** Commas part the columns of these files. */
const numberIn = (text: string): number | null => decimalIn(text, { comma: false });

/** Levels of a column in order, numbers by size, and the level of each row; -1 where a field is empty. */
function levelsOf(looks: Looks, name: string, counts: (row: number) => boolean): SharedColumn {
  const fields = fieldsOf(looks, name).map((field) => field.trim());
  const used = new Set(fields.filter((field, row) => field !== '' && counts(row)));
  const isNumber = [...used].every((level) => numberIn(level) !== null);
  const levels = [...used].sort((a, b) =>
    isNumber ? numberIn(a)! - numberIn(b)! : a < b ? -1 : a > b ? 1 : 0,
  );
  const number = new Map(levels.map((level, k) => [level, k]));
  return { name, levels, codes: Int32Array.from(fields, (field) => number.get(field) ?? -1) };
}

export const sharedColumn = levelsOf;

export const classColumn = (
  looks: Looks,
  name: string,
  counts: (row: number) => boolean,
): FixedColumn => ({ kind: 'classes', ...levelsOf(looks, name, counts) });

export const covariateColumn = (looks: Looks, name: string): FixedColumn => ({
  kind: 'covariate',
  name,
  values: numbersOf(looks, name),
});

/** Says of each scored row which of the fixed columns it lacks. */
export function expectFixed(
  looks: Looks,
  fixed: readonly FixedColumn[],
  counts: (row: number) => boolean,
): void {
  const faults: string[] = [];
  looks.line.forEach((line, row) => {
    if (!counts(row)) return;
    for (const column of fixed) {
      const given =
        column.kind === 'classes' ? column.codes[row]! >= 0 : !Number.isNaN(column.values[row]!);
      if (!given)
        faults.push(
          `Line ${line}: the fish was scored, but "${column.name}" is empty. Fill it in, or leave the score empty.`,
        );
    }
  });
  if (faults.length > 0) throw new InputError(faults);
}
