import type { Locus } from '@linewright/heredity';
import type { Pedigree } from '@linewright/pedigree';
import type { PairingCandidate, PastPairing, TraitWish } from './candidate.js';
import type { ClassWish } from './class-wishes.js';
import type { Severity } from './reason.js';
import type { PairingSettingsInput } from './settings.js';
import type { WorthBasis } from './worth/judged-worth.js';

/** Everything the judging of pairings needs to know. */
export interface PairingInput {
  /** Must hold every candidate with its ancestors. */
  readonly pedigree: Pedigree;
  /** F of every fish of the pedigree, in index order, where it is known already; worked out when it is needed otherwise. */
  readonly inbreeding?: Float64Array;
  /** Fish in use. Males are put to females; fish of unknown sex are named as left out. */
  readonly candidates: readonly PairingCandidate[];
  /** The day of judging, ISO date. */
  readonly asOf: string;
  readonly pastPairings?: readonly PastPairing[];
  /** Traits whose scores are shown. */
  readonly traits?: readonly TraitWish[];
  readonly wanted?: readonly ClassWish[];
  readonly unwanted?: readonly ClassWish[];
  /** The person's own loci, added to the catalogue. */
  readonly loci?: readonly Locus[];
  readonly settings?: PairingSettingsInput;
  /** Of single lines, by id, in place of `settings`: a fish is judged by those of its own line, a pair of two lines by the stricter of both. */
  readonly settingsOfLines?: Readonly<Record<string, PairingSettingsInput>>;
  /** What young are worth and what is known of their traits; without it every pair is worth the same. */
  readonly worth?: WorthBasis;
  /** Ids of fish whose unknown parents are known to be unrelated to all others. */
  readonly unrelatedOrigin?: readonly string[];
  /** Names of other fish by id, for the ancestors in the reasons; the id stands in where none is given. */
  readonly names?: ReadonlyMap<string, string>;
}

/** Which pairings to list. What is not named does not filter. */
export interface PairingFilter {
  readonly sireIds?: readonly string[];
  readonly damIds?: readonly string[];
  /** Only pairs of which both belong to the same line. */
  readonly withinLine?: boolean;
  /** Highest F of the brood, included. */
  readonly maximumInbreeding?: number;
  /** Each of these classes must be expected; a pairing for which it is not known is left out. */
  readonly mustGive?: readonly ClassWish[];
  /** None of these classes may be expected; a pairing for which it is not known stays, and says so. */
  readonly mustNotGive?: readonly ClassWish[];
  /** Leaves out pairings with a warning of this severity or a graver one. */
  readonly leaveOutFrom?: Severity;
  /** Leaves out pairings with any of these warnings. */
  readonly leaveOutWarnings?: readonly string[];
}

/** What to sort by; the direction defaults to the useful one. Ties go by F, then by the names of sire and dam, then by their ids. */
export type PairingOrder = {
  /** Pairs of one line before all others, whatever else is sorted by. */
  readonly withinLineFirst?: boolean;
} &
  /** Highest worth first; pairs with a stop behind all others. */
  (
    | { readonly by: 'worth'; readonly reversed?: boolean }
    /** Lowest F first. */
    | { readonly by: 'inbreeding'; readonly reversed?: boolean }
    /** By the sire's or the dam's name. */
    | { readonly by: 'sire' | 'dam'; readonly reversed?: boolean }
  );
