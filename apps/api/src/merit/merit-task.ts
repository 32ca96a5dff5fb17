import type { TraitKind } from '../graphql/enums.js';
import type { TraitSettings } from './trait-settings.js';

/** A column of levels: a season, a sex, a brood, a scorer. */
export interface LevelColumn {
  readonly name: string;
  readonly levels: readonly string[];
  readonly codes: Int32Array;
}

/** A column of numbers, as differences from their mean. */
export interface NumberColumn {
  readonly name: string;
  readonly values: Float64Array;
  readonly mean: number;
}

/** A part of the model that was wished for, and whether the scores let it be fitted. */
export interface ModelPart {
  readonly part: Exclude<keyof TraitSettings, 'prior' | 'besideTraitIds'>;
  readonly wished: boolean;
  readonly fitted: boolean;
  /** Why it was left out although it was wished for. */
  readonly whyNot: string | null;
}

/** All fish of a line that stand, of which figures by generation are told. */
export interface LineMembers {
  readonly lineId: string;
  readonly fish: Int32Array;
}

/** A trait's scores with the whole pedigree, by index. Everything in it can pass between threads. */
export interface MeritTask {
  readonly trait: string;
  readonly kind: TraitKind;
  readonly prior: TraitSettings['prior'];
  readonly sire: Int32Array;
  readonly dam: Int32Array;
  readonly hidden?: Uint8Array;
  /** One row a look: its fish and its value. */
  readonly fish: Int32Array;
  readonly values: Float64Array;
  readonly fixed: readonly LevelColumn[];
  /** Days from the mean age, so that other effects are those at that age; null where age is not fitted. */
  readonly age: Float64Array | null;
  /** Own traits that were scored as numbers. */
  readonly numbers: readonly NumberColumn[];
  readonly shared: readonly LevelColumn[];
  readonly looks: boolean;
  /** Line of each founder, -1 for none; null where lines are not told apart. */
  readonly groups: { readonly names: readonly string[]; readonly groupOf: Int32Array } | null;
  readonly lines: readonly LineMembers[];
  /** Fish alive here without a score of the trait. */
  readonly unscored: Int32Array;
}
