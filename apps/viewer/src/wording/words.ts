import type { introspection_types } from '../api/graphql-env.js';

export type EnumValues<Name extends keyof introspection_types> = introspection_types[Name] extends {
  enumValues: infer Values;
}
  ? Values & string
  : never;

export type Sex = EnumValues<'Sex'>;
export type Disposition = EnumValues<'Disposition'>;
export type FishPlace = EnumValues<'FishPlace'>;
export type LinePart = EnumValues<'LinePart'>;
export type GenotypeBasis = EnumValues<'GenotypeBasis'>;
export type TraitKind = EnumValues<'TraitKind'>;
export type SpawnStage = EnumValues<'SpawnStage'>;
export type LossKind = EnumValues<'LossKind'>;
export type SpawnEventKind = EnumValues<'SpawnEventKind'>;
export type PairingState = EnumValues<'PairingState'>;
export type ImportColumnRole = EnumValues<'ImportColumnRole'>;
export type ShareOutcome = EnumValues<'ShareOutcome'>;
export type RecordKind = EnumValues<'RecordKind'>;

export const sexWord: Record<Sex, string> = {
  MALE: 'male',
  FEMALE: 'female',
  UNSEXED: 'unsexed',
  UNCERTAIN: 'uncertain',
};

/** A fish of uncertain sex may still turn out to be either, so it is offered as sire and as dam. */
export const sireSexes: Sex[] = ['MALE', 'UNCERTAIN', 'UNSEXED'];
export const damSexes: Sex[] = ['FEMALE', 'UNCERTAIN', 'UNSEXED'];

export const dispositionWord: Record<Disposition, string> = {
  UNSORTED: 'unsorted',
  KEEPER: 'keeper',
  HOLD: 'hold',
  CULLED: 'culled',
  PLACED: 'placed',
  DIED: 'died',
  ELSEWHERE: 'ancestor only',
};

export const placeWord: Record<FishPlace, string> = {
  HERE: 'here',
  PARTNER: 'with a partner',
  UNKNOWN: 'not known',
};

/** As the first word of a sentence about several. */
export const partWord: Record<LinePart, string> = {
  SCORES: 'Scores',
  PHOTOS: 'Photos',
  NOTES: 'Notes',
  WATER: 'Care and water readings',
  PLACE: 'Places of fish',
  PRICES: 'Prices',
};

/** In place of what may be on record and is not shown to whoever is signed in. */
export const NOT_SHARED = 'not shared with you';

/** Where a fish swims, in a few words; nothing of one that swims here or is gone. */
export function placeWords(fish: {
  place: FishPlace;
  swimsWith: { name: string } | null;
  notShared: readonly LinePart[];
  disposition?: Disposition;
}): string | null {
  if (fish.place === 'HERE' || fish.disposition === 'DIED' || fish.disposition === 'CULLED')
    return null;
  if (fish.swimsWith !== null) return `with ${fish.swimsWith.name}`;
  if (fish.disposition === 'ELSEWHERE') return null;
  return fish.notShared.includes('PLACE') ? `place ${NOT_SHARED}` : 'place not known';
}

export const basisWord: Record<GenotypeBasis, string> = {
  ASSUMED: 'assumed from its appearance',
  PARENTS: 'follows from parents',
  PROGENY: 'shown by its young',
  TEST_MATING: 'test mating',
  LABORATORY: 'laboratory test',
};

export const traitKindWord: Record<TraitKind, string> = {
  MEASURED: 'measured',
  ORDINAL: 'graded in steps',
  YES_NO: 'yes or no',
  COUNT: 'counted',
};

export const stageWord: Record<SpawnStage, string> = {
  EGGS: 'eggs',
  HATCHED: 'hatched',
  FREE_SWIMMING: 'free-swimming',
  TWO_WEEKS: 'two weeks',
  JARRED: 'jarred',
  SORTED: 'sorted',
};
export const stagesInOrder: SpawnStage[] = [
  'EGGS',
  'HATCHED',
  'FREE_SWIMMING',
  'TWO_WEEKS',
  'JARRED',
  'SORTED',
];

