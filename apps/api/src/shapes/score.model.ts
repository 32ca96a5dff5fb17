import { MarkingModel } from './marking.model.js';
import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { TraitKind } from '../graphql/enums.js';
import { WithdrawalModel } from './history.model.js';
import { RecordModel } from './record.model.js';

@ObjectType('TraitGrade', {
  description: 'The name of a grade: it holds from a value up to the next grade.',
})
export class TraitGradeModel {
  @Field(() => Float, { description: 'Lowest value of the grade.' })
  from: number;

  @Field(() => String, { description: 'Its name.' })
  name: string;
}

@ObjectType('TraitDefinition', {
  description: 'What a score of a trait means; a change of meaning makes a new version.',
})
export class TraitDefinitionModel extends RecordModel {
  @Field(() => String, {
    description: 'Short key, the column header in a CSV file.',
  })
  key: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => TraitKind, { description: 'How it is scored.' })
  kind: TraitKind;

  @Field(() => String, { nullable: true, description: 'Unit.' })
  unit: string | null;

  @Field(() => Float, { nullable: true, description: 'Smallest value taken.' })
  minimum: number | null;

  @Field(() => Float, { nullable: true, description: 'Largest value taken.' })
  maximum: number | null;

  @Field(() => Boolean, {
    nullable: true,
    description: 'Whether more is wanted; null when neither way is better.',
  })
  higherIsBetter: boolean | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Youngest age at which it says something, in days.',
  })
  fromAgeDays: number | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Oldest age at which it says something, in days.',
  })
  toAgeDays: number | null;

  @Field(() => String, { nullable: true, description: 'How to look.' })
  description: string | null;

  @Field(() => [TraitGradeModel], {
    description: 'Names of grades, lowest first; empty when none are named.',
  })
  grades: TraitGradeModel[];

  @Field(() => Int, { description: 'Version of the meaning.' })
  version: number;
}

@ObjectType('Score', {
  description: 'A dated score of one fish; corrected by a later score, never overwritten.',
})
export class ScoreModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => Int, {
    description: "Version of the trait's meaning it was given under.",
  })
  traitVersion: number;

  @Field(() => Float, { description: "Value in the trait's unit." })
  value: number;

  @Field(() => DateScalar, { description: 'Day.' })
  scoredOn: string;

  @Field(() => Int, { nullable: true, description: 'Age of the fish then, in days.' })
  ageDays: number | null;

  @Field(() => String, { description: 'Who looked.' })
  scorer: string;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => ID, { nullable: true, description: 'The score that this one corrects.' })
  corrects: string | null;

  @Field(() => Boolean, {
    description: 'True when a later score corrects this one.',
  })
  corrected: boolean;

  @Field(() => WithdrawalModel, {
    nullable: true,
    description: 'Set when the record was withdrawn.',
  })
  withdrawn: WithdrawalModel | null;

  @Field(() => MarkingModel, {
    nullable: true,
    description: 'Of one that was measured on a picture: what was marked there.',
  })
  marking: MarkingModel | null;

  fishId: string;
  traitId: string;
}
