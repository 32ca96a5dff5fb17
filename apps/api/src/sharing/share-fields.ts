import type { RecordKind } from '../history/record-kind.js';
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

export type FieldType =
  'id' | 'text' | 'date' | 'instant' | 'integer' | 'number' | 'boolean' | 'texts';

export interface SharedField {
  readonly name: string;
  readonly type: FieldType;
  readonly optional: boolean;
  readonly oneOf?: readonly string[];
  /** For an id: the group of records in the file that it points into. */
  readonly pointsTo?: ShareGroup | 'keepers';
}

export interface SharedKind {
  readonly group: ShareGroup;
  readonly kind: RecordKind;
  readonly table: string;
  readonly fields: readonly SharedField[];
  /** Fields that no two records may have alike, and the word used for the clash. */
  readonly unique: readonly string[];
}

export const shareGroups = [
  'lines',
  'traits',
  'fish',
  'pairings',
  'spawns',
  'spawnEvents',
  'spawnCounts',
  'spawnLosses',
  'classCounts',
  'scores',
  'genotypes',
] as const;
export type ShareGroup = (typeof shareGroups)[number];

const field = (type: FieldType, name: string, more: Partial<SharedField> = {}): SharedField => ({
  name,
  type,
  optional: false,
  ...more,
});
const may = (type: FieldType, name: string, more: Partial<SharedField> = {}): SharedField =>
  field(type, name, { ...more, optional: true });
const choice = (name: string, values: Readonly<Record<string, string>>): SharedField =>
  field('text', name, { oneOf: Object.values(values) });
const to = (name: string, pointsTo: ShareGroup | 'keepers'): SharedField =>
  field('id', name, { pointsTo });
const mayTo = (name: string, pointsTo: ShareGroup): SharedField => may('id', name, { pointsTo });

/** A withdrawal travels with the record, so that the partner sees it too. */
const withdrawal = [may('instant', 'withdrawnAt'), may('text', 'withdrawnReason')];

const kind = (
  group: ShareGroup,
  recordKind: RecordKind,
  table: string,
  fields: readonly SharedField[],
  unique: readonly string[] = [],
): SharedKind => ({ group, kind: recordKind, table, fields: [...fields, ...withdrawal], unique });

/** What of each record is shared, in the order in which the groups stand in the file. */
export const sharedKinds: readonly SharedKind[] = [
  kind(
    'lines',
    'line',
    'line',
    [to('keeperId', 'keepers'), field('text', 'code'), field('text', 'name'), may('text', 'goal')],
    ['keeperId', 'code'],
  ),
  kind(
    'traits',
    'trait',
    'trait_definition',
    [
      to('keeperId', 'keepers'),
      field('text', 'key'),
      field('text', 'name'),
      choice('kind', TraitKind),
      may('text', 'unit'),
      may('number', 'minimum'),
      may('number', 'maximum'),
      may('boolean', 'higherIsBetter'),
      may('integer', 'fromAgeDays'),
      may('integer', 'toAgeDays'),
      may('text', 'description'),
      field('integer', 'version'),
    ],
    ['keeperId', 'key'],
  ),
  kind(
    'fish',
    'fish',
    'fish',
    [
      to('keeperId', 'keepers'),
      field('text', 'tag'),
      may('text', 'name'),
      choice('sex', Sex),
      may('date', 'hatchDate'),
      mayTo('lineId', 'lines'),
      mayTo('spawnId', 'spawns'),
      may('text', 'origin'),
      may('text', 'note'),
      choice('disposition', Disposition),
      may('date', 'dispositionDate'),
      may('text', 'dispositionReason'),
    ],
    ['keeperId', 'tag'],
  ),
  kind('pairings', 'pairing', 'pairing', [
    to('keeperId', 'keepers'),
    to('sireId', 'fish'),
    to('damId', 'fish'),
    choice('state', PairingState),
    field('date', 'plannedOn'),
    may('text', 'reason'),
    may('text', 'note'),
  ]),
  kind(
    'spawns',
    'spawn',
    'spawn',
    [
      to('keeperId', 'keepers'),
      field('text', 'tag'),
      mayTo('lineId', 'lines'),
      mayTo('sireId', 'fish'),
      mayTo('damId', 'fish'),
      mayTo('pairingId', 'pairings'),
      may('date', 'spawnedOn'),
      may('date', 'hatchDate'),
      may('text', 'purpose'),
      may('text', 'note'),
      field('boolean', 'failed'),
      may('text', 'failedReason'),
    ],
    ['keeperId', 'tag'],
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
    field('integer', 'number'),
    may('text', 'note'),
  ]),
  kind('spawnLosses', 'spawn_loss', 'spawn_loss', [
    to('spawnId', 'spawns'),
    choice('kind', LossKind),
    field('date', 'onDate'),
    field('integer', 'number'),
    field('text', 'reason'),
    field('boolean', 'heritable'),
    may('text', 'locusId'),
    may('text', 'phenotype'),
    may('text', 'note'),
  ]),
  kind('classCounts', 'class_count', 'class_count', [
    to('spawnId', 'spawns'),
    field('texts', 'locusIds'),
    field('text', 'phenotype'),
    field('integer', 'number'),
    field('date', 'countedOn'),
    may('text', 'note'),
  ]),
  kind('scores', 'score', 'score', [
    to('fishId', 'fish'),
    to('traitId', 'traits'),
    field('integer', 'traitVersion'),
    field('number', 'value'),
    field('date', 'scoredOn'),
    may('integer', 'ageDays'),
    field('text', 'scorer'),
    may('text', 'note'),
    mayTo('correctsId', 'scores'),
  ]),
  kind(
    'genotypes',
    'genotype',
    'genotype',
    [
      to('fishId', 'fish'),
      field('text', 'locusId'),
      field('text', 'genotype'),
      choice('basis', GenotypeBasis),
      may('text', 'note'),
    ],
    ['fishId', 'locusId'],
  ),
];
