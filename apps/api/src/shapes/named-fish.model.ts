import { Field, ID, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { Disposition, Sex } from '../graphql/enums.js';

@ObjectType('NamedFish', { description: 'A fish as figures about a stock name it.' })
export class NamedFishModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'Tag.' })
  tag: string;

  @Field(() => Sex, { description: 'Sex.' })
  sex: Sex;

  @Field(() => Disposition, { description: 'Decision.' })
  disposition: Disposition;

  @Field(() => ID, {
    nullable: true,
    description:
      'For a parent that nobody knows: the spawn whose parent it is. There is no record of such a fish; null for a recorded one.',
  })
  unknownParentOf?: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Day of hatching.' })
  hatchDate: string | null;

  @Field(() => String, { nullable: true, description: 'Code of its line.' })
  lineCode: string | null;

  /** Set where a stock is read: in use, wherever it swims. */
  inUse?: boolean;
}
