import { Field, ID, InputType, Int } from '@nestjs/graphql';

@InputType({ description: 'What was learnt from a round.' })
export class LessonInput {
  @Field(() => ID, { description: 'The round.' })
  id: string;

  @Field(() => Int, { description: 'Revision of the round that the form was opened at.' })
  revision: number;

  @Field(() => String, { nullable: true, description: 'What was learnt; null clears it.' })
  learnt: string | null;
}
