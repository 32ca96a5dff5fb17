import { rangeText } from '../../wording/scores.js';
import type { BenchTrait } from './bench-facts.js';

export interface ReadScores {
  readonly values: ReadonlyMap<string, number>;
  /** Message by trait. */
  readonly slips: ReadonlyMap<string, string>;
}

function slipOf(trait: BenchTrait, value: number): string | null {
  const whole = trait.kind === 'COUNT' || trait.kind === 'ORDINAL';
  const low = trait.minimum ?? -Infinity;
  const high = trait.maximum ?? Infinity;
  if (
    Number.isFinite(value) &&
    value >= low &&
    value <= high &&
    (!whole || Number.isInteger(value))
  )
    return null;
  return `${trait.name}: give a ${whole ? 'whole ' : ''}number ${rangeText(trait)}`.trim() + '.';
}

/** What was typed, as numbers; blank boxes are left out. */
export function readScores(
  traits: readonly BenchTrait[],
  typed: ReadonlyMap<string, string>,
): ReadScores {
  const values = new Map<string, number>();
  const slips = new Map<string, string>();
  for (const trait of traits) {
    const text = typed.get(trait.id)?.trim() ?? '';
    if (text === '') continue;
    const value = Number(text.replace(',', '.'));
    const slip = slipOf(trait, value);
    if (slip === null) values.set(trait.id, value);
    else slips.set(trait.id, slip);
  }
  return { values, slips };
}

/** The steps of a short scale, to be tapped; `null` for anything that is typed. */
export function stepsOf(trait: BenchTrait): { value: string; label: string }[] | null {
  if (trait.kind === 'YES_NO')
    return [
      { value: '1', label: 'yes' },
      { value: '0', label: 'no' },
    ];
  const { minimum, maximum } = trait;
  if (trait.kind !== 'ORDINAL' || minimum === null || maximum === null) return null;
  if (maximum - minimum > 10) return null;
  return Array.from({ length: maximum - minimum + 1 }, (_, index) => ({
    value: String(minimum + index),
    label: String(minimum + index),
  }));
}
