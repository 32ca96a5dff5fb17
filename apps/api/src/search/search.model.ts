import { Field, ObjectType, registerEnumType } from '@nestjs/graphql';

export const FoundKind = {
  FISH: 'fish',
  LINE: 'line',
  SPAWN: 'spawn',
  PERSON: 'person',
  PLACE: 'place',
} as const;
export type FoundKind = (typeof FoundKind)[keyof typeof FoundKind];
registerEnumType(FoundKind, {
  name: 'FoundKind',
  description: 'What a search finds.',
  valuesMap: {
    FISH: { description: 'A fish, by tag, name or note.' },
    LINE: { description: 'A line, by code, name or goal.' },
    SPAWN: { description: 'A spawn, by tag, purpose or note.' },
    PERSON: { description: 'Somebody on record, by name.' },
    PLACE: { description: 'A jar, tank or tub, by code, rack or note.' },
  },
});

@ObjectType('Found', { description: 'One thing that a search found.' })
export class FoundModel {
  @Field(() => String, { description: 'Its id.' })
  id: string;

  @Field(() => String, { description: 'Its tag, code and name, or name.' })
  title: string;

  @Field(() => String, {
    nullable: true,
    description: 'What tells it from others: name, line, sex, day.',
  })
  beside: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'The words around those looked for, where they stand in a note, purpose or goal.',
  })
  words: string | null;
}

@ObjectType('FoundGroup', { description: 'What a search found of one kind.' })
export class FoundGroupModel {
  @Field(() => FoundKind, { description: 'Of which kind.' })
  kind: FoundKind;

  @Field(() => [FoundModel], {
    description: 'The first ten, tags that begin with the text before others.',
  })
  found: FoundModel[];

  @Field(() => Boolean, { description: 'Whether there are more than these.' })
  hasMore: boolean;
}
