import type { EnumValues, TraitKind } from './words.js';

type MeritModelKind = EnumValues<'MeritModelKind'>;

/** In what a trait's differences are told. */
export interface MeritScale {
  readonly unit: string | null;
  /** By what a figure is multiplied before it is written. */
  readonly factor: number;
}

/** Differences in the trait's own unit, of yes and no in percent of the fish; by the threshold model in steps: two of three fish lie within one step of the mean. */
export function meritScale(
  trait: { kind: TraitKind; unit: string | null },
  model: MeritModelKind = 'LINEAR',
): MeritScale {
  if (model === 'THRESHOLD') return { unit: 'steps', factor: 1 };
  if (trait.kind === 'YES_NO') return { unit: '% of fish', factor: 100 };
  return { unit: trait.unit === '' ? null : trait.unit, factor: 1 };
}
