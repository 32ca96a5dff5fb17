import { Field, Float, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { correctionOf } from '../graphql/correction.js';
import { DateScalar } from '../graphql/date.scalar.js';
import { IdSentOnce } from '../graphql/sent.js';
import { RecordModel } from '../shapes/record.model.js';

@ObjectType('ShowResult', { description: 'What a fish won at a show.' })
export class ShowResultModel extends RecordModel {
  @Field(() => String, { description: 'Name of the show.' })
  show: string;

  @Field(() => DateScalar, { description: 'Day of the show.' })
  onDate: string;

  @Field(() => String, { description: 'Class, as the keeper names it.' })
  class: string;

  @Field(() => Int, {
    nullable: true,
    description: 'Place in the class, 1 the first; empty when it was not placed or nobody knows.',
  })
  placing: number | null;

  @Field(() => Float, { nullable: true, description: 'Points, where the show gives some.' })
  points: number | null;

  @Field(() => String, { nullable: true, description: 'The judge’s words.' })
  note: string | null;
}

@InputType({ description: 'What a fish won at a show.' })
export class RecordShowResultInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The fish.' })
  fishId: string;

  @Field(() => String, { description: 'Name of the show.' })
  show: string;

  @Field(() => DateScalar, { description: 'Day of the show.' })
  onDate: string;

  @Field(() => String, { description: 'Class, in your own words.' })
  class: string;

  @Field(() => Int, { nullable: true, description: 'Place in the class, 1 the first.' })
  placing?: number | null;

  @Field(() => Float, { nullable: true, description: 'Points.' })
  points?: number | null;

  @Field(() => String, { nullable: true, description: 'The judge’s words.' })
  note?: string | null;
}

@InputType({ description: 'Corrects a result of a show; absent fields stay, null clears.' })
export class CorrectShowResultInput extends correctionOf(RecordShowResultInput, 'result', [
  'fishId',
]) {}
