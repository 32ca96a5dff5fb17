import {
  MainAncestors,
  ReasonList,
  TraitMeanTable,
  WarningList,
} from '../components/pair-judgement.js';
import { LastCarrier } from '../components/last-carrier.js';
import { WorthBasis, WorthParts } from '../components/pair-worth.js';
import type { PairBasis, PairWorth } from '../api/judgement.js';
import { SeverityCounts, SeverityMark } from '../components/severity-mark.js';
import { ancestorShares, pairReasons, pairWarnings, traitMeans } from './invented-records.js';
import { emptyBox, longWords } from './invented-words.js';
import type { Parts } from './parts.js';

const worth: PairWorth = {
  points: 6.2,
  standardError: 2.1,
  likeBest: true,
  choice: 3.4,
  inbreeding: -1.3,
  raised: 30,
  looks: [
    { label: 'steel', wanted: true, required: false, share: 0.25, points: 1 },
    { label: longWords, wanted: false, required: true, share: null, points: null },
  ],
  traits: [
    {
      ...{ mean: 172.4, meanError: 3, deviation: 6, inheritedShare: 0.4, lineMean: 168 },
      ...{ lineDeviation: 7, low: 175, high: null, points: 3.1 },
      trait: { id: 't1', name: 'Spread', unit: '°', kind: 'MEASURED', minimum: 0, maximum: 360 },
    },
  ],
};
const basis: PairBasis = {
  lineId: 'l1',
  version: 2,
  inbreedingCost: 1.5,
  costBasis: 'PERSON',
  errorsTogether: true,
  keep: 4,
  fry: 60,
  survival: 0.5,
  load: 0.8,
  countedBroods: 5,
  notCounted: [],
};

/** What is said of a pair. */
const melano = {
  ...{ locusId: 'm', locusName: 'Melano black', alleleId: 'melano', name: 'melano', symbol: 'm' },
  ...{ carriers: 1.4, lastKnown: true },
};

const lastCarrier = (last: number) => (
  <LastCarrier
    alleles={[melano]}
    young={{
      fish: { id: 'f1', tag: 'T-014', sex: 'FEMALE', disposition: 'UNSORTED' },
      alleles: [{ locusId: 'm', alleleId: 'melano', chance: last, others: 0.4, last }],
    }}
  />
);

export const judgementParts: Parts = {
  LastCarrier: {
    'may be the last': () => lastCarrier(0.12),
    'is the last': () => lastCarrier(1),
    'hardly the last': () => emptyBox(lastCarrier(0.01)),
  },
  SeverityMark: {
    'each, alone and counted': () =>
      ['stop', 'caution', 'note'].map((severity) => (
        <p key={severity}>
          <SeverityMark severity={severity} /> <SeverityMark severity={severity} count={2} />
        </p>
      )),
  },
  SeverityCounts: {
    several: () => <SeverityCounts warnings={pairWarnings} />,
    none: () => <SeverityCounts warnings={[]} />,
  },
  WarningList: {
    several: () => <WarningList warnings={pairWarnings} />,
    none: () => <WarningList warnings={[]} />,
  },
  ReasonList: {
    'with single traits folded': () => <ReasonList reasons={pairReasons} />,
    none: () => <ReasonList reasons={[]} />,
  },
  MainAncestors: {
    several: () => <MainAncestors ancestors={ancestorShares} />,
    none: () => emptyBox(<MainAncestors ancestors={[]} />),
  },
  TraitMeanTable: {
    'scored, not scored, yes or no': () => <TraitMeanTable means={traitMeans} />,
    'neither scored': () => <TraitMeanTable means={[]} />,
  },
  WorthParts: {
    'a trait and two looks, one not known': () => <WorthParts worth={worth} />,
    'nothing wanted': () => <WorthParts worth={{ ...worth, looks: [], traits: [] }} />,
  },
  WorthBasis: {
    'from counted broods': () => <WorthBasis basis={basis} />,
    'from guides, and a trait that does not count': () => (
      <WorthBasis
        basis={{
          ...{ ...basis, costBasis: 'STATED_RATE', load: 0, countedBroods: 0 },
          notCounted: [{ reason: 'nothing was scored yet.', trait: { id: 't2', name: 'Dorsal' } }],
        }}
      />
    ),
  },
};
