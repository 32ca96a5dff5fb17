import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { given, kept, trimmed } from '../database/given.js';
import { fieldError, notFound, RequestError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { RecordStore } from '../stock/record-store.js';
import { fishDealRecord, fishRecord } from '../stock/record-types.js';
import type { FishDealRow } from '../stock/rows/fish-deal.entity.js';
import type { CorrectFishDealInput, RecordFishDealInput } from './deal.model.js';

type Money = Pick<FishDealRow, 'amount' | 'currency'>;

/** @throws RequestError `VALIDATION` for an amount without its currency, part of a smallest unit, or letters that are no code */
const expectMoney = ({ amount, currency }: Money): void => {
  if (amount !== null && (!Number.isInteger(amount) || amount < 0))
    throw fieldError({
      field: 'amount',
      message: `${amount} cannot be an amount: give a whole number of the smallest unit, such as 1250 for 12.50.`,
    });
  if (currency !== null && !/^[A-Z]{3}$/.test(currency))
    throw fieldError({
      field: 'currency',
      message: `"${currency}" is not a code of a currency: give three capital letters, such as EUR, USD or THB.`,
    });
  if ((amount === null) === (currency === null)) return;
  throw fieldError(
    amount === null
      ? { field: 'amount', message: 'Give the amount as well, or leave the currency out.' }
      : { field: 'currency', message: 'Say in which currency the amount is.' },
  );
};

/** Prices of fish, each of whoever paid or was paid. */
@Injectable()
export class DealsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  record(input: RecordFishDealInput, person: SignedInPerson): Promise<FishDealRow> {
    expectOwnRecords(person);
    expectDayHappened(this.clock, 'onDate', input.onDate);
    const money = { amount: input.amount ?? null, currency: trimmed(input.currency) ?? null };
    expectMoney(money);
    return this.dataSource.transaction(async (m): Promise<FishDealRow> => {
      const fish = await this.records.find(m, fishRecord, input.fishId);
      if (fish.withdrawnAt !== null)
        throw fieldError({ field: 'fishId', message: `${fish.tag} was withdrawn.` });
      const row = {
        ...{ id: input.id ?? randomUUID(), fishId: fish.id, personId: person.id },
        ...{ kind: input.kind, onDate: input.onDate, ...money },
        ...{ withWhom: trimmed(input.withWhom) ?? null, note: trimmed(input.note) ?? null },
      };
      return this.records.create<FishDealRow>(m, fishDealRecord, row, person.name);
    });
  }

  correct(input: CorrectFishDealInput, person: SignedInPerson): Promise<FishDealRow> {
    const { id, revision } = input;
    if (input.onDate != null) expectDayHappened(this.clock, 'onDate', input.onDate);
    const changes = given({
      ...{ kind: kept(input.kind), onDate: kept(input.onDate), amount: input.amount },
      ...{ currency: trimmed(input.currency), withWhom: trimmed(input.withWhom) },
      note: trimmed(input.note),
    }) as Partial<FishDealRow>;
    return this.dataSource.transaction(async (m) => {
      const { amount, currency } = { ...(await this.own(m, id, person)), ...changes };
      expectMoney({ amount, currency });
      return this.records.correct<FishDealRow>(
        m,
        fishDealRecord,
        id,
        revision,
        changes,
        person.name,
      );
    });
  }

  withdraw({ id, reason, revision }: WithdrawInput, person: SignedInPerson): Promise<FishDealRow> {
    return this.dataSource.transaction(async (m) => {
      await this.own(m, id, person);
      return this.records.withdraw<FishDealRow>(
        m,
        fishDealRecord,
        id,
        reason,
        person.name,
        revision,
      );
    });
  }

  /** Another's is told as one that is not there. */
  private async own(m: EntityManager, id: string, person: SignedInPerson): Promise<FishDealRow> {
    const row = await this.records.find(m, fishDealRecord, id);
    if (row.personId !== person.id) throw notFound(fishDealRecord.word, id);
    return row;
  }
}

/** @throws RequestError `NOT_ALLOWED` for a partner, who has no records of their own here that the owner would not read */
const expectOwnRecords = ({ role }: SignedInPerson): void => {
  if (role !== 'partner') return;
  throw new RequestError(
    'NOT_ALLOWED',
    'Prices are recorded by whoever keeps records of their own here: note yours in your own install.',
  );
};
