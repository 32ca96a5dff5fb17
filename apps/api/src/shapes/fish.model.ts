import { Field, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { connectionOf } from '../graphql/connection.js';
import { Disposition, Sex } from '../graphql/enums.js';
import { RecordModel } from './record.model.js';

@ObjectType('Fish', { description: 'A fish with a record of its own.' })
export class FishModel extends RecordModel {
  @Field(() => String, {
    description: "What people call it; unique in one person's stock and never reused.",
  })
  tag: string;

  @Field(() => String, { nullable: true, description: 'A name beside the tag.' })
  name: string | null;

  @Field(() => Sex, { description: 'Sex as recorded.' })
  sex: Sex;

  @Field(() => DateScalar, {
    nullable: true,
    description: "Day of hatching, its own or its spawn's.",
  })
  hatchDate: string | null;

  @Field(() => Disposition, { description: 'What was decided about it.' })
  disposition: Disposition;

  @Field(() => DateScalar, { nullable: true, description: 'When that was decided.' })
  dispositionDate: string | null;

  @Field(() => String, { nullable: true, description: 'Why.' })
  dispositionReason: string | null;

  @Field(() => Boolean, {
    description:
      'True for keepers, fish on hold, and fish passed on to someone on record: those that may breed, wherever they swim.',
  })
  inUse: boolean;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => String, { nullable: true, description: 'Where a founder or bought fish came from.' })
  origin: string | null;

  @Field(() => Boolean, {
    description:
      'True when its unknown parents are known to be unrelated to the other fish: then an F that rests on them is known, not a lowest value.',
  })
  declaredUnrelated: boolean;

  @Field(() => Date, { description: 'When the record was made.' })
  createdAt: Date;

  personId: string;
  lineId: string | null;
  spawnId: string | null;
  swimsWithId: string | null;
}

@ObjectType('FishConnection', { description: 'One page of a list of fish.' })
export class FishConnectionModel extends connectionOf(FishModel, 'Fish', 'fish') {}
