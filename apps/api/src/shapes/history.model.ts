import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';
import '../graphql/enums.js';
import { recordKinds, type RecordKind } from '../database/record-kind.js';

@ObjectType('FieldChange', { description: 'One field of a record before and after a change.' })
export class FieldChangeModel {
  @Field(() => String, { description: 'Name of the field.' })
  field: string;

  @Field(() => String, { nullable: true, description: 'Value before, as text.' })
  before: string | null;

  @Field(() => String, { nullable: true, description: 'Value after, as text.' })
  after: string | null;
}

@ObjectType('RecordChange', {
  description: 'One change of a record: nothing is overwritten without a trace.',
})
export class RecordChangeModel {
  @Field(() => ID, { description: 'Running number of the change.' })
  id: string;

  @Field(() => recordKinds, { description: 'Kind of the record.' })
  recordKind: RecordKind;

  @Field(() => ID, { description: 'Id of the record.' })
  recordId: string;

  @Field(() => Int, { description: 'Revision that the change made.' })
  revision: number;

  @Field(() => Date, { description: 'When.' })
  at: Date;

  @Field(() => String, { description: 'Name of the person who did it.' })
  by: string;

  @Field(() => String, {
    description: 'What was done: recorded, corrected, decided, withdrawn, imported, received.',
  })
  action: string;

  @Field(() => ID, {
    nullable: true,
    description: 'The act for several fish that it was part of (`fishAct`); null for one alone.',
  })
  actId: string | null;

  @Field(() => [FieldChangeModel], { description: 'The fields that changed.' })
  changes: FieldChangeModel[];
}

@ObjectType('HistoryConnection', { description: 'One page of the changes of a record.' })
export class HistoryConnectionModel extends connectionOf(
  RecordChangeModel,
  'History',
  'changes of a record',
) {}

@ObjectType('Withdrawal', {
  description: 'When and why a record was withdrawn; it stays readable.',
})
export class WithdrawalModel {
  @Field(() => Date, { description: 'When.' })
  at: Date;

  @Field(() => String, { description: 'Why.' })
  reason: string;
}

export const toWithdrawal = (row: {
  withdrawnAt: Date | null;
  withdrawnReason: string | null;
}): WithdrawalModel | null =>
  row.withdrawnAt === null ? null : { at: row.withdrawnAt, reason: row.withdrawnReason ?? '' };
