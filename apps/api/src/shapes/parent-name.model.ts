import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Sex } from '../graphql/enums.js';

@ObjectType('ParentName', {
  description: 'A parent, as whoever asks may know of it.',
})
export class ParentNameModel {
  @Field(() => ID, {
    nullable: true,
    description: 'UUID; null of a fish whose record is not shown to whoever asks.',
  })
  id: string | null;

  @Field(() => String, {
    description: 'Tag; `not shown` of a fish that is on record and not shared with whoever asks.',
  })
  tag: string;

  @Field(() => Sex, { description: 'Sex.' })
  sex: Sex;

  @Field(() => Boolean, { description: 'Whether its record is shown to whoever asks.' })
  recordShown: boolean;
}
