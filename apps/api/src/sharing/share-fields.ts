import { z } from 'zod';
import { CareAction } from '../shapes/care.enums.js';
import type { FishDisposition } from '../stock/rows/fish.entity.js';
import { usualPlace } from '../stock/fish-place.js';
import { SHEET_VERSIONS, type SharedTableName } from '../stock/shared-rows.js';
import type { RecordKind } from '../database/record-kind.js';
import { LARGEST_AMOUNT, LARGEST_INTEGER } from '../limits/lengths.js';
import {
  Disposition,
  GenotypeBasis,
  LossKind,
  PairingState,
  Sex,
  SpawnEventKind,
  SpawnStage,
  TraitKind,
} from '../graphql/enums.js';
import { AmmoniaUnit, NitrogenForm } from '../shapes/water.enums.js';
import {
  careSteps,
  frequencies,
  grades,
  ownLocus,
  sheetVersions,
  traitsOfVersions,
} from './share-json.js';
import { type FieldType, shapes } from './share-shapes.js';

export interface SharedField {
  readonly name: string;
  /** Its name in the file and the fingerprint, which older programs know it by. */
  readonly key: string;
  /** What it may be; reading a value through it writes it in the one way of this format. */
  readonly shape: z.ZodType;
  readonly optional: boolean;
  /** Of a day or a time: it says when something happened, so it has come. */
  readonly happened: 'day' | 'time' | null;
  /** For an id: the group of records in the file that it points into. */
  readonly pointsTo?: ShareGroup | 'people';
  /** For a structure with `pointsTo`: the ids in it. */
  readonly idsIn?: (value: unknown) => string[];
  /** Version of the format that brought it; older files say nothing of it. */
  readonly since?: number;
  /** What the rest of the record says of it as long as nothing else is told: that value is no part of the fingerprint. */
  readonly usual?: (record: Readonly<Record<string, unknown>>) => unknown;
}

/** Ids of the records that a value of a field points to; none of a field that points nowhere, or that is empty. */
export const idsInField = (
  { pointsTo, idsIn }: Pick<SharedField, 'pointsTo' | 'idsIn'>,
  value: unknown,
): readonly string[] => {
  if (pointsTo === undefined || value === null) return [];
  return idsIn === undefined ? [value as string] : idsIn(value);
};

export interface SharedKind {
  readonly group: ShareGroup;
  readonly kind: RecordKind;
  /** Names of the group in the file and of the kind in the fingerprint, which older programs know them by. */
  readonly keys: { readonly group: string; readonly kind: string };
  readonly table: SharedTableName;
  readonly fields: readonly SharedField[];
  /** Fields that no two records may have alike, and the word used for the clash. */
  readonly unique: readonly string[];
  /** Version of the format that brought it. */
  readonly since: number;
  /** Fields kept in a table of their own: the SQL that reads each beside the record `t`. */
  readonly apart: Readonly<Record<string, string>>;
  /** Fields that only mean something together: changed by one and by another, the record is asked about as a whole of them. */
  readonly together: readonly (readonly string[])[];
}

export const shareGroups = [
  'lines',
  'traits',
  'scoreSheets',
  'ownLoci',
  'locusSettings',
  'fish',
  'pairings',
  'spawns',
  'spawnEvents',
  'spawnCounts',
  'spawnLosses',
  'classCounts',
  'sheetScorings',
  'scores',
  'genotypes',
  'phenotypes',
  'careRecords',
  'waterReadings',
  'photos',
  'carePlans',
  'handOvers',
  'fishClaims',
  'fishDeals',
  'showResults',
] as const;
export type ShareGroup = (typeof shareGroups)[number];

const happened: Partial<Record<string, 'day' | 'time'>> = { date: 'day', instant: 'time' };

