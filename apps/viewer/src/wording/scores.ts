import { plainNumber } from './figures.js';
import type { TraitKind } from './words.js';

interface ScoredTrait {
  kind: TraitKind;
  unit: string | null;
  minimum: number | null;
  maximum: number | null;
}

/** A score with its unit, or with the top of its scale, or as yes and no. */
export function scoreText(value: number, trait: ScoredTrait): string {
  if (trait.kind === 'YES_NO') return value === 0 ? 'no' : 'yes';
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
  if (minimum !== null && maximum !== null)
    return `${plainNumber(minimum)} to ${plainNumber(maximum)}`;
  if (minimum !== null) return `from ${plainNumber(minimum)}`;
  if (maximum !== null) return `up to ${plainNumber(maximum)}`;
  return '';
}
