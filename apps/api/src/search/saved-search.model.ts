import { Field, ID, InputType, ObjectType } from '@nestjs/graphql';

@ObjectType('SavedSearch', {
  description: 'A search of the list of fish under a name of one’s own.',
})
export class SavedSearchModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'Name as given.' })
  name: string;

  @Field(() => String, {
    description: 'What the list is narrowed to, as in its address: `sex=MALE&use=yes`.',
  })
  filter: string;
}

@InputType({ description: 'A search to keep.' })
export class SaveSearchInput {
  @Field(() => String, { description: 'Its name; one of the same name is replaced.' })
  name: string;

  @Field(() => String, { description: 'What the list is narrowed to, as in its address.' })
  filter: string;
}
