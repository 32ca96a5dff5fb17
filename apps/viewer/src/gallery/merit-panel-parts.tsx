import { FISH_FAMILY } from '../api/fish.js';
import {
  MERIT_REASONS,
  RANKED_FISH,
  TRAIT_TREND,
  TRAITS_TOGETHER,
  type Together,
  type FishMerit,
  type MeasureChange,
  type StageLoad,
  type Trend,
} from '../api/merit.js';
import { WhenSeen } from '../components/when-seen.js';
import { InbreedingCostShown } from '../panels/inbreeding-cost-shown.js';
import { PassedOn, PassedOnPicture } from '../panels/passed-on.js';
import { SelectedScores } from '../panels/selected-scores.js';
import { SizeChangeShown } from '../panels/size-change-shown.js';
import { TraitTrendShown, type TrendTrait } from '../panels/trait-trend-shown.js';
import { OtherTrait } from '../panels/other-trait.js';
import { TraitsTogether } from '../panels/traits-together.js';
import { TrendRead } from '../panels/trend-read.js';
import { Answering, answers, neverAnswers, refuses } from './invented-api.js';
import { longWords } from './invented-words.js';
import type { Parts } from './parts.js';
import { shareChange } from '../wording/merit-words.js';

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

const trend: Trend = {
  generations,
  realisedHeritability: 0.31,
  realisedHeritabilityError: 0.08,
  generationInterval: 190,
  selectionCaution: null,
  refusal: null,
  waiting: null,
};

const fish = { id: '12', tag: 'T24-07-12', line: { id: 'l1' } };
const merit: FishMerit = {
  trait: { id: 't1', ...trait, minimum: 0, maximum: 40, grades: [] },
  value: {
    kind: 'LINEAR',
    value: 1.6,
    accuracy: 0.6,
    bands: [
      { probability: 0.5, low: 1.1, high: 2.1 },
      { probability: 0.8, low: 0.6, high: 2.6 },
      { probability: 0.95, low: 0.1, high: 3.1 },
    ],
  },
  lineMean: 0,
  expectedYoung: { aboveLine: 0.8, giveOrTake: 0.5 },
  selectionCaution: null,
  ownLooks: 2,
  ownMean: 24,
  scoredRelatives: 14,
  amongSibs: { place: 1, of: 9 },
  inLine: { place: 2, of: 40 },
  refusal: null,
  waiting: null,
  scoresTakenInSince: null,
  whyNotTakenIn: null,
};

const reasons = answers(MERIT_REASONS, {
  meritReasons: {
    value: 1.6,
    fishCount: 15,
    restContribution: 0.2,
    reasons: [
      { fish: { id: '12', tag: 'T24-07-12' }, relationship: 1.1, looks: 2, contribution: 1 },
      { fish: { id: '13', tag: 'T24-07-13' }, relationship: 0.5, looks: 1, contribution: 0.4 },
    ],
  },
});
const ranked = answers(RANKED_FISH, {
  rankedFish: {
    totalCount: 240,
    edges: [1.6, 0.2, -1.1].map((value, k) => ({
      node: { value, fish: { id: String(12 + k), tag: `T24-07-${12 + k}` } },
    })),
  },
});

const cost: StageLoad['costs'][number] = {
  column: 'YOUNG',
  verdict: 'COSTS',
  perGamete: 1.1,
  low: 0.2,
  high: 2,
  smallestDetectable: 0.9,
};
const load: StageLoad = {
  stage: 'FREE_SWIMMING',
  broods: 4,
  survivalWithout: 0.8,
  betweenBroods: 0.05,
  costs: [cost, { ...cost, column: 'DAM', verdict: 'CANNOT_TELL_YET', smallestDetectable: null }],
  byAge: [],
  refusal: null,
  points: [0, 0.125, 0.25, 0.375].map((young, k) => ({
    spawnId: `s${k}`,
    tag: `T24-0${k}`,
    young,
    dam: 0,
    survivors: 80 - 12 * k,
    counted: 100,
  })),
};

const change: MeasureChange = {
  ...{ column: 'YOUNG', atSibMating: -0.12, low: -0.2, high: -0.04 },
  ...{ smallest: 0.1, verdict: 'LOWERS' },
};
const byAge: MeasureChange[] = [
  { ...change, column: 'RECENT', atSibMating: -0.15, low: -0.24, high: -0.05 },
  { ...change, column: 'OLD', atSibMating: 0.02, low: -0.16, high: 0.24 },
];
const noSizes = { changes: [], byAge: [], level: null, points: [], refusal: null };
const sizedBroods = [0, 0.06, 0.125, 0.25, 0.3].map((young, k) => ({
  ...{ spawnId: `s${k}`, tag: `RB-${k + 1}`, young, counted: 1 },
  size: 214 - 90 * young + 11 * ((k * 3) % 4),
}));
const sizes = {
  ...{ what: 'the number of eggs', rests: '21 broods', words: shareChange },
  ...{ shown: 'Eggs of each spawn', sizeWords: (count: number) => String(Math.round(count)) },
};
const chosen =
  'Only the best were scored here: what is said to hold in 80 of 100 cases holds less often.';

const spread = { id: 't1', name: 'Spread' };
const length = { id: 't2', name: 'Length' };

const together: Together = {
  ...{ fishScored: 64, fishWithBoth: 41, verdict: 'AGAINST_EACH_OTHER' },
  ...{ notes: [], selectionCaution: 'Fish were chosen.', refusal: null, waiting: null },
  correlations: [
    { part: 'additive', correlation: -0.46, standardError: 0.19 },
    { part: 'residual', correlation: 0.21, standardError: 0.1 },
  ],
  ofFish: [{ trait: merit.trait, aboveLine: 6.1, giveOrTake: 8.7 }],
};

