import { Field, ID, InputType, ObjectType, registerEnumType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';
import { DateScalar } from '../graphql/date.scalar.js';

export const FishClaimState = {
  OPEN: 'open',
  CONFIRMED: 'confirmed',
  DECLINED: 'declined',
  TAKEN_BACK: 'taken_back',
} as const;
export type FishClaimState = (typeof FishClaimState)[keyof typeof FishClaimState];

registerEnumType(FishClaimState, {
  name: 'FishClaimState',
  description: 'How far a claim is.',
  valuesMap: {
    OPEN: { description: 'Waits for whoever recorded the tag.' },
    CONFIRMED: { description: 'Confirmed: it is one fish on record from then on.' },
    DECLINED: { description: 'Declined: both records stay as they were.' },
    TAKEN_BACK: { description: 'Taken back by whoever claimed it.' },
  },
});

@ObjectType('FishClaim', {
  description: 'A fish of which somebody recorded only the tag, claimed by somebody else.',
})
export class FishClaimModel {
  /** Loaded as `by` and `to`. */
  byId: string;
  toId: string;

  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => ID, { description: 'The fish of which only the tag is on record.' })
  fishId: string;

  @Field(() => String, { description: 'That tag.' })
  tag: string;

  @Field(() => String, {
    nullable: true,
    description:
      'Tag of the fish as the claimant has it on record; null where they have no record.',
  })
  asTag: string | null;

  @Field(() => Boolean, { description: 'True for what whoever asks claimed themselves.' })
  mine: boolean;

  @Field(() => FishClaimState, { description: 'How far it is.' })
  state: FishClaimState;

  @Field(() => String, { nullable: true, description: 'The claimant’s words.' })
  word: string | null;

  @Field(() => DateScalar, { description: 'When it was claimed.' })
  claimedOn: string;

  @Field(() => DateScalar, { nullable: true, description: 'When that came to its end.' })
  answeredOn: string | null;

  @Field(() => String, { nullable: true, description: 'The answer in words.' })
  answerWord: string | null;
}

@ObjectType('FishClaimConnection', { description: 'One page of claims.' })
export class FishClaimConnectionModel extends connectionOf(FishClaimModel, 'FishClaim', 'claims') {}

@InputType({ description: 'Claims a fish of which somebody else recorded only the tag.' })
export class ClaimFishInput {
  @Field(() => ID, { description: 'The fish as they have it.' })
  fishId: string;

  @Field(() => String, {
    nullable: true,
    description:
      'Its tag in one’s own records; absent where it has none: then their record becomes one’s own.',
  })
  asTag?: string | null;

  @Field(() => String, { nullable: true, description: 'A word to whoever recorded the tag.' })
  word?: string | null;
}
