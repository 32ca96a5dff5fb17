import { registerEnumType } from '@nestjs/graphql';

export const CareStepKind = {
  PREPARE: 'prepare',
  DO: 'do',
  OBSERVE: 'observe',
  FEED: 'feed',
} as const;
export type CareStepKind = (typeof CareStepKind)[keyof typeof CareStepKind];
registerEnumType(CareStepKind, {
  name: 'CareStepKind',
  description: 'What a step of care asks for.',
  valuesMap: {
    PREPARE: { description: 'Get something ready.' },
    DO: { description: 'Do something to the tank or the fish.' },
    OBSERVE: { description: 'Look, and record what is seen.' },
    FEED: { description: 'Feed.' },
  },
});

export const CareBasisKind = { PRACTICE: 'practice', PUBLISHED: 'published', OWN: 'own' } as const;
export type CareBasisKind = (typeof CareBasisKind)[keyof typeof CareBasisKind];
registerEnumType(CareBasisKind, {
  name: 'CareBasisKind',
  description: 'Where a step of care comes from.',
  valuesMap: {
    PRACTICE: { description: 'Common practice, with no published source.' },
    PUBLISHED: { description: 'A publication, with its conditions.' },
    OWN: { description: "The person's own." },
  },
});

export const CareState = {
  DONE: 'done',
  SKIPPED: 'skipped',
  DUE: 'due',
  OVERDUE: 'overdue',
  UPCOMING: 'upcoming',
  NO_LONGER: 'no-longer',
} as const;
export type CareState = (typeof CareState)[keyof typeof CareState];
registerEnumType(CareState, {
  name: 'CareState',
  description: 'Where a step of care stands.',
  valuesMap: {
    DONE: { description: 'Recorded.' },
    SKIPPED: { description: 'Skipped, with a reason.' },
    DUE: { description: 'Its window is open.' },
    OVERDUE: { description: 'Its window has closed and it was not recorded.' },
    UPCOMING: { description: 'Its window has not come yet, or what it follows has not happened.' },
    NO_LONGER: { description: 'Not called for any more.' },
  },
});

export const AnchorCertainty = {
  RECORDED: 'recorded',
  ESTIMATED: 'estimated',
  EXPECTED: 'expected',
} as const;
export type AnchorCertainty = (typeof AnchorCertainty)[keyof typeof AnchorCertainty];
registerEnumType(AnchorCertainty, {
  name: 'AnchorCertainty',
  description: 'How well the time of an event is known.',
  valuesMap: {
    RECORDED: { description: 'It was recorded.' },
    ESTIMATED: { description: 'It went by unrecorded: a later event shows so.' },
    EXPECTED: { description: 'It has not happened yet.' },
  },
});

export const NoLongerBecause = {
  ENDED: 'ended',
  PAST: 'past',
  LAPSED: 'lapsed',
  NOT_NEEDED: 'not-needed',
} as const;
export type NoLongerBecause = (typeof NoLongerBecause)[keyof typeof NoLongerBecause];
registerEnumType(NoLongerBecause, {
  name: 'NoLongerBecause',
  description: 'Why a step is not called for any more.',
  valuesMap: {
    ENDED: { description: 'The spawn failed or was closed.' },
    PAST: { description: 'Something recorded shows that it is past.' },
    LAPSED: { description: 'It would come too late to be of use.' },
    NOT_NEEDED: { description: 'It belongs to something that was not done.' },
  },
});

export const CareAction = { DONE: 'done', SKIPPED: 'skipped' } as const;
export type CareAction = (typeof CareAction)[keyof typeof CareAction];
registerEnumType(CareAction, {
  name: 'CareAction',
  description: 'What a record says about a step.',
  valuesMap: {
    DONE: { description: 'It was done or seen.' },
    SKIPPED: { description: 'It was skipped.' },
  },
});

export const FigureUnit = { HOURS: 'hours', DAYS: 'days' } as const;
export type FigureUnit = (typeof FigureUnit)[keyof typeof FigureUnit];
registerEnumType(FigureUnit, {
  name: 'FigureUnit',
  description: 'The unit a published figure is printed in.',
  valuesMap: { HOURS: { description: 'Hours.' }, DAYS: { description: 'Days.' } },
});
