import type { LocusId, PairExpectation, PhenotypeId } from '@linewright/heredity';
import type { InbreedingBasis } from '@linewright/pedigree';
import type { PastPairing } from './candidate.js';
import type { CloseRelationship } from './close-relationship.js';
import type { CommonAncestry } from './common-ancestors.js';
import type { InbreedingBand } from './inbreeding-bands.js';
import type { MidParent } from './mid-parent.js';
import type { PairingWarning, Reason, Severity } from './reason.js';
import type { WorthOfPair } from './worth/judged-worth.js';

/** What is expected of one wish. */
export interface WishOutcome {
  readonly label: string;
  readonly kind: 'wanted' | 'unwanted';
  /** Expected share of the brood; `null` when a genotype that matters is not known. */
  readonly share: number | null;
}

/** Phenotypes expected at one locus. */
export interface LocusShares {
  readonly locusId: LocusId;
  /** Share of the brood by phenotype id, most frequent first. */
  readonly shares: readonly { readonly phenotypeId: PhenotypeId; readonly share: number }[];
}

/** One row of the list, complete in itself. */
export interface RankedPairing {
  /** Place in the list, from 1. */
  readonly place: number;
  readonly sireId: string;
  readonly damId: string;
  readonly sireName: string;
  readonly damName: string;
  /** F of the brood: the coancestry of the two. */
  readonly inbreeding: number;
  /** Whether that F is known, or the least that it can be. */
  readonly basis: Exclude<InbreedingBasis, 'unknown'>;
  readonly band: InbreedingBand;
  readonly relationship: CloseRelationship | null;
  /** Main common ancestors by what each adds to F. */
  readonly commonAncestry: CommonAncestry;
  /** Known share of each one's ancestors over the generations looked at, on record or known to be unrelated. */
  readonly knownAncestry: { readonly sire: number; readonly dam: number };
  /** Phenotypes expected at each locus known on both sides, as shares of the brood. */
  readonly byLocus: readonly LocusShares[];
  /**
   * Phenotype classes over the loci known on both sides, with exact fractions. `expectation` is `null` when there are none,
   * or when the classes over all of them would be too many for a row (`tooManyClasses`): ask for fewer loci then.
   */
  readonly expected: PairExpectation & { readonly tooManyClasses: boolean };
  readonly wishes: readonly WishOutcome[];
  readonly traits: readonly MidParent[];
  readonly pastPairings: readonly PastPairing[];
  /** Gravest first. */
  readonly warnings: readonly PairingWarning[];
  /** The gravest severity among the warnings, or `null`. */
  readonly severity: Severity | null;
  /** Has a warning of severity `stop`. Such a pairing stays in the list with its reasons. */
  readonly discouraged: boolean;
  /** What it is worth, in a person's own points, and what that is made of. */
  readonly worth: WorthOfPair;
  readonly reasons: readonly Reason[];
}
