import { Field, Float, ID, InputType, Int } from '@nestjs/graphql';
import { correctionOf } from '../graphql/correction.js';
import { EntryId, IdSentOnce, SenderId } from '../graphql/sent.js';
import { DateScalar } from '../graphql/date.scalar.js';
import { TraitKind } from '../graphql/enums.js';

@InputType({ description: 'The name of a grade: it holds from a value up to the next grade.' })
export class TraitGradeInput {
  @Field(() => Float, { description: 'Lowest value of the grade.' })
  from: number;

  @Field(() => String, { description: 'Its name.' })
  name: string;
}

@InputType({ description: 'A new trait.' })
export class CreateTraitInput {
  @SenderId()
  id?: string | null;

  @Field(() => String, {
    description: 'Short key: small letters, digits and underscores.',
  })
  key: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => TraitKind, { description: 'How it is scored.' })
  kind: TraitKind;

  @Field(() => String, { nullable: true, description: 'Unit.' })
  unit?: string | null;

  @Field(() => Float, { nullable: true, description: 'Smallest value taken.' })
  minimum?: number | null;

  @Field(() => Float, { nullable: true, description: 'Largest value taken.' })
  maximum?: number | null;

  @Field(() => Boolean, { nullable: true, description: 'Whether more is wanted.' })
  higherIsBetter?: boolean | null;

  @Field(() => Int, { nullable: true, description: 'Youngest age at which it says something.' })
  fromAgeDays?: number | null;

  @Field(() => Int, { nullable: true, description: 'Oldest age at which it says something.' })
  toAgeDays?: number | null;

  @Field(() => String, { nullable: true, description: 'How to look.' })
  description?: string | null;

  @Field(() => [TraitGradeInput], {
    nullable: true,
    description: 'Names of grades, in any order; an empty list takes the names away.',
  })
  grades?: TraitGradeInput[] | null;
}

@InputType({ description: 'Corrects a trait; a changed unit or range makes a new version.' })
export class CorrectTraitInput extends correctionOf(CreateTraitInput, 'trait', ['key', 'kind']) {}

@InputType({ description: 'One line of a score sheet.' })
export class TraitScoreInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Field(() => Float, {
    description: "Value in the trait's unit; 1 or 0 for yes or no.",
  })
  value: number;

  @Field(() => Int, {
    nullable: true,
    description:
      'Version of the trait that was seen when it was scored; the present one when absent. A value of an older version is kept as it is, without the present range.',
  })
  traitVersion?: number | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}

@InputType({ description: 'A score sheet of one fish: all lines are saved, or none.' })
export class RecordScoresInput {
  @Field(() => ID, { description: 'The fish.' })
  fishId: string;

  @Field(() => DateScalar, { description: 'Day.' })
  scoredOn: string;

  @Field(() => String, {
    nullable: true,
    description: 'Who looked; the person signed in when absent.',
  })
  scorer?: string | null;

  @Field(() => [TraitScoreInput], { description: 'The lines.' })
  scores: TraitScoreInput[];

  @EntryId()
  entryId?: string | null;
}

@InputType({ description: 'Corrects a score by a later score.' })
export class CorrectScoreInput {
  @Field(() => ID, { description: 'The score to correct.' })
  scoreId: string;

  @Field(() => Float, { description: 'The right value.' })
  value: number;

  @Field(() => String, { description: 'What was wrong.' })
  reason: string;
}
