import type { CarrierEvidence, FounderBeliefs, Locus } from '@linewright/heredity';
import type { Pedigree } from '@linewright/pedigree';

/** A record that bears on genotypes at one locus, as the lib takes it and as a person reads it. */
export interface EvidenceRecord {
  readonly evidence: CarrierEvidence;
  readonly kind: 'phenotype' | 'genotype' | 'class_count';
  /** Id of the record itself; of a brood, its spawn. */
  readonly recordId: string;
  readonly fishIds: readonly string[];
  readonly spawnId: string | null;
  readonly text: string;
  /** Of a brood: fish by phenotype in the order of the locus, young with a record of their own included. */
  readonly counted?: readonly number[];
}

/** A record that is kept but not counted, and why. */
export interface SetAside {
  readonly kind: 'phenotype' | 'genotype' | 'class_count' | 'spawn_loss';
  readonly recordId: string;
  readonly fishId: string | null;
  readonly spawnId: string | null;
  readonly why: string;
}

/** All there is to know of one locus, read from one state of the records. */
export interface LocusEvidence {
  /** Names all that answers at this locus depend on, and nothing else: equal keys, equal answers, in whichever process. */
  readonly key: string;
  /** Names the same without the records: parentages, locus and founders. */
  readonly base: string;
  readonly locus: Locus;
  readonly records: readonly EvidenceRecord[];
  readonly setAside: readonly SetAside[];
  readonly founders: FounderBeliefs;
  /** What was assumed of the alleles of founders, in a few words that stand beside each figure. */
  readonly founderWords: string;
  /** What was assumed, in words. */
  readonly assumed: readonly string[];
}

export interface StockEvidence {
  /** Names the state of the records this was read from. */
  readonly state: string;
  /** Hidden parents of broods are among the fish, so that the young are full sibs here as well. */
  readonly pedigree: Pedigree;
  readonly lineOf: ReadonlyMap<string, string | null>;
  readonly tags: ReadonlyMap<string, string>;
  /** The spawn a fish comes from. */
  readonly spawnOf: ReadonlyMap<string, string | null>;
  readonly byLocus: ReadonlyMap<string, LocusEvidence>;
  /** Loci that records name but nothing is computed of. */
  readonly notComputed: readonly { locusId: string; name: string; code: string; reason: string }[];
}
