import {
  MainAncestors,
  ReasonList,
  TraitMeanTable,
  WarningList,
} from '../components/pair-judgement.js';
import { SeverityCounts, SeverityMark } from '../components/severity-mark.js';
import { ancestorShares, pairReasons, pairWarnings, traitMeans } from './invented-records.js';
import { emptyBox } from './invented-words.js';
import type { Parts } from './parts.js';

/** What is said of a pair. */
export const judgementParts: Parts = {
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
};
