import { decimalIn } from '@linewright/pedigree';
import { gradeOf, scoreProblem, type Grade } from '../../wording/scores.js';
import type { TraitKind } from '../../wording/words.js';

/** A trait of the plain list or of a sheet; grades are named on sheets. */
export interface ScoredTrait {
  readonly id: string;
  readonly name: string;
  readonly kind: TraitKind;
  readonly unit: string | null;
  readonly minimum: number | null;
  readonly maximum: number | null;
  readonly grades?: readonly Grade[];
}

export interface ReadScores {
  readonly values: ReadonlyMap<string, number>;
  /** Message by trait. */
  readonly slips: ReadonlyMap<string, string>;
}

/** What was typed, as numbers; blank boxes are left out. */
export function readScores(
  traits: readonly ScoredTrait[],
  typed: ReadonlyMap<string, string>,
): ReadScores {
  const values = new Map<string, number>();
  const slips = new Map<string, string>();
  for (const trait of traits) {
    const text = typed.get(trait.id)?.trim() ?? '';
    if (text === '') continue;
    const value = decimalIn(text) ?? Number.NaN;
    const problem = scoreProblem(trait, value);
    if (problem === null) values.set(trait.id, value);
    else slips.set(trait.id, `${problem}.`);
  }
  return { values, slips };
}

/** The steps of a short scale, to be tapped; `null` for anything that is typed. */
export function stepsOf(trait: ScoredTrait): { value: string; label: string }[] | null {
  if (trait.kind === 'YES_NO')
    return [
      { value: '1', label: 'yes' },
      { value: '0', label: 'no' },
    ];
  const { minimum, maximum } = trait;
  if (trait.kind !== 'ORDINAL' || minimum === null || maximum === null) return null;
  if (maximum - minimum > 10) return null;
  return Array.from({ length: maximum - minimum + 1 }, (_, index) => {
    const value = minimum + index;
    // A grade is named where it begins.
    const begins = trait.grades?.some((grade) => grade.from === value) === true;
    const name = begins ? gradeOf(value, trait.grades) : null;
    return { value: String(value), label: name === null ? String(value) : `${value} ${name}` };
  });
}
