import { registerEnumType } from '@nestjs/graphql';

export const KeepingBasis = { ROUND: 'round', PURPOSE: 'purpose', GUIDE: 'guide' } as const;
export type KeepingBasis = (typeof KeepingBasis)[keyof typeof KeepingBasis];

export const KeepingMates = { KEEPERS: 'keepers', IN_USE: 'in-use', BROOD: 'brood' } as const;
export type KeepingMates = (typeof KeepingMates)[keyof typeof KeepingMates];

export const KeepingAdvice = {
  KEEP: 'keep',
  CANNOT_TELL: 'cannot-tell',
  OTHERS_FIRST: 'others-first',
  LAST_CARRIER: 'last-carrier',
} as const;

registerEnumType(KeepingBasis, {
  name: 'KeepingBasis',
  description: 'What the number to keep of a brood rests on.',
  valuesMap: {
    ROUND: { description: 'The round in which the brood was made.' },
    PURPOSE: { description: 'What the line is for: kept in all, by its broods.' },
    GUIDE: { description: 'A guide without a source: nobody has said what the line is for.' },
  },
});

registerEnumType(KeepingMates, {
  name: 'KeepingMates',
  description: 'Which fish stand for the line when a young is valued as a parent.',
  valuesMap: {
    KEEPERS: { description: 'Keepers of the line from other broods.' },
    IN_USE: { description: 'Fish of the line in use from other broods: none of them is a keeper.' },
    BROOD: { description: 'The brood itself: the line has no other fish in use.' },
  },
});

registerEnumType(KeepingAdvice, {
  name: 'KeepingAdvice',
  description: 'What speaks for a young, among those of its sex in the brood.',
  valuesMap: {
    KEEP: { description: 'Among those to keep, and told apart from the first that is not.' },
    CANNOT_TELL: {
      description: 'Not told apart from a young on the other side of the number to keep.',
    },
    OTHERS_FIRST: { description: 'Enough others are worth more, by more than the error.' },
    LAST_CARRIER: {
      description:
        'Likely the last fish of the line with a wanted allele: to keep whatever its place.',
    },
  },
});
