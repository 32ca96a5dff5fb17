import type { TraitDefinitionRow } from '../../stock/rows/score.entity.js';
import type { ScoreSheetVersionRow } from '../../stock/rows/sheet.entity.js';

const outside = (age: number, from: number | null, to: number | null): string | null => {
  if (from !== null && age < from) return `younger than the ${from} days`;
  if (to !== null && age > to) return `older than the ${to} days`;
  return null;
};

/** What to keep in mind when reading a look: never a reason to refuse it. */
export const scoringWarnings = (
  ageDays: number | null,
  version: ScoreSheetVersionRow,
  traits: readonly TraitDefinitionRow[],
): string[] => {
  const warnings: string[] = [];
  const bounded = version.fromAgeDays !== null || version.toAgeDays !== null;
  if (ageDays === null && bounded)
    warnings.push('The hatch date is not known, so nobody can say whether the age was right.');
  const wrong = ageDays === null ? null : outside(ageDays, version.fromAgeDays, version.toAgeDays);
  if (wrong !== null)
    warnings.push(`Scored at ${ageDays} days, ${wrong} that this sheet is meant for.`);
  for (const trait of traits) {
    const off = ageDays === null ? null : outside(ageDays, trait.fromAgeDays, trait.toAgeDays);
    if (off !== null)
      warnings.push(
        `${trait.name} was scored at ${ageDays} days, ${off} at which it says something.`,
      );
    const made = version.lines.find((line) => line.traitId === trait.id)?.traitVersion;
    if (made !== undefined && made !== trait.version)
      warnings.push(
        `${trait.name} has changed its meaning since this version of the sheet (version ${made}, now ${trait.version}): look at its levels.`,
      );
  }
  return warnings;
};