/** What fish pass on, whether a line moves, and what inbreeding costs. */
export const meritPanelParts: Parts = {
  PassedOn: {
    'among the best; opens to whose scores count': () => (
      <Answering with={[reasons]}>
        <PassedOn fish={fish} merit={merit} />
      </Answering>
    ),
    'not scored itself': () => (
      <Answering with={[refuses(MERIT_REASONS, 'There is no such fish.')]}>
        <PassedOn
          fish={{ ...fish, tag: longWords }}
          merit={{ ...merit, ownLooks: 0, ownMean: null, scoredRelatives: 0 }}
        />
      </Answering>
    ),
  },
  PassedOnPicture: {
    open: () => (
      <Answering with={[ranked, neverAnswers(FISH_FAMILY)]}>
        <PassedOnPicture fish={fish} merit={merit} open />
      </Answering>
    ),
  },
  TraitTrendShown: {
    'four generations': () => <TraitTrendShown trait={trait} lineCode="T" trend={trend} />,
    'one generation': () => (
      <TraitTrendShown
        trait={{ ...trait, name: longWords }}
        lineCode="T"
        trend={{ ...trend, generations: generations.slice(0, 1), realisedHeritability: null }}
      />
    ),
  },
  TraitsTogether: {
    'against each other': () => (
      <Answering with={[answers(TRAITS_TOGETHER, { traitsTogether: together })]}>
        <TraitsTogether trait={spread} other={length} />
      </Answering>
    ),
    'a fish by both': () => (
      <Answering with={[answers(TRAITS_TOGETHER, { traitsTogether: together })]}>
        <TraitsTogether trait={spread} other={length} fish={{ id: 'f1', tag: 'T1-A-04' }} />
      </Answering>
    ),
    'cannot tell yet': () => (
      <Answering
        with={[
          answers(TRAITS_TOGETHER, {
            traitsTogether: {
              ...together,
              ...{ verdict: 'CANNOT_TELL_YET', ofFish: [], notes: [longWords] },
              correlations: [{ part: 'additive', correlation: null, standardError: null }],
            },
          }),
        ]}
      >
        <TraitsTogether trait={spread} other={{ id: 't2', name: longWords }} />
      </Answering>
    ),
    'on its way': () => (
      <Answering with={[neverAnswers(TRAITS_TOGETHER)]}>
        <TraitsTogether trait={spread} other={length} />
      </Answering>
    ),
    'not to be had': () => (
      <Answering
        with={[
          answers(TRAITS_TOGETHER, {
            traitsTogether: {
              ...together,
              ...{ verdict: null, correlations: [], ofFish: [] },
              refusal: {
                code: 'MERIT_TOO_FEW',
                message: 'Only two fish are scored.',
                remedy: 'Score more.',
              },
            },
          }),
        ]}
      >
        <TraitsTogether trait={spread} other={length} />
      </Answering>
    ),
  },
  OtherTrait: {
    'two to choose from': () => (
      <Answering with={[neverAnswers(TRAITS_TOGETHER)]}>
        <OtherTrait trait={spread} traits={[spread, length, { id: 't3', name: longWords }]} />
      </Answering>
    ),
  },
  TrendRead: {
    'on its way': () => (
      <Answering with={[neverAnswers(TRAIT_TREND)]}>
        <TrendRead trait={{ id: 't1', ...trait }} line={{ id: 'l1', code: 'T' }} />
      </Answering>
    ),
    'not to be had': () => (
      <Answering
        with={[
          answers(TRAIT_TREND, {
            traitTrend: {
              ...trend,
              generations: [],
              refusal: {
                code: 'MERIT_TOO_FEW',
                message: 'Only two fish are scored.',
                remedy: 'Score more.',
              },
            },
          }),
        ]}
      >
        <TrendRead trait={{ id: 't1', ...trait }} line={{ id: 'l1', code: 'T' }} />
      </Answering>
    ),
  },
  InbreedingCostShown: {
    'four broods': () => <InbreedingCostShown load={load} />,
    'cannot tell yet': () => (
      <InbreedingCostShown
        load={{
          ...load,
          costs: [],
          survivalWithout: null,
          refusal: {
            code: 'MERIT_NO_VARIATION',
            message: 'The young of all counted broods have the same F.',
            remedy: 'Count more broods.',
          },
        }}
      />
    ),
  },
  WhenSeen: {
    seen: () => (
      <WhenSeen>
        <p>Here it is.</p>
      </WhenSeen>
    ),
  },
  SelectedScores: {
    'one of several traits': () => (
      <SelectedScores
        of={[
          { name: 'Spread', selectionCaution: chosen },
          { name: 'Dorsal', selectionCaution: null },
        ]}
      />
    ),
    'two, folded': () => (
      <SelectedScores
        of={[
          { name: 'Spread', selectionCaution: chosen },
          { name: longWords, selectionCaution: chosen },
        ]}
      />
    ),
  },
  SizeChangeShown: {
    'a loss that can be seen': () => (
      <SizeChangeShown
        {...sizes}
        asShares
        load={{ ...noSizes, changes: [change], byAge, level: 210, points: sizedBroods }}
      />
    ),
    'cannot tell yet': () => (
      <SizeChangeShown
        {...sizes}
        load={{
          ...noSizes,
          refusal: {
            code: 'MERIT_TOO_FEW',
            message: 'Three broods were counted.',
            remedy: 'Count more broods.',
          },
        }}
      />
    ),
  },
};
