import type { InbreedingBasis } from '@linewright/pedigree';
import type { WantedOutcome } from '../wanted-in-partner.js';
import type { FirstCross } from './line-figures.js';

/** The figures of one possible partner for a line. */
export interface OutcrossFacts {
  readonly fishId: string;
  readonly fishName: string;
  /** Mean coancestry with the line's fish in use. */
  readonly meanCoancestry: number;
  /** The line's fish it is most closely related to. */
  readonly closest: { readonly id: string; readonly coancestry: number };
  /** F of the first cross over the line's fish of the other sex; `null` when there is none or the sex is not known. */
  readonly firstCross: FirstCross | null;
  /** Mean F of young of that cross put to the line's other fish. */
  readonly returnToLine: number | null;
  /** Mean F of a third generation: young of such a return put to yet another fish of the line. */
  readonly returnTwice: number | null;
  /** Mean F of young of that cross put back to their own line parent. */
  readonly returnToParent: number | null;
  /** Mean F of the line's own males by its own females, for comparison; `null` with one sex only. */
  readonly withinLine: number | null;
  readonly wanted: readonly WantedOutcome[];
  /** Wanted things it surely has, and those it may have. */
  readonly has: number;
  readonly mayHave: number;
  /** Known share of its ancestors over the generations looked at, on record or known to be unrelated. */
  readonly knownAncestry: number;
  /** Whether the coancestries and F told of it are known, or the least that they can be; the line's own are told apart. */
  readonly basis: Exclude<InbreedingBasis, 'unknown'>;
  readonly basisWithinLine: Exclude<InbreedingBasis, 'unknown'>;
}
