import { Field, ID, InputType, Int } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { HandOverKind, LoanReturn } from './hand-over.enums.js';

@InputType({
  description:
    'Fish of one line, offered to one person; say who by `toId`, or by `toName` where you do not see them here.',
})
export class OfferFishInput {
  @Field(() => ID, {
    nullable: true,
    description: 'UUID made by the sender; sending it twice offers once.',
  })
  id?: string | null;

  @Field(() => [ID], { description: 'The fish, each once.' })
  fishIds: string[];

  @Field(() => ID, { nullable: true, description: 'The receiver.' })
  toId?: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'The name that the receiver signs in under; whether there is one is not answered.',
  })
  toName?: string | null;

  @Field(() => ID, {
    nullable: true,
    description: 'The request of the club that this answers; it was answered yes.',
  })
  requestId?: string | null;

  @Field(() => HandOverKind, { description: 'Given, sold or lent.' })
  kind: HandOverKind;

  @Field(() => DateScalar, { nullable: true, description: 'Of a loan: when it is to be back.' })
  backOn?: string | null;

  @Field(() => String, { nullable: true, description: 'A word to the receiver.' })
  word?: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'What you know of their health: illness, treatment, what they were kept with.',
  })
  healthNote?: string | null;

  @Field(() => Boolean, {
    defaultValue: false,
    description: 'You see that they spawned afterwards: parents, day and counts.',
  })
  laterSpawns: boolean;

  @Field(() => Boolean, { defaultValue: false, description: 'Their scores go along.' })
  withScores: boolean;

  @Field(() => Boolean, { defaultValue: false, description: 'Their photos go along.' })
  withPhotos: boolean;

  @Field(() => Boolean, { defaultValue: false, description: 'Notes on them go along.' })
  withNotes: boolean;
}

@InputType({ description: 'Another tag for a fish whose tag you use already.' })
export class NewTagInput {
  @Field(() => ID, { description: 'The hand-over.' })
  id: string;

  @Field(() => String, { description: 'The tag it has with you.' })
  tag: string;
}

@InputType({ description: 'Takes offered fish: all of those named, or none.' })
export class AcceptFishInput {
  @Field(() => [ID], { description: 'The hand-overs.' })
  ids: string[];

  @Field(() => String, { nullable: true, description: 'A word to the giver.' })
  word?: string | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Days in quarantine, the first one today; none when absent.',
  })
  quarantineDays?: number | null;

  @Field(() => [NewTagInput], {
    nullable: true,
    description: 'Other tags, for fish that are yours from then on.',
  })
  tags?: NewTagInput[] | null;
}

@InputType({ description: 'The end of a loan.' })
export class LoanReturnInput {
  @Field(() => ID, { description: 'The hand-over.' })
  id: string;

  @Field(() => LoanReturn, { description: 'Came back, or died.' })
  as: LoanReturn;

  @Field(() => DateScalar, { description: 'The day.' })
  on: string;

  @Field(() => String, { nullable: true, description: 'A word about it.' })
  word?: string | null;
}
