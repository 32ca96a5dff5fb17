import type { BackupState } from '../api/backup.js';
import type { CareReason, CareStep } from '../api/care.js';
import type { FISH_CHOICES, Inbreeding } from '../api/fish.js';
import type { ResultOf } from '../api/graphql.js';
import type { Cross, Fit } from '../api/heredity.js';
import type { RECORD_HISTORY } from '../api/history.js';
import type { PairReason, PairWarning, TraitMean } from '../api/judgement.js';
import type { LINE_CHOICES } from '../api/lines.js';
import type { Candidate } from '../api/pairing-candidates.js';
import type { FishPicture, Photo } from '../api/photos.js';
import type { PEOPLE } from '../api/people.js';
import type { Session } from '../api/session.js';
import { longWords } from './invented-words.js';

export const sire = { id: 'f1', tag: 'T24-07-01', sex: 'MALE' } as const;
export const dam = { id: 'f2', tag: 'T24-07-02', sex: 'FEMALE' } as const;

export const inventedSession: Session = {
  person: { id: 'k1', name: 'Owner', here: true },
  role: 'OWNER',
  looking: false,
  ofTheHouse: true,
  setUpNeeded: false,
  codeNeeded: false,
  demoOffered: true,
  demoOpen: true,
  signedIn: true,
  hasPassword: false,
  loopback: true,
};

export const inventedPeople: ResultOf<typeof PEOPLE>['people'] = [
  { id: 'k1', name: 'Owner', here: true },
];

export const lineChoices: ResultOf<typeof LINE_CHOICES>['lines'] = [
  { id: 'l1', code: 'T', name: 'Turquoise', inUseCount: 14, mayChange: true, mayBreed: true },
  { id: 'l2', code: 'RB', name: longWords, inUseCount: 0, mayChange: true, mayBreed: true },
];

export const fishChoices: ResultOf<typeof FISH_CHOICES> = {
  fishList: {
    totalCount: 1240,
    edges: [
      {
        node: {
          ...sire,
          name: null,
          disposition: 'KEEPER',
          place: 'HERE',
          notShared: [],
          swimsWith: null,
          hatchDate: null,
          line: { code: 'T' },
        },
      },
    ],
  },
};

const ancestor = { id: 'a1', tag: 'T22-01-03', sex: 'MALE', unknownParentOf: null } as const;
const known = { ...sire, unknownParentOf: null };
const knownDam = { ...dam, unknownParentOf: null };

export const anInbreeding: Inbreeding = {
  coefficient: 0.25,
  complete: true,
  pathCount: 2,
  listedCount: 2,
  explainedShare: 1,
  ancestorCount: 2,
  byAncestor: [
    { ancestor, pathCount: 1, contribution: 0.125 },
    {
      ancestor: { ...ancestor, id: 'a2', tag: 'T22-01-04', sex: 'FEMALE' },
      pathCount: null,
      contribution: 0.125,
    },
  ],
  paths: [
    {
      ancestor,
      fish: [known, ancestor, knownDam],
      sireSteps: 1,
      damSteps: 1,
      ancestorInbreeding: 0,
      ancestorBasis: 'KNOWN',
      contribution: 0.125,
    },
    {
      ancestor: { ...ancestor, id: 'a2', tag: 'T22-01-04' },
      fish: [known, { ...ancestor, id: 'a2', tag: 'T22-01-04' }, knownDam],
      sireSteps: 1,
      damSteps: 1,
      ancestorInbreeding: 0.0625,
      ancestorBasis: 'AT_LEAST',
      contribution: 0.125,
    },
  ],
};

const aClass = (phenotype: string, fraction: string, probability: number, fry: number) => ({
  phenotype,
  fraction,
  probability,
  expectedCount: 64 * probability,
  fryForOne95: fry,
  shares: [{ weight: 1, fraction }],
  genotypes: [],
  parts: [
    { locusIds: ['bl'], phenotype, hidden: false },
    { locusIds: ['spotted'], phenotype: 'spotted', hidden: false },
  ],
});

export const aCross: Cross = {
  locusIds: ['blue'],
  lostFraction: '1/4',
  assumed: ['The loci are taken as unlinked.', longWords],
  classes: [
    aClass('royal blue', '1/2', 0.5, 5),
    aClass(longWords, '1/4', 0.25, 11),
    aClass('steel blue', '1/4', 0.25, 11),
  ],
  notComputed: [{ name: 'Dragon', locusId: 'dragon', reason: 'Its inheritance is not settled.' }],
};

export const aFit: Fit = {
  method: 'chi-square',
  standardError: null,
  statistic: 1.88,
  degreesOfFreedom: 2,
  pValue: 0.391,
  pooled: [],
  verdict: 'The counts fit the expectation.',
  total: 64,
  cells: [
    { name: 'royal blue', observed: 36, expected: 32, contribution: 0.5 },
    { name: 'turquoise', observed: 13, expected: 16, contribution: 0.56 },
    { name: 'steel blue', observed: 15, expected: 16, contribution: null },
  ],
};

export const aStep: CareStep = {
  id: 'hatch',
  title: 'Look for hatching',
  kind: 'OBSERVE',
  why: 'Fry that hang from the nest are fed nothing yet.',
  basis: 'PUBLISHED',
  citation: 'an invented citation, 2001',
  conditions: 'at 27 °C',
  caution: null,
  event: true,
  everyHours: null,
  forHours: null,
  eachTime: false,
  until: [],
  onlyIf: null,
  lapseHours: null,
  after: [],
  published: [
    {
      after: 'spawned',
      from: 24,
      to: 36,
      unit: 'HOURS',
      what: 'hatched',
      conditions: 'at 27 °C, in an invented trial',
      citation: 'an invented citation, 2001',
    },
  ],
};

