/** `YYYY-MM-DD` */
export type DateText = string;

export type DemoSex = 'male' | 'female' | 'unsexed' | 'uncertain';
export type DemoDisposition = 'unsorted' | 'keeper' | 'hold' | 'culled' | 'placed' | 'died';
export type DemoSpawnStage =
  | 'eggs'
  | 'hatched'
  | 'free_swimming'
  | 'two_weeks'
  | 'jarred'
  | 'sorted';
export type DemoSpawnEventKind =
  | 'conditioning'
  | 'side_by_side'
  | 'introduced'
  | 'nest'
  | 'released'
  | 'spawned'
  | 'dam_out'
  | 'eyed'
  | 'hatched'
  | 'free_swimming'
  | 'sire_out'
  | 'first_food'
  | 'moved'
  | 'jarred'
  | 'sorted'
  | 'failed';

export interface DemoPerson {
  readonly id: string;
  readonly name: string;
  /** True for the owner of this install. */
  readonly here: boolean;
}

export interface DemoLine {
  readonly id: string;
  readonly personId: string;
  readonly code: string;
  readonly name: string;
  readonly goal: string;
}

export interface DemoFish {
  readonly id: string;
  readonly personId: string;
  readonly tag: string;
  readonly name: string | null;
  readonly sex: DemoSex;
  readonly hatchDate: DateText | null;
  readonly lineId: string;
  /** The spawn it came from, which names its parents; `null` for a founder or bought fish. */
  readonly spawnId: string | null;
  readonly origin: string | null;
  /** Its unknown parents are known to be unrelated to the other fish. */
  readonly declaredUnrelated: boolean;
  readonly note: string | null;
  readonly disposition: DemoDisposition;
  readonly dispositionDate: DateText | null;
  readonly dispositionReason: string | null;
}

export interface DemoSpawn {
  readonly id: string;
  readonly personId: string;
  readonly tag: string;
  readonly lineId: string;
  readonly sireId: string;
  readonly damId: string;
  readonly pairingId: string | null;
  /** `null` while the pair is being set up. */
  readonly spawnedOn: DateText | null;
  readonly hatchDate: DateText | null;
  readonly purpose: string;
  readonly note: string | null;
  readonly failed: boolean;
  readonly failedReason: string | null;
}

export interface DemoSpawnEvent {
  readonly id: string;
  readonly spawnId: string;
  readonly kind: DemoSpawnEventKind;
  /** ISO time, UTC. */
  readonly at: string;
  readonly note: string | null;
}

/** Care that is no event of the spawn, such as a siphoning. */
export interface DemoCareRecord {
  readonly id: string;
  readonly spawnId: string;
  /** Step of the calendar. */
  readonly step: string;
  /** ISO time, UTC. */
  readonly at: string;
  readonly action: 'done' | 'skipped';
  readonly note: string | null;
}

export interface DemoSpawnCount {
  readonly id: string;
  readonly spawnId: string;
  readonly stage: DemoSpawnStage;
  readonly countedOn: DateText;
  readonly number: number;
  readonly note: string | null;
}

/** Fish lost, culled or placed before they had a record of their own. */
export interface DemoSpawnLoss {
  readonly id: string;
  readonly spawnId: string;
  readonly kind: 'died' | 'culled' | 'placed';
  readonly onDate: DateText;
  readonly number: number;
  readonly reason: string;
  readonly heritable: boolean;
  readonly locusId: string | null;
  readonly note: string | null;
}

/** How many of a brood showed one phenotype. */
export interface DemoClassCount {
  readonly id: string;
  readonly spawnId: string;
  readonly locusIds: readonly string[];
  readonly phenotype: string;
  readonly number: number;
  readonly countedOn: DateText;
  readonly note: string | null;
}

export interface DemoTraitDefinition {
  readonly id: string;
  readonly personId: string;
  readonly key: string;
  readonly name: string;
  readonly kind: 'measured' | 'ordinal' | 'yes_no' | 'count';
  readonly unit: string | null;
  readonly minimum: number | null;
  readonly maximum: number | null;
  readonly higherIsBetter: boolean | null;
  readonly fromAgeDays: number | null;
  readonly toAgeDays: number | null;
  readonly description: string;
  /** Names of grades, each from a value up to the next. */
  readonly grades: readonly { readonly from: number; readonly name: string }[] | null;
  readonly version: number;
}

export interface DemoScore {
  readonly id: string;
  readonly fishId: string;
  readonly traitId: string;
  readonly traitVersion: number;
  readonly value: number;
  readonly scoredOn: DateText;
  readonly ageDays: number;
  readonly scorer: string;
  readonly note: string | null;
  readonly correctsId: string | null;
  /** The look on a sheet that it belongs to. */
  readonly scoringId: string | null;
}

export type DemoFaultSeverity = 'slight' | 'minor' | 'major' | 'severe' | 'disqualifying';

export interface DemoSheetVersion {
  readonly version: number;
  readonly createdAt: string;
  readonly fromAgeDays: number | null;
  readonly toAgeDays: number | null;
  readonly lines: readonly {
    readonly traitId: string;
    readonly traitVersion: number;
    readonly weight: number | null;
    readonly noneAt: number | null;
    readonly fullAt: number | null;
  }[];
  readonly faults: readonly {
    readonly id: string;
    readonly name: string;
    readonly severity: DemoFaultSeverity;
  }[];
  readonly deductions: Readonly<Partial<Record<DemoFaultSeverity, number>>>;
}

export interface DemoScoreSheet {
  readonly id: string;
  readonly personId: string;
  readonly name: string;
  readonly description: string;
  readonly version: number;
  readonly versions: readonly DemoSheetVersion[];
}

