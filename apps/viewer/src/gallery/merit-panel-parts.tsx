import { InbreedingCostShown } from '../panels/inbreeding-cost-shown.js';
import { PassedOn, type PassedOnFigures } from '../panels/passed-on.js';
import { TraitTrendShown, type TrendTrait } from '../panels/trait-trend-shown.js';
import { longWords } from './invented-words.js';
import type { Parts } from './parts.js';

const trait: TrendTrait = { name: 'Dorsal', kind: 'MEASURED', unit: 'mm', higherIsBetter: true };

const generations = [0, 1, 2, 3].map((generation) => ({
  generation,
  fish: 12,
  scored: 10,
  meanScore: 20 + 0.3 * generation,
  meanScoreError: 0.4,
  meanValue: 0.2 * generation,
  meanValueError: 0.15,
  expectedResponse: generation === 0 ? null : 0.18,
  realisedResponse: generation === 0 ? null : 0.2,
  meanInbreeding: 0.05 * generation,
  meanKinship: 0.06 * generation,
}));

const kin = (id: string, expected: number) => ({ id, tag: `T24-07-${id}`, expected });

const passedOn: PassedOnFigures = {
  fish: kin('12', 0.8),
  trait,
  bands: [
    { probability: 0.8, low: 0.3, high: 1.3 },
    { probability: 0.95, low: 0.1, high: 1.5 },
  ],
  ownScores: 2,
  relatives: 14,
  sibs: [kin('13', 0.4), kin('14', -0.2)],
  line: [kin('20', 0), kin('21', -0.6), kin('22', 0.5)],
  reasons: [
    { ...kin('12', 0.8), relation: 'itself', scores: 2, moves: 0.5 },
    { ...kin('13', 0.4), relation: 'full sib', scores: 1, moves: 0.2 },
  ],
  others: { count: 12, moves: 0.1 },
  score: { own: 24, mean: 20, inherited: 0.3 },
  warning: longWords,
};

const cost = {
  name: 'F of the young',
  verdict: 'costs',
  perGamete: 1.1,
  low: 0.2,
  high: 2,
  smallest: 0.9,
} as const;

/** What fish pass on, whether a line moves, and what inbreeding costs. */
export const meritPanelParts: Parts = {
  PassedOn: {
    'with a warning': () => <PassedOn figures={passedOn} />,
    'alone, not scored': () => (
      <PassedOn
        figures={{
          ...passedOn,
          ownScores: 0,
          sibs: [],
          reasons: [],
          others: null,
          score: null,
          warning: null,
        }}
      />
    ),
  },
  TraitTrendShown: {
    'four generations': () => (
      <TraitTrendShown
        trait={trait}
        lineCode="T"
        generations={generations}
        realisedHeritability={{ value: 0.31, standardError: 0.08 }}
      />
    ),
    'one generation': () => (
      <TraitTrendShown
        trait={{ ...trait, name: longWords }}
        lineCode="T"
        generations={generations.slice(0, 1)}
        realisedHeritability={null}
      />
    ),
  },
  InbreedingCostShown: {
    'four broods': () => (
      <InbreedingCostShown
        figures={{
          what: 'survival from hatching to free-swimming',
          broods: [0, 0.125, 0.25, 0.375].map((inbreeding, k) => ({
            spawnId: `s${k}`,
            tag: `T24-0${k}`,
            inbreeding,
            counted: 100,
            alive: 80 - 12 * k,
          })),
          withoutInbreeding: 0.22,
          betweenBroods: 0.05,
          costs: [cost, { ...cost, name: 'F of the dam', smallest: null }],
        }}
      />
    ),
  },
};
