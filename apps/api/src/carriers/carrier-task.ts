import type { CarrierEvidence, FounderBeliefs, Locus } from '@linewright/heredity';
import type { PedigreePart } from '../kinship/pedigree-part.js';

/** What is asked of the records of one locus. Everything in a task and its answer can pass between threads. */
export type Ask =
  | { readonly kind: 'all' }
  | { readonly kind: 'fish'; readonly fish: readonly string[] }
  /** `without`: records left out, such as those of a brood that is to be held against the answer. */
  | {
      readonly kind: 'pair';
      readonly sire: string;
      readonly dam: string;
      readonly without?: readonly string[];
    }
  /** The same fish with each of these records left out in turn, and with none at all. */
  | { readonly kind: 'why'; readonly fish: string; readonly records: readonly string[] }
  /** For each of these fish: that it carries the allele and none of the others does. */
  | { readonly kind: 'sole'; readonly allele: string; readonly among: readonly string[] }
  /** Their genotypes drawn together, so many times. */
  | { readonly kind: 'together'; readonly fish: readonly string[]; readonly count: number }
  | { readonly kind: 'contradiction' };

export interface CarrierTask {
  /** Names parentages, locus and founders: two tasks with the same base differ in their records alone. */
  readonly base: string;
  readonly pedigree: PedigreePart;
  readonly locus: Locus;
  readonly evidence: readonly CarrierEvidence[];
  readonly founders: FounderBeliefs;
  readonly ask: Ask;
}

/** Without the pedigree: a model that is kept ready has it, and a large one takes long to copy. */
export type PreparedTask = Omit<CarrierTask, 'pedigree'>;

/** A task as the thread is given it: one without a pedigree is answered from a model kept ready in the thread, or not at all. */
export type AskedOfThread = CarrierTask | PreparedTask;
