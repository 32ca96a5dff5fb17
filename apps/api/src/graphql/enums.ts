import { registerEnumType } from '@nestjs/graphql';
import { recordKinds } from '../database/record-kind.js';
import { entryKinds } from '../database/entry-kind.js';

/** GraphQL enums: the schema's names to the left, what the tables hold to the right. */
export const Sex = {
  MALE: 'male',
  FEMALE: 'female',
  UNSEXED: 'unsexed',
  UNCERTAIN: 'uncertain',
} as const;
export type Sex = (typeof Sex)[keyof typeof Sex];
/** How far an F can be trusted. */
export const InbreedingBasis = {
  KNOWN: 'known',
  AT_LEAST: 'at-least',
  UNKNOWN: 'unknown',
} as const;
export type InbreedingBasis = (typeof InbreedingBasis)[keyof typeof InbreedingBasis];
export const AccountRole = {
  OWNER: 'owner',
  HOUSEHOLD: 'household',
  PARTNER: 'partner',
  KEEPER: 'keeper',
} as const;
export type AccountRole = (typeof AccountRole)[keyof typeof AccountRole];
export const LinePart = {
  SCORES: 'scores',
  PHOTOS: 'photos',
  NOTES: 'notes',
  WATER: 'water',
  PLACE: 'place',
  PRICES: 'prices',
} as const;
export type LinePart = (typeof LinePart)[keyof typeof LinePart];
export const GrantLevel = { LOOK: 'look', SCORE: 'score', BREED: 'breed' } as const;
export type GrantLevel = (typeof GrantLevel)[keyof typeof GrantLevel];
export const Disposition = {
  UNSORTED: 'unsorted',
  KEEPER: 'keeper',
  HOLD: 'hold',
  CULLED: 'culled',
  PLACED: 'placed',
  DIED: 'died',
  ELSEWHERE: 'elsewhere',
} as const;
export type Disposition = (typeof Disposition)[keyof typeof Disposition];
export const FishPlace = { HERE: 'here', PARTNER: 'partner', UNKNOWN: 'unknown' } as const;
export type FishPlace = (typeof FishPlace)[keyof typeof FishPlace];
export const GenotypeBasis = {
  ASSUMED: 'assumed',
  PARENTS: 'parents',
  PROGENY: 'progeny',
  TEST_MATING: 'test_mating',
  LABORATORY: 'laboratory',
} as const;
export type GenotypeBasis = (typeof GenotypeBasis)[keyof typeof GenotypeBasis];
export const TraitKind = {
  MEASURED: 'measured',
  ORDINAL: 'ordinal',
  YES_NO: 'yes_no',
  COUNT: 'count',
} as const;
export type TraitKind = (typeof TraitKind)[keyof typeof TraitKind];
export const SpawnStage = {
  EGGS: 'eggs',
  HATCHED: 'hatched',
  FREE_SWIMMING: 'free_swimming',
  TWO_WEEKS: 'two_weeks',
  JARRED: 'jarred',
  SORTED: 'sorted',
} as const;
export type SpawnStage = (typeof SpawnStage)[keyof typeof SpawnStage];
export const LossKind = { DIED: 'died', CULLED: 'culled', PLACED: 'placed' } as const;
export type LossKind = (typeof LossKind)[keyof typeof LossKind];
export const SpawnEventKind = {
  CONDITIONING: 'conditioning',
  SIDE_BY_SIDE: 'side_by_side',
  INTRODUCED: 'introduced',
  NEST: 'nest',
  RELEASED: 'released',
  SPAWNED: 'spawned',
  DAM_OUT: 'dam_out',
  EYED: 'eyed',
  HATCHED: 'hatched',
  FREE_SWIMMING: 'free_swimming',
  SIRE_OUT: 'sire_out',
  FIRST_FOOD: 'first_food',
  MOVED: 'moved',
  HELPERS: 'helpers',
  JARRED: 'jarred',
  SORTED: 'sorted',
  FINISHED: 'finished',
  FAILED: 'failed',
  NOTE: 'note',
} as const;
export type SpawnEventKind = (typeof SpawnEventKind)[keyof typeof SpawnEventKind];
export const PairingState = { PLANNED: 'planned', SPAWNED: 'spawned', DROPPED: 'dropped' } as const;
export type PairingState = (typeof PairingState)[keyof typeof PairingState];
export const SortDirection = { ASC: 'ASC', DESC: 'DESC' } as const;
export type SortDirection = (typeof SortDirection)[keyof typeof SortDirection];

