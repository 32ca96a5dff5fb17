import type { MeritErrorCode, MeritNote, MeritNoteCode } from '@linewright/merit';

/** An estimate that cannot be made: an answer, and no fault. */
export interface Refusal {
  readonly code: MeritErrorCode;
  readonly message: string;
}

export interface Range {
  readonly probability: number;
  readonly low: number;
  readonly high: number;
}

export interface HeritabilityAnswer {
  readonly mean: number;
  readonly standardDeviation: number;
  readonly bands: readonly Range[];
  readonly grid: readonly { readonly heritability: number; readonly probability: number }[];
  readonly priorMean: number;
  readonly priorDeviation: number;
  readonly fromPrior: number;
}

export interface EffectAnswer {
  readonly column: string;
  readonly level: string | null;
  readonly value: number;
  readonly standardError: number | null;
}

export interface EstimateAnswer {
  readonly value: number;
  readonly standardError: number | null;
}

/** Variances by REML, beside what was integrated. */
export interface RemlAnswer {
  readonly heritability: EstimateAnswer;
  readonly terms: readonly (EstimateAnswer & { readonly name: string; readonly atEdge: boolean })[];
  readonly iterations: number;
}

export interface SharesAnswer {
  readonly heritability: number;
  readonly others: readonly { readonly name: string; readonly share: number }[];
  readonly residual: number;
}

/** Figures by fish, in the order of the task's pedigree. */
export interface ValuesAnswer {
  readonly value: readonly number[];
  readonly standardError: readonly number[];
  readonly accuracy: readonly number[];
  /** Low and high ends of the bands of 50, 80 and 95 %, six numbers a fish. */
  readonly bands: readonly number[];
}

export interface ModelAnswer {
  readonly heritability: HeritabilityAnswer;
  readonly shares: SharesAnswer;
  /** All variances at these shares together, in the square of the trait's unit; 1 on the scale of a liability. */
  readonly variance: number;
  readonly effects: readonly EffectAnswer[];
  readonly values: ValuesAnswer;
}

/** The linear model and the threshold model held against each other. */
export interface Comparison {
  /** Rank correlation of their breeding values, over the fish that were scored and their parents. */
  readonly rankCorrelation: number | null;
  readonly partWays: boolean;
  readonly notes: readonly MeritNote[];
}

export interface GenerationAnswer {
  readonly generation: number;
  readonly fish: number;
  readonly scored: number;
  readonly meanScore: number | null;
  readonly meanScoreError: number | null;
  readonly meanValue: number;
  readonly meanValueError: number;
  readonly meanInbreeding: number;
  readonly meanKinship: number;
  readonly selectionDifferential: number | null;
  readonly expectedResponse: number | null;
  readonly realisedResponse: number | null;
}

export interface TrendAnswer {
  readonly lineId: string;
  readonly generations: readonly GenerationAnswer[];
  readonly realisedHeritability: EstimateAnswer | null;
}

export type PlanKind = 'next_fish' | 'one_brood' | 'five_broods';

/** What some scores more are expected to narrow: standard deviations, now and then. */
export interface NarrowingAnswer {
  readonly plan: PlanKind;
  readonly scoresAdded: number;
  readonly heritabilityNow: number;
  readonly heritabilityThen: number;
  readonly valuesNow: number;
  readonly valuesThen: number;
}

/** A fish worth scoring next, and the mean error of values before and after it. */
export interface WorthAnswer {
  readonly fish: number;
  readonly errorBefore: number;
  readonly errorAfter: number;
}

/** What of a trait is worked out once for each state of its records; written as JSON. */
export interface MeritAnswer {
  readonly linear: ModelAnswer | null;
  readonly linearRefusal: Refusal | null;
  readonly reml: RemlAnswer | null;
  readonly remlRefusal: Refusal | null;
  /** Of yes/no and ordinal traits only. */
  readonly threshold: ModelAnswer | null;
  readonly thresholdRefusal: Refusal | null;
  readonly shown: 'linear' | 'threshold';
  readonly comparison: Comparison | null;
  readonly notes: readonly { readonly code: MeritNoteCode; readonly message: string }[];
  readonly trends: readonly TrendAnswer[];
  readonly narrowing: readonly NarrowingAnswer[];
  readonly worth: readonly WorthAnswer[];
  /** What was not gone over because there is too much of it, in sentences. */
  readonly leftOut: readonly string[];
  /** False for a stock so large that only a part of the figures could be worked out: reasons and errors together are then none. */
  readonly wholeStock: boolean;
}

export const PROBABILITIES = [0.5, 0.8, 0.95] as const;
