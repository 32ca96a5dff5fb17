import type { FieldChecks } from '../errors/field-checks.js';
import type { SheetContent } from './rows/sheet-content.js';

/** What holds for a score sheet, typed here or received in a file. */

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