/** A drawing, to be kept as a photo would be. */
export interface DemoPicture {
  readonly id: string;
  readonly subjectKind: 'fish' | 'sheet_scoring';
  readonly subjectId: string;
  readonly takenOn: DateText;
  readonly caption: string;
  readonly svg: string;
}

export interface DemoSheetScoring {
  readonly id: string;
  readonly fishId: string;
  readonly sheetId: string;
  readonly sheetVersion: number;
  readonly scoredOn: DateText;
  readonly ageDays: number;
  readonly scorer: string;
  readonly note: string | null;
  readonly faultIds: readonly string[];
}

export interface DemoGenotype {
  readonly id: string;
  readonly fishId: string;
  readonly locusId: string;
  /** As the catalogue writes it: `Bl/bl`. */
  readonly genotype: string;
  readonly basis: 'assumed' | 'parents' | 'progeny' | 'test_mating';
  readonly note: string | null;
}

/** What was seen on one fish at one locus. */
export interface DemoPhenotype {
  readonly id: string;
  readonly fishId: string;
  readonly locusId: string;
  /** Id in the catalogue. */
  readonly phenotype: string;
  readonly seenOn: DateText;
  readonly ageDays: number | null;
  readonly note: string | null;
}

/** Allele frequencies among founders of a line, and how often a look is wrong. */
export interface DemoLocusSetting {
  readonly id: string;
  readonly lineId: string | null;
  readonly locusId: string;
  readonly frequencies: Readonly<Record<string, number>>;
  readonly misScoring: number | null;
}

export interface DemoPairing {
  readonly id: string;
  readonly personId: string;
  readonly sireId: string;
  readonly damId: string;
  readonly state: 'planned' | 'spawned' | 'dropped';
  readonly plannedOn: DateText;
  readonly reason: string;
  readonly note: string | null;
}

/** A jar, tank or tub, and where it stands. */
export interface DemoVessel {
  readonly id: string;
  readonly personId: string;
  readonly code: string;
  readonly kind: 'jar' | 'tank' | 'tub' | 'other';
  readonly litres: number | null;
  readonly rack: string | null;
  readonly shelf: number | null;
  readonly position: number | null;
  readonly note: string | null;
}

/** That a fish or a spawn was in a vessel; times are ISO, UTC. */
export interface DemoVesselStay {
  readonly id: string;
  readonly vesselId: string;
  readonly fishId: string | null;
  readonly spawnId: string | null;
  readonly cameAt: string;
  readonly leftAt: string | null;
  readonly company: 'sorority' | null;
  readonly byName: string;
}

/** A look at the water of a spawn, or of a named vessel. */
export interface DemoWaterReading {
  readonly id: string;
  readonly personId: string;
  readonly spawnId: string | null;
  readonly vessel: string | null;
  /** ISO time, UTC. */
  readonly takenAt: string;
  /** mg/L in `ammoniaUnit`. */
  readonly totalAmmonia: number;
  readonly ammoniaUnit: 'N' | 'NH4';
  readonly ph: number;
  readonly celsius: number;
  readonly nitrite: number | null;
  readonly nitriteForm: 'ion' | null;
  readonly nitrate: number | null;
  readonly nitrateForm: 'ion' | null;
  readonly kit: string;
  readonly note: string | null;
}

export interface DemoTraitAim {
  readonly traitId: string;
  readonly better: 'higher';
  readonly low: number | null;
  readonly high: null;
  readonly worth: number;
}

export interface DemoLookAim {
  readonly look: { readonly show: Readonly<Record<string, string>> };
  readonly wanted: boolean;
  readonly worth: number;
  readonly required: boolean;
}

/** A version of what a line is for; what its content leaves out is as it starts. */
export interface DemoLinePurpose {
  readonly lineId: string;
  readonly version: number;
  readonly note: string | null;
  readonly byName: string;
  readonly at: string;
  readonly content: {
    readonly traits: readonly DemoTraitAim[];
    readonly looks: readonly DemoLookAim[];
    readonly ceiling: number;
    readonly kinshipRise: number;
    readonly fry: number;
  };
}

/**
 * Every record of the demo. Spawns and fish are in order of time: parents before their young, a spawn before its fish.
 */
export interface DemoScenario {
  readonly people: readonly DemoPerson[];
  readonly lines: readonly DemoLine[];
  readonly linePurposes: readonly DemoLinePurpose[];
  readonly traitDefinitions: readonly DemoTraitDefinition[];
  readonly pairings: readonly DemoPairing[];
  readonly spawns: readonly DemoSpawn[];
  readonly fish: readonly DemoFish[];
  readonly spawnEvents: readonly DemoSpawnEvent[];
  readonly careRecords: readonly DemoCareRecord[];
  readonly spawnCounts: readonly DemoSpawnCount[];
  readonly spawnLosses: readonly DemoSpawnLoss[];
  readonly classCounts: readonly DemoClassCount[];
  readonly scoreSheets: readonly DemoScoreSheet[];
  readonly sheetScorings: readonly DemoSheetScoring[];
  readonly pictures: readonly DemoPicture[];
  readonly scores: readonly DemoScore[];
  readonly genotypes: readonly DemoGenotype[];
  readonly phenotypes: readonly DemoPhenotype[];
  readonly locusSettings: readonly DemoLocusSetting[];
  readonly waterReadings: readonly DemoWaterReading[];
  readonly vessels: readonly DemoVessel[];
  readonly vesselStays: readonly DemoVesselStay[];
}
