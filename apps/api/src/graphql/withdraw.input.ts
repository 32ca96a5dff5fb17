import { Field, ID, InputType, Int } from '@nestjs/graphql';

@InputType({
  description: 'Withdraws a record with a reason; the record and its history stay readable.',
})
export class WithdrawInput {
  @Field(() => ID, { description: 'Id of the record.' })
  id: string;

  @Field(() => String, { description: 'Why.' })
  reason: string;

  @Field(() => Int, {
    nullable: true,
    description: 'Revision the record was read at; a newer one is an error.',
  })
  revision?: number;
}
