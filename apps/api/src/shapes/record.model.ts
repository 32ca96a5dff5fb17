import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { WithdrawalModel } from './history.model.js';

/** What every record shows of itself; its type extends this. */
@ObjectType({ isAbstract: true })
export abstract class RecordModel {
  @Field(() => ID, {
    description: 'UUID made by whoever recorded it; it survives a move to another install.',
  })
  id: string;

  @Field(() => Int, { description: 'Raised by one at each change.' })
  revision: number;

  @Field(() => WithdrawalModel, {
    nullable: true,
    description: 'Set when the record was withdrawn.',
  })
  withdrawn: WithdrawalModel | null;
}