/** A field is of a type of the list, or of a shape of its own. */
const field = (
  type: FieldType | z.ZodType,
  name: string,
  more: Partial<SharedField> = {},
): SharedField => ({
  name,
  key: name,
  shape: typeof type === 'string' ? shapes[type] : type,
  optional: false,
  happened: typeof type === 'string' ? (happened[type] ?? null) : null,
  ...more,
});
const may = (
  type: FieldType | z.ZodType,
  name: string,
  more: Partial<SharedField> = {},
): SharedField => field(type, name, { ...more, optional: true });
const choice = (name: string, values: Readonly<Record<string, string>>): SharedField =>
  field(z.enum(values), name);
const to = (name: string, pointsTo: ShareGroup | 'people'): SharedField =>
  field('id', name, { pointsTo });
/** Whose record it is. */
const ofPerson = field('id', 'personId', { pointsTo: 'people', key: 'keeperId' });
const mayTo = (name: string, pointsTo: ShareGroup): SharedField => may('id', name, { pointsTo });

/** A withdrawal travels with the record, so that the partner sees it too. */
const withdrawal = [may('instant', 'withdrawnAt'), may('sentence', 'withdrawnReason')];

const fieldsTogether: Partial<Record<ShareGroup, readonly (readonly string[])[]>> = {
  traits: [
    [
      ...['key', 'name', 'kind', 'unit', 'minimum', 'maximum', 'higherIsBetter', 'fromAgeDays'],
      ...['toAgeDays', 'description', 'version', 'grades'],
    ],
  ],
  scoreSheets: [['name', 'description', 'version', 'versions']],
  ownLoci: [['locusId', 'definition']],
  // Of what means something together, what may be lent apart from the rest is a part of its own.
  fish: [['disposition', 'dispositionDate']],
  pairings: [['sireId', 'damId']],
  spawns: [['sireId', 'damId']],
  spawnEvents: [['kind', 'at']],
  spawnCounts: [['stage', 'countedOn', 'number']],
  spawnLosses: [['kind', 'onDate', 'number', 'reason', 'heritable', 'locusId', 'phenotype']],
  classCounts: [['locusIds', 'phenotype', 'number', 'countedOn']],
  sheetScorings: [['sheetId', 'sheetVersion', 'scoredOn', 'ageDays', 'faultIds']],
  scores: [['traitId', 'traitVersion', 'value', 'scoredOn', 'ageDays']],
  genotypes: [['locusId', 'genotype', 'basis']],
  phenotypes: [['locusId', 'phenotype', 'seenOn', 'ageDays']],
  careRecords: [['step', 'at', 'action']],
  waterReadings: [
    ['totalAmmonia', 'ammoniaUnit'],
    ['nitrite', 'nitriteForm'],
    ['nitrate', 'nitrateForm'],
  ],
  photos: [
    [
      ...['subjectKind', 'subjectId', 'fishId', 'spawnId'],
      ...['mediaType', 'bytes', 'width', 'height', 'sha256'],
    ],
  ],
  carePlans: [['name', 'steps']],
  // What the receiver says, and what the giver says.
  handOvers: [
    ['answer', 'answeredOn', 'answerWord', 'quarantineUntil', 'newTag'],
    ['movedOn', 'turn'],
    ['returnAs', 'returnSaidOn', 'returnWord'],
    ['endedAs', 'endedOn'],
  ],
  fishClaims: [['answer', 'answeredOn', 'answerWord']],
  showResults: [['show', 'onDate', 'class', 'placing', 'points']],
  fishDeals: [['kind', 'onDate', 'amount', 'currency']],
};

const kind = (
  group: ShareGroup,
  recordKind: RecordKind,
  table: SharedTableName,
  fields: readonly SharedField[],
  unique: readonly string[] = [],
  more: Partial<Pick<SharedKind, 'since' | 'apart' | 'keys'>> = {},
): SharedKind => ({
  together: [...(fieldsTogether[group] ?? []), withdrawal.map(({ name }) => name)],
  group,
  kind: recordKind,
  keys: { group, kind: recordKind },
  table,
  fields: [...fields, ...withdrawal],
  unique,
  since: 1,
  apart: {},
  ...more,
});

