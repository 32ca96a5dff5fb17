import { registerEnumType } from '@nestjs/graphql';

export const HandOverKind = { GIFT: 'gift', SALE: 'sale', LOAN: 'loan' } as const;
export type HandOverKind = (typeof HandOverKind)[keyof typeof HandOverKind];

export const LoanReturn = { CAME_BACK: 'came_back', DIED: 'died' } as const;
export type LoanReturn = (typeof LoanReturn)[keyof typeof LoanReturn];

export const HandOverState = {
  OFFERED: 'offered',
  TAKEN_BACK: 'taken-back',
  DECLINED: 'declined',
  AGREED: 'agreed',
  MOVED: 'moved',
  RETURNING: 'returning',
  ENDED: 'ended',
} as const;
export type HandOverState = (typeof HandOverState)[keyof typeof HandOverState];

export const HandOverEnd = { ...LoanReturn, KEPT: 'kept', HANDED_ON: 'handed_on' } as const;
export type HandOverEnd = (typeof HandOverEnd)[keyof typeof HandOverEnd];

export const HandOverSide = { GIVER: 'giver', RECEIVER: 'receiver', NEITHER: 'neither' } as const;
export type HandOverSide = (typeof HandOverSide)[keyof typeof HandOverSide];

registerEnumType(HandOverKind, {
  name: 'HandOverKind',
  description: 'How a fish is handed over.',
  valuesMap: {
    GIFT: { description: 'Given: the record is the receiver’s from then on.' },
    SALE: { description: 'Sold: the record is the receiver’s from then on.' },
    LOAN: { description: 'Lent: the record stays the giver’s, and a date back is set.' },
  },
});

registerEnumType(LoanReturn, {
  name: 'LoanReturn',
  description: 'How a loan ends by the borrower’s word.',
  valuesMap: {
    CAME_BACK: { description: 'The fish comes back.' },
    DIED: { description: 'The fish died there.' },
  },
});

registerEnumType(HandOverEnd, {
  name: 'HandOverEnd',
  description: 'How a hand-over came to its end.',
  valuesMap: {
    CAME_BACK: { description: 'The lent fish came back.' },
    DIED: { description: 'The lent fish died.' },
    KEPT: { description: 'The loan was made a lasting hand-over.' },
    HANDED_ON: { description: 'Whoever got the fish handed it on.' },
  },
});

registerEnumType(HandOverState, {
  name: 'HandOverState',
  description: 'How far a hand-over is.',
  valuesMap: {
    OFFERED: { description: 'Waits for an answer.' },
    TAKEN_BACK: { description: 'Taken back before an answer.' },
    DECLINED: { description: 'The receiver declined.' },
    AGREED: {
      description:
        'The receiver accepted; the giver’s install has not said yet that the fish moved.',
    },
    MOVED: { description: 'Both confirmed: the fish is with the receiver.' },
    RETURNING: { description: 'The borrower said that it comes back, or that it died.' },
    ENDED: { description: 'At its end.' },
  },
});

registerEnumType(HandOverSide, {
  name: 'HandOverSide',
  description: 'Where whoever asks stands in it.',
  valuesMap: {
    GIVER: { description: 'They hand the fish over.' },
    RECEIVER: { description: 'They get it.' },
    NEITHER: { description: 'It is between two others, and they see all records here.' },
  },
});
