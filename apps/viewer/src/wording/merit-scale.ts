import type { TraitKind } from './words.js';

/** In what a trait's differences are told. */
export interface MeritScale {
  readonly unit: string | null;
  /** By what a figure is multiplied before it is written. */
  readonly factor: number;
}

/** Differences in the trait's own unit; of yes and no in percent of the fish that show it. */
export const meritScale = (trait: { kind: TraitKind; unit: string | null }): MeritScale =>
  trait.kind === 'YES_NO'
    ? { unit: '% of fish', factor: 100 }
    : { unit: trait.unit === '' ? null : trait.unit, factor: 1 };
