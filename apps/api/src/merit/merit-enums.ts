import { registerEnumType } from '@nestjs/graphql';
import type { MeritNoteCode } from '@linewright/merit';
import { MeritRefusalCode } from './remedies.js';
import { SelectionWarning } from './selection.js';

export const MeritModelKind = { LINEAR: 'linear', THRESHOLD: 'threshold' } as const;
export type MeritModelKind = (typeof MeritModelKind)[keyof typeof MeritModelKind];

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
};

registerEnumType(MeritModelKind, {
  name: 'MeritModelKind',
  description: 'With which model breeding values were worked out.',
  valuesMap: {
    LINEAR: { description: 'Scores are taken as numbers; values are in the trait’s unit.' },
    THRESHOLD: {
      description:
        'Grades, or yes and no, stand for an unseen scale; values are in standard deviations of what is not explained on that scale.',
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
  description: 'What to know of figures that stand all the same.',
});

registerEnumType(MeritRefusalCode, {
  name: 'MeritRefusalCode',
  description: 'Why there is no figure.',
});

registerEnumType(SelectionWarning, {
  name: 'SelectionWarning',
  description: 'How the scores were selected.',
  valuesMap: {
    KEEPERS_ONLY: { description: 'Every fish was scored after its brood was sorted.' },
    PARTLY_KEEPERS: { description: 'Some fish were scored after their brood was sorted.' },
  },
});
