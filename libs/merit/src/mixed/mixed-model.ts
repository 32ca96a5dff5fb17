/** A class or covariate column of the fixed part, one value a row. */
export type FixedColumn =
  | {
      readonly kind: 'classes';
      readonly name: string;
      readonly levels: readonly string[];
      /** Position in `levels` of each row, -1 where the row has no score. */
      readonly codes: Int32Array;
    }
  | { readonly kind: 'covariate'; readonly name: string; readonly values: Float64Array };

/** Where a random effect acts: on one trait, in each row by one of its levels. */
export interface RandomSlot {
  readonly trait: number;
  /** Level of each row, -1 for none. */
  readonly level: Int32Array;
  /** What the effect is multiplied by in each row; 1 unless given. */
  readonly coefficient?: Float64Array;
}

/**
 * A random term: effects u of `levels` levels in each of its slots, with covariance G (slots x slots) times K (levels x levels).
 * Slots are the traits of an animal's breeding value, or direct and maternal values, or an intercept and a slope.
 */
export interface RandomTerm {
  readonly name: string;
  readonly levels: number;
  readonly slots: readonly RandomSlot[];
  /** K^-1, both halves; the identity when left out. */
  readonly inverse?: {
    readonly rows: Int32Array;
    readonly columns: Int32Array;
    readonly values: Float64Array;
    /** ln |K|. */
    readonly logDeterminant: number;
  };
  /**
   * Shares of genetic groups in the levels, when the last levels are groups (Quaas 1988): `shares[level * groups + group]`. The
   * columns of the fixed part come first: a group that they tell already stands at 0.
   */
  readonly groups?: {
    readonly names: readonly string[];
    readonly shares: Float64Array;
  };
}

/** A linear mixed model y = X b + Z u + e of one trait or several. */
export interface MixedModel {
  readonly rows: number;
  /** Scores by trait, `NaN` where not scored. */
  readonly traits: readonly { readonly name: string; readonly values: Float64Array }[];
  /** The same for all traits. The first column of classes stands for the mean; without one a mean is fitted. */
  readonly fixed: readonly FixedColumn[];
  /** `known` when the scores are deviations from a mean that is known: no mean is fitted, and there may be no fixed column. */
  readonly mean?: 'estimated' | 'known';
  readonly random: readonly RandomTerm[];
  /** How many times as good as a single score each row is (residual variance divided by this); 1 unless given. */
  readonly weights?: Float64Array;
}

/** Variances of a {@link MixedModel}: G of each random term in their order, and R of the residuals. */
export interface Variances {
  readonly random: readonly (readonly (readonly number[])[])[];
  readonly residual: readonly (readonly number[])[];
}
