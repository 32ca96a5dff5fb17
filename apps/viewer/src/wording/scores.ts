import { isWholeScale, scoreSlip } from '@linewright/merit';
import { plainNumber, span } from './figures.js';
import type { TraitKind } from './words.js';

export interface Grade {
  from: number;
  name: string;
}

/** The name of the grade a value falls into; null when none is named or it lies below the lowest. */
export function gradeOf(value: number, grades: readonly Grade[] = []): string | null {
  return grades.findLast((grade) => value >= grade.from)?.name ?? null;
}

export interface ScoredTrait {
  kind: TraitKind;
  unit: string | null;
  minimum: number | null;
  maximum: number | null;
  grades?: readonly Grade[];
}

/** A score with its unit, or with the top of its scale, or as yes and no; with the name of its grade. */
export function scoreText(value: number, trait: ScoredTrait): string {
  if (trait.kind === 'YES_NO') return value === 0 ? 'no' : 'yes';
  const grade = gradeOf(value, trait.grades);
  return grade === null ? plainScore(value, trait) : `${plainScore(value, trait)}, ${grade}`;
}

function plainScore(value: number, trait: ScoredTrait): string {
  const figure = plainNumber(value, 2);
  if (trait.unit !== null && trait.unit !== '') return `${figure} ${trait.unit}`;
  if (trait.kind === 'ORDINAL' && trait.maximum !== null)
    return `${figure} of ${plainNumber(trait.maximum)}`;
  return figure;
}

/** "0 to 10", "from 0", "up to 180"; empty when nothing bounds it. */
export function rangeText({
  minimum,
  maximum,
}: {
  minimum: number | null;
  maximum: number | null;
}): string {
  if (minimum !== null && maximum !== null) return span(plainNumber(minimum), plainNumber(maximum));
  if (minimum !== null) return `from ${plainNumber(minimum)}`;
  if (maximum !== null) return `up to ${plainNumber(maximum)}`;
  return '';
}

/** What is wrong with a value of a trait, and what to give, without a full stop; `null` when it may be recorded. */
export function scoreProblem(trait: ScoredTrait & { name: string }, value: number): string | null {
  const { minimum, maximum, unit } = trait;
  const kind = trait.kind.toLowerCase() as Lowercase<TraitKind>;
  if (scoreSlip({ kind, minimum, maximum }, value) === null) return null;
  if (kind === 'yes_no') return `${trait.name}: give 1 for yes or 0 for no`;
  const whole = isWholeScale({ kind }) ? 'whole ' : '';
  return [`${trait.name}: give a ${whole}number`, rangeText(trait), unit ?? '']
    .filter((part) => part !== '')
    .join(' ');
}
