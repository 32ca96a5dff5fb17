import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { IdSentOnce } from '../graphql/sent.js';
import { DateScalar } from '../graphql/date.scalar.js';
import { RecordModel } from '../shapes/record.model.js';

@ObjectType('SeenPhenotype', { description: 'What was seen on a fish at a locus, on a day.' })
export class PhenotypeModel extends RecordModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Id of the phenotype in the locus.' })
  phenotype: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Field(() => DateScalar, { description: 'Day it was seen.' })
  seenOn: string;

  @Field(() => Int, { nullable: true, description: 'Age then, in days, when known.' })
  ageDays: number | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'Why it is kept but not counted as evidence, such as an age too young to tell.',
  })
  setAside: string | null;

  fishId: string;
}

@InputType({ description: 'Records what was seen on a fish.' })
export class RecordPhenotypeInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The fish.' })
  fishId: string;

  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'What was seen, by id or name in the locus.' })
  phenotype: string;

  @Field(() => DateScalar, { description: 'Day it was seen.' })
  seenOn: string;

  @Field(() => Int, {
    nullable: true,
    description: 'Age in days, where the day of hatching is not on record.',
  })
  ageDays?: number | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}