const register = (
  value: Record<string, string>,
  name: string,
  description: string,
  meanings: Record<string, string>,
): void => {
  registerEnumType(value, {
    name,
    description,
    valuesMap: Object.fromEntries(
      Object.keys(value).map((key) => [
        key,
        { description: meanings[key] ?? `${key.toLowerCase().replaceAll('_', ' ')}.` },
      ]),
    ),
  });
};

register(InbreedingBasis, 'InbreedingBasis', 'How far an F can be trusted.', {
  KNOWN: 'All that is behind it is on record or declared unrelated.',
  AT_LEAST: 'Fish of unknown origin are behind it, taken as unrelated: F is this or more.',
  UNKNOWN: 'A parent itself is not known: F is not known, and counts as 0 in other figures.',
});
register(Sex, 'Sex', 'Sex as recorded; unsexed and uncertain are values, never guesses.', {
  MALE: 'Male.',
  FEMALE: 'Female.',
  UNSEXED: 'Not looked at yet.',
  UNCERTAIN: 'Looked at, and not clear.',
});
register(Disposition, 'Disposition', 'What was decided about a fish.', {
  UNSORTED: 'Not decided yet; alive.',
  KEEPER: 'Kept for breeding or showing; alive.',
  HOLD: 'Held back for a later look; alive.',
  CULLED: 'Culled, with a reason.',
  PLACED: 'Passed on to someone else.',
  DIED: 'Died.',
  ELSEWHERE: 'Ancestor only: known as a parent, lived elsewhere.',
});
register(FishPlace, 'FishPlace', 'Where a fish swims, whoever keeps its record.', {
  HERE: 'In the tanks of this install.',
  PARTNER: 'With a partner on record.',
  UNKNOWN: 'Not known: passed on to someone who is not on record, or an ancestor only.',
});
register(GenotypeBasis, 'GenotypeBasis', 'What makes a genotype believed.', {
  ASSUMED: 'Taken from its appearance or from what the seller said.',
  PARENTS: "Follows from its parents' genotypes.",
  PROGENY: 'Shown by its own young.',
  TEST_MATING: 'Shown by a mating made to test it.',
  LABORATORY: 'A laboratory test.',
});
register(TraitKind, 'TraitKind', 'How a trait is scored.', {
  MEASURED: 'A measurement with a unit.',
  ORDINAL: 'Ordered grades.',
  YES_NO: 'Yes (1) or no (0).',
  COUNT: 'A whole number.',
});
register(SpawnStage, 'SpawnStage', 'The stage at which a brood was counted.', {});
register(LossKind, 'LossKind', 'How fish left the brood.', {});
register(
  SpawnEventKind,
  'SpawnEventKind',
  'What happened, from the decision to pair to the last fry placed.',
  { FINISHED: 'The last fry was placed or has a record of its own: the spawn is closed.' },
);
register(AccountRole, 'AccountRole', 'What an account may do.', {
  OWNER: 'Everything: these are their records.',
  HOUSEHOLD: 'All records, but not the install itself: people, backups and the demo.',
  PARTNER: 'What was granted, line by line.',
  KEEPER:
    'All with lines of their own, which nobody else sees unless they say so; and what was granted.',
});
register(LinePart, 'LinePart', 'Parts of a line that are shared one by one.', {
  SCORES: 'Scores and looks on score sheets.',
  PHOTOS: 'Photos.',
  NOTES: 'Notes, reasons and captions.',
  WATER: 'Care and water readings.',
  PLACE: 'With whom a fish swims.',
  PRICES: 'What was paid, asked and got for fish.',
});
register(GrantLevel, 'GrantLevel', 'How far a partner may go with a line.', {
  LOOK: 'See it.',
  SCORE: 'See it and score its fish.',
  BREED: 'See it, score its fish, plan pairs of them and record their spawns and young.',
});
register(PairingState, 'PairingState', 'Where a planned pairing stands.', {});
register(SortDirection, 'SortDirection', 'Order of a list.', {
  ASC: 'Smallest, earliest or first letter first.',
  DESC: 'Largest, latest or last letter first.',
});
register(recordKinds, 'RecordKind', 'Kinds of records that have a history.', {});
register(
  entryKinds,
  'EntryKind',
  'What a device can enter; each is one mutation with an entryId.',
  {
    DECISION: 'What becomes of a fish.',
    SEX: 'The sex of a fish.',
    SCORES: 'Scores of a fish.',
    SHEET_LOOK: 'A look at a fish on a score sheet.',
    NEW_FISH: 'A fish that gets a record.',
    LOSS: 'Fry lost or culled without a record.',
    CLASS_COUNT: 'Young counted as a class of a locus.',
    UNDO: 'An earlier entry taken back.',
  },
);