export const lossWord: Record<LossKind, string> = {
  DIED: 'died',
  CULLED: 'culled',
  PLACED: 'placed',
};

export const eventWord: Record<SpawnEventKind, string> = {
  CONDITIONING: 'conditioning begun',
  SIDE_BY_SIDE: 'side by side',
  INTRODUCED: 'introduced',
  NEST: 'nest built',
  RELEASED: 'dam released to the sire',
  SPAWNED: 'spawned',
  DAM_OUT: 'dam taken out',
  EYED: 'eyed eggs',
  HATCHED: 'hatched',
  FREE_SWIMMING: 'free-swimming',
  SIRE_OUT: 'sire taken out',
  FIRST_FOOD: 'first food',
  MOVED: 'moved',
  HELPERS: 'clean-up animals added',
  JARRED: 'jarred',
  SORTED: 'sorted',
  FINISHED: 'last fry placed',
  FAILED: 'failed',
  NOTE: 'note',
};
export const eventsInOrder = Object.keys(eventWord) as SpawnEventKind[];

export const roleWord: Record<ImportColumnRole, string> = {
  TAG: 'tag',
  SIRE: 'sire',
  DAM: 'dam',
  SEX: 'sex',
  HATCH_DATE: 'hatched',
  SPAWN: 'spawn (same one: full sibs)',
  UNRELATED: 'unknown parents are unrelated (yes/no)',
  LINE: 'line',
  NAME: 'name',
  NOTE: 'note',
  DISPOSITION: 'in use, or what became of it',
  ORIGIN: 'where it is from',
  KEEPER: 'with whom it swims',
  VESSEL: 'jar, tank or tub it is in',
  TRAIT: 'trait',
  IGNORE: 'skip',
};

export const outcomeWord: Record<ShareOutcome, string> = {
  ADDED: 'added',
  UNCHANGED: 'unchanged',
  UPDATED: 'updated',
  CONFLICT: 'changed on both sides: yours is kept',
  KEPT_LOCAL: 'yours is newer: kept',
};

export const recordWord: Record<RecordKind, string> = {
  FISH: 'fish',
  SPAWN: 'spawn',
  LINE: 'line',
  TRAIT: 'trait',
  SCORE: 'score',
  GENOTYPE: 'genotype',
  PAIRING: 'pairing',
  ROUND: 'round',
  LINE_ROUTE: 'plan of a line',
  SPAWN_EVENT: 'spawn event',
  SPAWN_COUNT: 'spawn count',
  SPAWN_LOSS: 'spawn loss',
  CLASS_COUNT: 'class count',
  PHENOTYPE: 'appearance of a fish',
  LOCUS: 'locus',
  TRAIT_MODEL: 'settings of a trait’s breeding values',
  SCORING_DRAW: 'draw for scoring',
  LOCUS_SETTING: 'setting of a locus',
  CARE_RECORD: 'care of a spawn',
  CARE_TEMPLATE: 'care plan',
  WATER_READING: 'water reading',
  SCORE_SHEET: 'score sheet',
  SHEET_SCORING: 'scores on a sheet',
  PHOTO: 'photo',
  HAND_OVER: 'hand-over',
  FISH_CLAIM: 'claim of a fish',
  FISH_DEAL: 'price',
  VESSEL: 'vessel',
  SHOW_RESULT: 'result of a show',
  COMMENT: 'comment',
};

/** "hatchDate" -> "hatch date", for history and conflicts. */
export function fieldWord(field: string): string {
  return field
    .replace(/Id$/, '')
    .replace(/_id$/, '')
    .replace(/_/g, ' ')
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase();
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function optionsOf<Value extends string>(
  words: Record<Value, string>,
): { value: Value; label: string }[] {
  return (Object.keys(words) as Value[]).map((value) => ({ value, label: words[value] }));
}
