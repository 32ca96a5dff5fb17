import { trimmed } from '../../database/given.js';
import type { FieldChecks } from '../../errors/field-checks.js';
import { fieldError } from '../../errors/request-error.js';
import type { SheetContent, SheetDeductions } from '../../stock/rows/sheet-content.js';
import type { SheetContentInput } from './sheet.inputs.js';

/** Refuses a field of a form in words. */
export const refuse = (field: string, message: string): never => {
  throw fieldError({ field, message });
};

export const checkedName = (name: string): string =>
  trimmed(name) ?? refuse('name', 'Give the sheet a name, such as "Fins at 8 weeks".');

/** Fields are named by their class, as in `points.MAJOR`. */
export const checkedDeductions = (
  input: SheetContentInput,
  checks: FieldChecks,
): SheetDeductions => {
  for (const { severity, points } of input.deductions) {
    const field = `points.${severity.toUpperCase()}`;
    if (severity === 'disqualifying')
      checks.refuse(
        field,
        'A disqualifying fault disqualifies the fish and takes no points: give none.',
      );
    if (!(points >= 0 && points <= 100))
      checks.refuse(field, `${points} points for a ${severity} fault: give 0 to 100.`);
  }
  return Object.fromEntries(input.deductions.map((d) => [d.severity, d.points]));
};

/** The same content, whatever order the database keeps keys in. */
export const contentText = ({
  fromAgeDays,
  toAgeDays,
  lines,
  faults,
  deductions,
}: SheetContent): string =>
  JSON.stringify([
    fromAgeDays,
    toAgeDays,
    lines.map((l) => [l.traitId, l.traitVersion, l.weight, l.noneAt, l.fullAt]),
    faults.map((f) => [f.id, f.name, f.severity]),
    Object.entries(deductions).sort(([a], [b]) => (a < b ? -1 : 1)),
  ]);
