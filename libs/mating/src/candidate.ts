import type { Sex } from '@linewright/pedigree';
import type { GenotypeSet, WarningTrait } from '@linewright/heredity';

/** One dated score of one trait. A corrected score is left out by the caller: only what stands is passed. */
export interface TraitScore {
  readonly traitId: string;
  readonly value: number;
  /** ISO date. */
  readonly scoredOn: string;
  /** Age of the fish when scored, days. */
  readonly ageDays?: number;
  /** Version of the trait's definition; scores of different versions are not averaged. */
  readonly traitVersion?: number;
}

/** A breeding value and its standard error. */
export interface BreedingValue {
  readonly value: number;
  readonly standardError: number;
}

/** What is on record about whether a fish is there to be paired. */
export interface FishStanding {
  /** `parent-only`: never here, on record as somebody's parent. */
  readonly state: 'alive' | 'died' | 'culled' | 'placed' | 'parent-only';
  /** ISO date of that decision. */
  readonly on?: string;
  /** Why, in the person's words. */
  readonly reason?: string;
  /** With whom it swims when that is not here: a name, or `null` when nobody wrote it down. */
  readonly swimsWith?: string | null;
  /** ISO date on which it is to be back, when it is there on loan. */
  readonly lentUntil?: string;
  /** ISO date of its last day in quarantine, when it was set apart since it came. */
  readonly quarantineUntil?: string;
  /** Set when its record was withdrawn: why. */
  readonly withdrawn?: string;
}

/** A fish that may be paired, with what is known of it. */
export interface PairingCandidate {
  /** Its id in the pedigree. */
  readonly id: string;
  /** What people call it; the id stands in when absent. */
  readonly tag?: string;
  readonly sex: Sex;
  /** Whether it is there to be paired; alive and here when left out. */
  readonly standing?: FishStanding;
  /** ISO date. */
  readonly hatchedOn?: string;
  /** ISO date of its latest spawn. */
  readonly lastSpawnedOn?: string;
  /** The spawn it came from. */
  readonly spawnId?: string;
  /** The line it belongs to; left out for a fish of none. */
  readonly line?: { readonly id: string; readonly name: string };
  /** Body length without fins, mm. */
  readonly bodyLength?: number;
  /** What is known of its genotypes; partly known ones (`C/-`) may stand here too. */
  readonly genotypes?: GenotypeSet;
  /**
   * What it may carry, by chances worked out from all records, where they were: wishes and worth go by them, and by `genotypes` at other
   * loci.
   */
  readonly carries?: GenotypeSet;
  /** Its breeding values by trait, in the trait's unit. */
  readonly values?: Readonly<Record<string, BreedingValue>>;
  /** What is seen on it and bears on warnings: `rosetail`, `marble` and the like. */
  readonly traits?: readonly WarningTrait[];
  /** In any order. */
  readonly scores?: readonly TraitScore[];
}

/** What came of two fish being paired before. */
export interface PastPairing {
  readonly sireId: string;
  readonly damId: string;
  /** ISO date. */
  readonly on?: string;
  readonly outcome: 'spawned' | 'failed';
  /** Why it failed, in the person's words. */
  readonly reason?: string;
}

/** A trait whose scores are shown, and which way is better. */
export interface TraitWish {
  readonly traitId: string;
  /** What people call it; the id stands in when absent. */
  readonly name?: string;
  readonly unit?: string;
  /** `true` for a trait scored as yes (1) or no (0): its mean is put in words. */
  readonly yesNo?: boolean;
  /** `false` when a low value is wanted. */
  readonly higherIsBetter?: boolean;
}

/** Whether both belong to one line, to two, or whether that cannot be said because one belongs to none. */
export function linesOf(
  a: PairingCandidate,
  b: PairingCandidate,
): 'same' | 'different' | 'unknown' {
  if (a.line === undefined || b.line === undefined) return 'unknown';
  return a.line.id === b.line.id ? 'same' : 'different';
}

/** The name shown for a fish. */
export function nameOf(fish: PairingCandidate): string {
  return fish.tag ?? fish.id;
}
