import { registerEnumType } from '@nestjs/graphql';
import type { MeritNoteCode } from '@linewright/merit';
import { MeritRefusalCode } from './remedies.js';

export const MeritModelKind = { LINEAR: 'linear', THRESHOLD: 'threshold' } as const;
export type MeritModelKind = (typeof MeritModelKind)[keyof typeof MeritModelKind];

export const ScoringPlan = {
  NEXT_FISH: 'next_fish',
  ONE_BROOD: 'one_brood',
  FIVE_BROODS: 'five_broods',
} as const;
export type ScoringPlan = (typeof ScoringPlan)[keyof typeof ScoringPlan];

registerEnumType(ScoringPlan, {
  name: 'ScoringPlan',
  description: 'What might be scored next.',
  valuesMap: {
    NEXT_FISH: { description: 'The fish named as worth scoring, one look each.' },
    ONE_BROOD: { description: 'A random dozen of one new brood of parents from outside.' },
    FIVE_BROODS: { description: 'A random dozen of each of five such broods.' },
  },
});

export const MeritPart = {
  SEASON: 'season',
  AGE: 'age',
  SEX: 'sex',
  LINES_APART: 'linesApart',
  BROOD: 'brood',
  PLACE: 'place',
  LOOKS: 'looks',
  SCORER: 'scorer',
} as const;
export type MeritPart = (typeof MeritPart)[keyof typeof MeritPart];

export const MeritNoteKind: { readonly [Code in MeritNoteCode]: Code } = {
  MERIT_ONE_LEVEL: 'MERIT_ONE_LEVEL',
  MERIT_TOLD_TWICE: 'MERIT_TOLD_TWICE',
  MERIT_NO_RELATIVES: 'MERIT_NO_RELATIVES',
  MERIT_LOOKS_NOT_FITTED: 'MERIT_LOOKS_NOT_FITTED',
  MERIT_LOOKS_CONTRADICT: 'MERIT_LOOKS_CONTRADICT',
  MERIT_UNITS_MIXED: 'MERIT_UNITS_MIXED',
  MERIT_VARIANCE_ZERO: 'MERIT_VARIANCE_ZERO',
  MERIT_BY_ITERATION: 'MERIT_BY_ITERATION',
  MERIT_FROM_PART: 'MERIT_FROM_PART',
  MERIT_KEEPERS_ONLY: 'MERIT_KEEPERS_ONLY',
  MERIT_SCORED_AFTER_CULL: 'MERIT_SCORED_AFTER_CULL',
  MERIT_CULLED_FOR_TRAIT: 'MERIT_CULLED_FOR_TRAIT',
  MERIT_FEW_OF_BROOD: 'MERIT_FEW_OF_BROOD',
  MERIT_BROOD_NOT_COUNTED: 'MERIT_BROOD_NOT_COUNTED',
  MERIT_WHEN_NOT_KNOWN: 'MERIT_WHEN_NOT_KNOWN',
  MERIT_ORDERS_DIFFER: 'MERIT_ORDERS_DIFFER',
  MERIT_CORRELATION_DOUBTFUL: 'MERIT_CORRELATION_DOUBTFUL',
  MERIT_FEW_TOGETHER: 'MERIT_FEW_TOGETHER',
};

registerEnumType(MeritModelKind, {
  name: 'MeritModelKind',
  description: 'With which model breeding values were worked out.',
  valuesMap: {
    LINEAR: { description: 'Scores are taken as numbers; values are in the trait’s unit.' },
    THRESHOLD: {
      description:
        'Grades, or yes and no, stand for an unseen scale; values are in standard deviations of that scale.',
    },
  },
});

registerEnumType(MeritPart, {
  name: 'MeritPart',
  description: 'What a score is parted into, beside the breeding value and the rest.',
  valuesMap: {
    SEASON: { description: 'The quarter of the year of the look.' },
    AGE: { description: 'The age at the look.' },
    SEX: { description: 'The sex.' },
    LINES_APART: { description: 'Founders of different lines have different means.' },
    BROOD: { description: 'What a brood shares and does not inherit.' },
    PLACE: { description: 'What fish share that swim with the same person.' },
    LOOKS: { description: 'What stays with a fish from look to look and is not inherited.' },
    SCORER: { description: 'The person who scored.' },
  },
});

registerEnumType(MeritNoteKind, {
  name: 'MeritNoteKind',
  description: 'What to know of figures that are given nevertheless.',
  valuesMap: {
    MERIT_ONE_LEVEL: { description: 'A column has one level only.' },
    MERIT_TOLD_TWICE: { description: 'Columns say the same twice.' },
    MERIT_NO_RELATIVES: { description: 'No two scored fish are related on record.' },
    MERIT_LOOKS_NOT_FITTED: { description: 'Repeated looks count as breeding value.' },
    MERIT_LOOKS_CONTRADICT: { description: 'Repeated looks differ as much as different fish.' },
    MERIT_UNITS_MIXED: { description: 'Scores fall in two heaps, as if units were mixed.' },
    MERIT_VARIANCE_ZERO: { description: 'A variance was estimated as 0.' },
    MERIT_BY_ITERATION: {
      description: 'Errors are approximate: the stock is too large for exact ones.',
    },
    MERIT_FROM_PART: {
      description: 'The heritability is that of a part of the stock, which is too large for all.',
    },
    MERIT_KEEPERS_ONLY: { description: 'Broods were scored after sorting only.' },
    MERIT_SCORED_AFTER_CULL: { description: 'Some fish were scored after their brood was sorted.' },
    MERIT_CULLED_FOR_TRAIT: { description: 'Fish were culled because of this trait.' },
    MERIT_FEW_OF_BROOD: { description: 'A small part of the young was scored.' },
    MERIT_BROOD_NOT_COUNTED: { description: 'Broods were not counted.' },
    MERIT_CORRELATION_DOUBTFUL: { description: 'A correlation of two traits is doubtful.' },
    MERIT_FEW_TOGETHER: { description: 'Few fish were scored for both traits.' },
    MERIT_ORDERS_DIFFER: {
      description: 'The two models do not agree on the best fish.',
    },
    MERIT_WHEN_NOT_KNOWN: { description: 'It is not known when fish were scored.' },
  },
});

registerEnumType(MeritRefusalCode, {
  name: 'MeritRefusalCode',
  description: 'Why there is no figure.',
  valuesMap: {
    MERIT_NOT_A_NUMBER: { description: 'A score is not a number.' },
    MERIT_OUT_OF_RANGE: { description: 'Something asked for lies outside of its range.' },
    MERIT_TOO_FEW: { description: 'There are too few scores.' },
    MERIT_BAD_SHEET: { description: 'A score sheet is wrong.' },
    MERIT_LENGTH_MISMATCH: { description: 'Columns have different lengths.' },
    MERIT_NO_VARIATION: { description: 'All scores are alike.' },
    MERIT_NOT_SEPARABLE: { description: 'The scores cannot tell two parts of the model apart.' },
    MERIT_NOT_DEFINITE: { description: 'Variances do not fit together.' },
    MERIT_TOO_LARGE: { description: 'The work is too large.' },
    MERIT_NOT_CONVERGED: { description: 'The figures did not settle.' },
  },
});

export const SCORES_TAKEN_IN_SINCE =
  'While it is worked out: how many of the newest scores were taken into the values of the last solution, with its heritability; null when values are not from it.';
