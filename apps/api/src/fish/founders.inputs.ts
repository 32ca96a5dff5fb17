import { Field, ID, InputType, registerEnumType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { Sex } from '../graphql/enums.js';
import { IdSentOnce } from '../graphql/sent.js';

export const FoundersRelation = {
  SIBS: 'SIBS',
  UNRELATED: 'UNRELATED',
  UNKNOWN: 'UNKNOWN',
} as const;
export type FoundersRelation = (typeof FoundersRelation)[keyof typeof FoundersRelation];
registerEnumType(FoundersRelation, {
  name: 'FoundersRelation',
  description: 'How fish that came together are related, as far as whoever bought them knows.',
  valuesMap: {
    SIBS: { description: 'Full sibs of one brood.' },
    UNRELATED: { description: 'Unrelated, to each other and to the fish on record.' },
    UNKNOWN: { description: 'Nobody knows.' },
  },
});

export const TaggedKind = { FISH: 'fish', SPAWN: 'spawn' } as const;
registerEnumType(TaggedKind, {
  name: 'TaggedKind',
  description: 'What carries a tag.',
  valuesMap: { FISH: { description: 'A fish.' }, SPAWN: { description: 'A spawn.' } },
});

@InputType({ description: 'One of several founders.' })
export class FounderInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => String, { description: 'Its tag.' })
  tag: string;

  @Field(() => Sex, { description: 'Sex as seen; unsexed and uncertain are answers.' })
  sex: Sex;

  @Field(() => String, { nullable: true, description: 'A name beside the tag.' })
  name?: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}

@InputType({
  description: 'Fish that came together, without parents on record. All are saved, or none.',
})
export class RecordFoundersInput {
  @Field(() => ID, { nullable: true, description: 'Their line.' })
  lineId?: string | null;

  @Field(() => String, { nullable: true, description: 'Where they came from.' })
  origin?: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Day of hatching.' })
  hatchDate?: string | null;

  @Field(() => FoundersRelation, { description: 'How they are related.' })
  relation: FoundersRelation;

  @Field(() => [FounderInput], { description: 'The fish.' })
  fish: FounderInput[];
}
