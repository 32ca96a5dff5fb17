import type { InbreedingBasis } from '@linewright/pedigree';
/** How much weight a warning carries: worth knowing, think twice, or do not pair these two now. */
export type Severity = 'note' | 'caution' | 'stop';

/** Basis of a limit that is not built in: a person set it for the line. */
export const SAID_OF_LINE = 'set in what the line is for';

/** Severities from mild to grave. */
export const SEVERITIES: readonly Severity[] = ['note', 'caution', 'stop'];

/** Figures behind a sentence, by name, so that another language can be filled in from the code and these. */
export type Figures = Readonly<Record<string, number | string>>;

/** What a warning is about. */
export type Concern = 'sire' | 'dam' | 'pair' | 'brood';

/** Something that speaks against a pairing, or that the person should know before making it. */
export interface PairingWarning {
  /** Stable name, for translation and filters: one of {@link OwnWarningCode}, or a code of `@linewright/heredity`. */
  readonly code: string;
  readonly severity: Severity;
  readonly concerns: Concern;
  /** One or two plain sentences. */
  readonly text: string;
  readonly figures: Figures;
  /** Where the rule or figure comes from: `computed`, `common practice, no source`, and the like. */
  readonly basis: string;
  /** ISO date from which the warning no longer holds, where waiting cures it. */
  readonly passesOn?: string;
}

/** The warnings this library raises itself; those on genotypes come from `@linewright/heredity`. */
export type OwnWarningCode =
  | 'WITHDRAWN'
  | 'DEAD'
  | 'CULLED'
  | 'PARENT_ONLY'
  | 'PLACED'
  | 'WITH_PARTNER'
  | 'PLACE_UNKNOWN'
  | 'IN_QUARANTINE'
  | 'TOO_YOUNG'
  | 'YOUNG'
  | 'PAST_BEST_AGE'
  | 'OLD'
  | 'AGE_UNKNOWN'
  | 'RESTING'
  | 'SHORT_REST'
  | 'SIZE_MISMATCH'
  | 'ABOVE_CEILING'
  | 'UNKNOWN_ANCESTRY'
  | 'SAME_SPAWN'
  | 'FAILED_BEFORE'
  | 'BETWEEN_LINES';

/** What a reason speaks for. */
export type Leaning = 'for' | 'against' | 'neutral';

/** Codes of the reasons given with a row. */
export type ReasonCode =
  | 'BROOD_INBREEDING'
  | 'CLOSE_RELATIONSHIP'
  | 'COMMON_ANCESTORS'
  | 'UNRELATED'
  | 'WANTED_CLASS'
  | 'UNWANTED_CLASS'
  | 'CLASS_NOT_KNOWN'
  | 'MID_PARENT'
  | 'MID_PARENT_MISSING'
  | 'TRAIT_VERSIONS_DIFFER'
  | 'UNKNOWN_ANCESTRY'
  | 'SPAWNED_BEFORE'
  | 'WARNINGS'
  | 'CARRIES_WANTED'
  | 'LACKS_WANTED'
  | 'WANTED_NOT_KNOWN'
  | 'MEAN_COANCESTRY'
  | 'FIRST_CROSS'
  | 'RETURN_TO_LINE'
  | 'RETURN_TWICE';

/** One reason in plain words, with the figures behind it. */
export interface Reason {
  readonly code: ReasonCode;
  readonly leaning: Leaning;
  readonly text: string;
  readonly figures: Figures;
}

/**
 * `0.0625` as `6.25 %`: two decimals and a space, the form in which figures stand beside these sentences. A tiny share that
 * is not zero reads `under 0.01 %`.
 */
export function percent(share: number): string {
  if (share > 0 && share < 0.00005) return 'under 0.01 %';
  return `${(share * 100).toFixed(2)} %`;
}

/** What stands before an F that is the least it can be: something behind it is of unknown origin. */
export function leastOr(basis: InbreedingBasis): string {
  return basis === 'known' ? '' : 'at least ';
}

/** Rank of a severity, 1 (note) to 3 (stop); 0 stands for no warning. */
export function severityRank(severity: Severity | null): number {
  return severity === null ? 0 : SEVERITIES.indexOf(severity) + 1;
}

/** The gravest severity of a list, or `null` when it is empty. */
export function gravest(warnings: readonly { readonly severity: Severity }[]): Severity | null {
  let rank = 0;
  for (const { severity } of warnings) rank = Math.max(rank, severityRank(severity));
  return SEVERITIES[rank - 1] ?? null;
}