/** Brought by version 2 of the format, and by version 5. */
const second = { since: 2 };
const fifth = { since: 5 };
/** Later than version 5, and no version of its own: programs that do not know it leave it out, and files without it say nothing of it. */
const afterFifth = { since: 6 };

/** What of each record is shared, in the order in which the groups stand in the file. */
export const sharedKinds: readonly SharedKind[] = [
  kind(
    'lines',
    'line',
    'line',
    [ofPerson, field('word', 'code'), field('name', 'name'), may('sentence', 'goal')],
    ['personId', 'code'],
  ),
  kind(
    'traits',
    'trait',
    'trait_definition',
    [
      ofPerson,
      field('word', 'key'),
      field('name', 'name'),
      choice('kind', TraitKind),
      may('word', 'unit'),
      may('number', 'minimum'),
      may('number', 'maximum'),
      may('boolean', 'higherIsBetter'),
      may('integer', 'fromAgeDays'),
      may('integer', 'toAgeDays'),
      may('text', 'description'),
      field('integer', 'version'),
      may(grades, 'grades', second),
    ],
    ['personId', 'key'],
  ),
  kind(
    'scoreSheets',
    'score_sheet',
    'score_sheet',
    [
      ofPerson,
      field('name', 'name'),
      may('text', 'description'),
      field('integer', 'version'),
      field(sheetVersions, 'versions', { pointsTo: 'traits', idsIn: traitsOfVersions }),
    ],
    [],
    { ...second, apart: { versions: SHEET_VERSIONS } },
  ),
  kind(
    'ownLoci',
    'locus',
    'own_locus',
    [ofPerson, field('word', 'locusId'), field(ownLocus, 'definition')],
    ['locusId'],
    second,
  ),
  kind(
    'locusSettings',
    'locus_setting',
    'locus_setting',
    [
      to('lineId', 'lines'),
      field('word', 'locusId'),
      may(frequencies, 'frequencies'),
      may('number', 'misScoring'),
    ],
    ['lineId', 'locusId'],
    second,
  ),
  kind(
    'fish',
    'fish',
    'fish',
    [
      ofPerson,
      field('word', 'tag'),
      may('name', 'name'),
      choice('sex', Sex),
      may('date', 'hatchDate'),
      mayTo('lineId', 'lines'),
      mayTo('spawnId', 'spawns'),
      may('sentence', 'origin'),
      may('boolean', 'declaredUnrelated'),
      may('text', 'note'),
      choice('disposition', Disposition),
      may('date', 'dispositionDate'),
      may('sentence', 'dispositionReason'),
      may('id', 'swimsWithId', {
        pointsTo: 'people',
        since: 3,
        usual: ({ personId, disposition }) =>
          usualPlace(personId as string, disposition as FishDisposition),
      }),
    ],
    ['personId', 'tag'],
  ),
  kind('pairings', 'pairing', 'pairing', [
    ofPerson,
    to('sireId', 'fish'),
    to('damId', 'fish'),
    choice('state', PairingState),
    field('date', 'plannedOn', { happened: null }),
    may('sentence', 'reason'),
    may('text', 'note'),
  ]),
  kind(
    'spawns',
    'spawn',
    'spawn',
    [
      ofPerson,
      field('word', 'tag'),
      mayTo('lineId', 'lines'),
      mayTo('sireId', 'fish'),
      mayTo('damId', 'fish'),
      mayTo('pairingId', 'pairings'),
      may('date', 'spawnedOn'),
      may('date', 'hatchDate'),
      may('sentence', 'purpose'),
      may('text', 'note'),
      may('boolean', 'mixedOrigin'),
      field('boolean', 'failed'),
      may('sentence', 'failedReason'),
    ],
    ['personId', 'tag'],
  ),
  kind('spawnEvents', 'spawn_event', 'spawn_event', [
    to('spawnId', 'spawns'),
    choice('kind', SpawnEventKind),
    field('instant', 'at'),
    may('text', 'note'),
  ]),
  kind('spawnCounts', 'spawn_count', 'spawn_count', [
    to('spawnId', 'spawns'),
    choice('stage', SpawnStage),
    field('date', 'countedOn'),
    field('count', 'number'),
    may('text', 'note'),
  ]),
  kind('spawnLosses', 'spawn_loss', 'spawn_loss', [
    to('spawnId', 'spawns'),
    choice('kind', LossKind),
    field('date', 'onDate'),
    field('count', 'number'),
    field('sentence', 'reason'),
    field('boolean', 'heritable'),
    may('word', 'locusId'),
    may('sentence', 'phenotype'),
    may('text', 'note'),
  ]),
  kind('classCounts', 'class_count', 'class_count', [
    to('spawnId', 'spawns'),
    field('words', 'locusIds'),
    field('sentence', 'phenotype'),
    field('count', 'number'),
    field('date', 'countedOn'),
    may('text', 'note'),
  ]),
  kind(
    'sheetScorings',
    'sheet_scoring',
    'sheet_scoring',
    [
      to('fishId', 'fish'),
      to('sheetId', 'scoreSheets'),
      field('integer', 'sheetVersion'),
      field('date', 'scoredOn'),
      may('integer', 'ageDays'),
      field('name', 'scorer'),
      may('text', 'note'),
      field('words', 'faultIds'),
    ],
    [],
    second,
  ),
  kind('scores', 'score', 'score', [
    to('fishId', 'fish'),
    to('traitId', 'traits'),
    field('integer', 'traitVersion'),
    field('number', 'value'),
    field('date', 'scoredOn'),
    may('integer', 'ageDays'),
    field('name', 'scorer'),
    may('text', 'note'),
    mayTo('correctsId', 'scores'),
    may('id', 'scoringId', { pointsTo: 'sheetScorings', ...second }),
  ]),
  kind(
    'genotypes',
    'genotype',
    'genotype',
    [
      to('fishId', 'fish'),
      field('word', 'locusId'),
      field('word', 'genotype'),
      choice('basis', GenotypeBasis),
      may('text', 'note'),
    ],
    ['fishId', 'locusId'],
  ),
  kind(
    'phenotypes',
    'phenotype',
    'phenotype',
    [
      to('fishId', 'fish'),
      field('word', 'locusId'),
      field('sentence', 'phenotype'),
      field('date', 'seenOn'),
      may('integer', 'ageDays'),
      may('text', 'note'),
    ],
    [],
    second,
  ),
  kind(
    'careRecords',
    'care_record',
    'care_record',
    [
      to('spawnId', 'spawns'),
      field('word', 'step'),
      field('instant', 'at'),
      choice('action', CareAction),
      may('text', 'note'),
    ],
    [],
    { ...second, keys: { group: 'careEntries', kind: 'care_entry' } },
  ),
  kind(
    'waterReadings',
    'water_reading',
    'water_reading',
    [
      ofPerson,
      to('spawnId', 'spawns'),
      may('word', 'vessel'),
      field('instant', 'takenAt'),
      may('number', 'totalAmmonia'),
      may(z.enum(AmmoniaUnit), 'ammoniaUnit'),
      may('number', 'ph'),
      may('number', 'celsius'),
      may('number', 'nitrite'),
      may(z.enum(NitrogenForm), 'nitriteForm'),
      may('number', 'nitrate'),
      may(z.enum(NitrogenForm), 'nitrateForm'),
      may('sentence', 'kit'),
      may('text', 'note'),
    ],
    [],
    second,
  ),
  kind(
    'photos',
    'photo',
    'photo',
    [
      field(z.enum(['fish', 'spawn', 'spawn_event', 'sheet_scoring']), 'subjectKind'),
      field('id', 'subjectId'),
      mayTo('fishId', 'fish'),
      mayTo('spawnId', 'spawns'),
      may('date', 'takenOn'),
      may('sentence', 'caption'),
      field(z.enum(['image/jpeg', 'image/png', 'image/webp']), 'mediaType'),
      field('count', 'bytes'),
      field('count', 'width'),
      field('count', 'height'),
      field(z.string().regex(/^[\da-f]{64}$/, 'it is not the hash of a picture'), 'sha256'),
    ],
    [],
    fifth,
  ),
  kind(
    'carePlans',
    'care_template',
    'care_template',
    [ofPerson, to('lineId', 'lines'), field('name', 'name'), field(careSteps, 'steps')],
    ['personId', 'lineId'],
    fifth,
  ),
  kind(
    'handOvers',
    'hand_over',
    'hand_over',
    [
      field('id', 'groupId'),
      to('fishId', 'fish'),
      to('fromId', 'people'),
      may('id', 'toId', { pointsTo: 'people' }),
      field('name', 'toName'),
      field(z.enum(['gift', 'sale', 'loan']), 'kind'),
      field('date', 'offeredOn'),
      may('date', 'backOn', { happened: null }),
      may('text', 'word'),
      may('text', 'healthNote'),
      field('boolean', 'laterSpawns'),
      field('boolean', 'scores'),
      field('boolean', 'photos'),
      field('boolean', 'notes'),
      field('word', 'tag'),
      choice('sex', Sex),
      may('date', 'hatchDate'),
      may('word', 'lineCode'),
      may(z.enum(['accepted', 'declined']), 'answer'),
      may('date', 'answeredOn'),
      may('text', 'answerWord'),
      may('date', 'quarantineUntil', { happened: null }),
      may('word', 'newTag'),
      may('date', 'movedOn'),
      may('integer', 'turn'),
      may(z.enum(['came_back', 'died']), 'returnAs'),
      may('date', 'returnSaidOn'),
      may('text', 'returnWord'),
      may(z.enum(['came_back', 'died', 'kept', 'handed_on']), 'endedAs'),
      may('date', 'endedOn'),
    ],
    [],
    afterFifth,
  ),
  kind(
    'fishClaims',
    'fish_claim',
    'fish_claim',
    [
      to('fishId', 'fish'),
      field('word', 'tag'),
      mayTo('asFishId', 'fish'),
      may('word', 'asTag'),
      to('byId', 'people'),
      to('toId', 'people'),
      may('text', 'word'),
      field('date', 'claimedOn'),
      may(z.enum(['confirmed', 'declined']), 'answer'),
      may('date', 'answeredOn'),
      may('text', 'answerWord'),
    ],
    [],
    afterFifth,
  ),
  kind(
    'fishDeals',
    'fish_deal',
    'fish_deal',
    [
      to('fishId', 'fish'),
      ofPerson,
      field(z.enum(['bought', 'asked', 'sold', 'given', 'swapped']), 'kind'),
      field('date', 'onDate'),
      may(z.int().min(0).max(LARGEST_AMOUNT), 'amount'),
      may(z.string().regex(/^[A-Z]{3}$/, 'it is not a code of a currency'), 'currency'),
      may('name', 'withWhom'),
      may('text', 'note'),
    ],
    [],
    afterFifth,
  ),
  kind(
    'showResults',
    'show_result',
    'show_result',
    [
      to('fishId', 'fish'),
      field('name', 'show'),
      field('date', 'onDate'),
      field('name', 'class'),
      may(z.int().min(1).max(LARGEST_INTEGER), 'placing'),
      may('number', 'points'),
      may('text', 'note'),
    ],
    [],
    afterFifth,
  ),
];

/** The kind of a group's records. */
export const kindOfGroup = (group: ShareGroup): SharedKind =>
  sharedKinds.find((kind) => kind.group === group)!;

/** The table of what a field points to. */
export const tableOf = (group: ShareGroup | 'people'): SharedTableName | 'person' =>
  group === 'people' ? 'person' : kindOfGroup(group).table;
