import { Field, ID, InputType, ObjectType, registerEnumType } from '@nestjs/graphql';
import { PersonModel } from '../accounts/session.model.js';
import { connectionOf } from '../graphql/connection.js';
import { IdSentOnce } from '../graphql/sent.js';

export const ClubRequestWhat = { FISH: 'fish', LOAN: 'loan', STUD: 'stud' } as const;
export type ClubRequestWhat = (typeof ClubRequestWhat)[keyof typeof ClubRequestWhat];
registerEnumType(ClubRequestWhat, {
  name: 'ClubRequestWhat',
  description: 'What is asked for.',
  valuesMap: {
    FISH: { description: 'A fish, to keep.' },
    LOAN: { description: 'A fish, to give back.' },
    STUD: { description: 'A mating: either of the two lends the other a fish for it.' },
  },
});

export const ClubRequestState = {
  OPEN: 'open',
  YES: 'yes',
  NO: 'no',
  WITHDRAWN: 'withdrawn',
} as const;
export type ClubRequestState = (typeof ClubRequestState)[keyof typeof ClubRequestState];
registerEnumType(ClubRequestState, {
  name: 'ClubRequestState',
  description: 'Where a request stands.',
  valuesMap: {
    OPEN: { description: 'It waits for an answer.' },
    YES: { description: 'Answered yes.' },
    NO: { description: 'Answered no.' },
    WITHDRAWN: { description: 'Withdrawn by whoever asked.' },
  },
});

@ObjectType('ClubRequest', {
  description: 'One keeper asks another for something of a shown line.',
})
export class ClubRequestModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => ClubRequestWhat, { description: 'What is asked for.' })
  what: ClubRequestWhat;

  @Field(() => ID, { description: 'Id of the line.' })
  lineId: string;

  @Field(() => String, { description: 'Code and name of the line, as they were then.' })
  lineName: string;

  @Field(() => PersonModel, { description: 'Who asks.' })
  from?: PersonModel;

  @Field(() => PersonModel, { description: 'Who is asked.' })
  to?: PersonModel;

  @Field(() => Boolean, { description: 'True for what you asked yourself.' })
  mine: boolean;

  @Field(() => String, { description: 'In their words.' })
  words: string;

  @Field(() => Date, { description: 'When it was asked.' })
  askedAt: Date;

  @Field(() => ClubRequestState, { description: 'Where it stands.' })
  state: ClubRequestState;

  @Field(() => String, { nullable: true, description: 'The answer in words.' })
  answer: string | null;

  @Field(() => Date, { nullable: true, description: 'When it was answered or withdrawn.' })
  endedAt: Date | null;

  /** Loaded as `from`. */
  fromId: string;
  /** Loaded as `to`. */
  toId: string;
}

@ObjectType('ClubRequestConnection', { description: 'One page of requests.' })
export class ClubRequestConnectionModel extends connectionOf(
  ClubRequestModel,
  'ClubRequest',
  'requests',
) {}

@InputType({ description: 'Asks whoever shows a line for a fish, a loan or a stud.' })
export class AskClubInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The line; it must be shown.' })
  lineId: string;

  @Field(() => ClubRequestWhat, { description: 'What is asked for.' })
  what: ClubRequestWhat;

  @Field(() => String, { description: 'In your words.' })
  words: string;
}

@InputType({ description: 'Answers a request.' })
export class AnswerClubRequestInput {
  @Field(() => ID, { description: 'The request.' })
  requestId: string;

  @Field(() => Boolean, { description: 'Yes or no.' })
  yes: boolean;

  @Field(() => String, { nullable: true, description: 'A word with it.' })
  words?: string | null;
}