export const aReason: CareReason = {
  after: 'spawned',
  afterTitle: 'Spawned',
  at: '2026-03-11T08:00:00Z',
  certainty: 'RECORDED',
  dayOnly: false,
  hours: 30,
  decides: true,
  moved: 0,
};

export const pairWarnings: PairWarning[] = [
  { code: 'A', severity: 'stop', text: 'Both are male.', basis: 'the records', planning: 'REFUSE' },
  {
    code: 'B',
    severity: 'caution',
    text: longWords,
    basis: 'common practice',
    planning: 'CONFIRM',
  },
  {
    code: 'C',
    severity: 'note',
    text: 'She spawned 9 days ago.',
    basis: 'the log',
    planning: 'FREE',
  },
  { code: 'D', severity: 'note', text: 'He is old.', basis: 'his age', planning: 'FREE' },
];

export const pairReasons: PairReason[] = [
  { code: 'INBREEDING', text: 'F of the brood is 6.3 %.', figure: 0.0625 },
  { code: 'MID_PARENT', text: longWords, figure: 7 },
];

export const ancestorShares: Candidate['mainAncestors'] = [
  { ancestor, pathCount: 4, contribution: 0.0313 },
  { ancestor: { ...ancestor, id: 'a2', tag: 'T22-01-04' }, pathCount: null, contribution: 0.01 },
];

const trait = {
  id: 't1',
  name: 'Dorsal',
  unit: null,
  kind: 'ORDINAL',
  minimum: 1,
  maximum: 9,
} as const;

export const traitMeans: TraitMean[] = [
  { trait, sireValue: 7, damValue: 6, mean: 6.5 },
  { trait: { ...trait, id: 't2', name: longWords }, sireValue: 7, damValue: null, mean: null },
  {
    trait: { ...trait, id: 't3', name: 'Spoon head', kind: 'YES_NO' },
    sireValue: 1,
    damValue: 0,
    mean: 0.5,
  },
];

export const aHistory: ResultOf<typeof RECORD_HISTORY>['history'] = {
  totalCount: 2,
  pageInfo: { hasNextPage: false, endCursor: null },
  edges: [
    {
      node: {
        id: 'h2',
        recordKind: 'FISH',
        recordId: 'f1',
        revision: 2,
        action: 'corrected',
        actId: null,
        by: 'Owner',
        at: '2026-03-12T08:00:00Z',
        changes: [{ field: 'lineId', before: 'l1', after: 'l2' }],
      },
    },
    {
      node: {
        id: 'h1',
        recordKind: 'FISH',
        recordId: 'f1',
        revision: 1,
        action: 'recorded',
        actId: 'act1',
        by: 'Owner',
        at: '2026-03-11T08:00:00Z',
        changes: [],
      },
    },
  ],
};

export const aBackupState: BackupState = {
  folder: '/invented/backups',
  sameDisk: true,
  underWay: false,
  demo: false,
  failed: null,
  madeCount: 9,
  backups: [
    {
      id: 'b2',
      kind: 'DAILY',
      at: '2026-03-12T08:00:00Z',
      fileName: 'invented.backup',
      folder: '/invented/backups',
      bytes: 4_200_000,
      photosMissing: 2,
      there: true,
    },
    {
      id: 'b1',
      kind: 'ASKED',
      at: '2026-03-11T08:00:00Z',
      fileName: 'gone.backup',
      folder: '/invented/backups',
      bytes: 4_100_000,
      photosMissing: 0,
      there: false,
    },
  ],
};

const picture = (colour: string): string =>
  `data:image/svg+xml,${encodeURIComponent(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"><rect width="4" height="3" fill="${colour}"/></svg>`)}`;

const aMarkedScore: Photo['markings'][number] = {
  ...{ id: 'm1', value: 168.4, scorer: 'Owner' },
  trait: { id: 't1', name: 'Caudal spread', unit: '°' },
  marking: {
    ...{ kind: 'SPREAD', heads: 'LEFT', flat: true, scale: null, colour: null },
    points: [
      { x: 200, y: 150 },
      { x: 220, y: 40 },
      { x: 220, y: 260 },
    ],
  },
};

const aPhoto = (id: string, colour: string, caption: string | null): Photo => ({
  id,
  subjectKind: 'FISH',
  subjectId: 'f1',
  path: picture(colour),
  smallPath: picture(colour),
  takenOn: caption === null ? null : '2026-03-12',
  addedAt: '2026-03-13T08:00:00Z',
  caption,
  width: 400,
  height: 300,
  revision: 1,
  markings: caption === null ? [] : [aMarkedScore],
});

export const photos: readonly Photo[] = [
  aPhoto('p1', 'teal', longWords),
  aPhoto('p2', 'sienna', null),
];

/** A fish with a photo, and one that is drawn. */
export const inventedPictures: readonly FishPicture[] = [
  {
    fishId: 'f1',
    photo: {
      ...{ id: 'p1', tinyPath: picture('teal'), smallPath: picture('teal') },
      ...{ takenOn: '2026-03-12', caption: null },
    },
    looks: [],
  },
  {
    fishId: 'f2',
    photo: null,
    looks: [{ locusId: 'bl', phenotype: 'steel', name: 'steel blue' }],
  },
];
