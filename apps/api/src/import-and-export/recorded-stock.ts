import type { FishOfPerson, TraitOfPerson } from '../stock/import-and-export-rows.js';

/** A fish of this person that the tables hold already, as far as an import has to know it. */
export interface RecordedFish extends Omit<FishOfPerson, 'spawnTag' | 'mixedOrigin'> {
  /** What the spawn column of an export says of it. */
  readonly spawn: string | null;
  readonly isSire: boolean;
  readonly isDam: boolean;
}

export interface RecordedSpawn {
  readonly id: string;
  readonly sireTag: string | null;
  readonly damTag: string | null;
  readonly withdrawn: boolean;
}

/** What an import is checked against. */
export interface RecordedStock {
  readonly fish: ReadonlyMap<string, RecordedFish>;
  /** Line code to id. */
  readonly lines: ReadonlyMap<string, string>;
  readonly traits: readonly TraitOfPerson[];
  /** {@link broodKey} to spawn id. */
  readonly spawns: ReadonlyMap<string, string>;
  /** Every spawn of the person by its tag. */
  readonly spawnsByTag: ReadonlyMap<string, RecordedSpawn>;
  /** Loosely spelt names of people on record to their ids. */
  readonly people: ReadonlyMap<string, string>;
  /** Plain code of each vessel in use to its id, and tags of the fish that are in it. */
  readonly vessels: ReadonlyMap<
    string,
    { readonly id: string; readonly code: string; readonly tags: readonly string[] }
  >;
  /** Whose records they are. */
  readonly personId: string;
  /** `fishId traitId` to the latest value that stands. */
  readonly standing: ReadonlyMap<string, number>;
}

/** Young of one pair, hatched on one day into one line, are one brood. */
export const broodKey = (
  sireId: string | null,
  damId: string | null,
  hatchDate: string | null,
  lineId: string | null,
): string => [sireId, damId, hatchDate, lineId].map((part) => part ?? '').join('|');
