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

export const expectWindow = (from: number | null, to: number | null, checks: FieldChecks): void => {
  if ((from ?? 0) < 0)
    checks.refuse('fromAgeDays', `${from} days is before hatching: give 0 or more.`);
  if (from !== null && to !== null && to < from)
    checks.refuse(
      'toAgeDays',
      `The oldest age (${to} days) is below the youngest (${from}): change one.`,
    );
};

/** Fields are named by their place, as in `lines.0.weight`. */
export const expectLines = (
  { lines }: SheetContent,
  names: ReadonlyMap<string, string>,
  checks: FieldChecks,
): void => {
  if (lines.length === 0) checks.refuse('lines', 'Put at least one trait on the sheet.');
  const seen = new Set<string>();
  for (const [k, line] of lines.entries()) {
    const name = names.get(line.traitId) ?? line.traitId;
    if (seen.has(line.traitId))
      checks.refuse(`lines.${k}.traitId`, `${name} is on the sheet twice: take one out.`);
    seen.add(line.traitId);
    if ((line.noneAt === null) !== (line.fullAt === null))
      checks.refuse(
        `lines.${k}.fullAt`,
        `${name}: give both the value that earns nothing and the one that earns all, or neither.`,
      );
    if (line.noneAt !== null && line.noneAt === line.fullAt)
      checks.refuse(
        `lines.${k}.fullAt`,
        `${name}: nothing and everything cannot be earned at the same ${line.noneAt}.`,
      );
    if (line.weight !== null && !(line.weight >= 0))
      checks.refuse(`lines.${k}.weight`, `${name}: the weight ${line.weight} is below 0.`);
  }
  const weights = lines.filter((line) => line.weight !== null);
  if (weights.length !== 0 && weights.length !== lines.length)
    checks.refuse(
      'lines',
      'Give every trait a weight (0 for none), or leave all weights out: then all count alike.',
    );
};

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
