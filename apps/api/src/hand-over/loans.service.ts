import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { trimmed } from '../database/given.js';
import { fieldError, notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { endHandOver, noteHandOver } from '../stock/hand-over-moves.js';
import { handOversById } from '../stock/hand-over-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { fishRecord, handOverRecord } from '../stock/record-types.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import type { HandOverRow } from '../stock/rows/hand-over.entity.js';
import type { LoanReturnInput } from './hand-over.inputs.js';
import { OffersService } from './offers.service.js';

type Side = 'fromId' | 'toId';

/** What becomes of lent fish: the borrower says that one comes back, the lender that it is back. */
@Injectable()
export class LoansService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly offers: OffersService,
    private readonly clock: Clock,
  ) {}

  /** The borrower's word that a fish comes back, or died; the lender confirms it. */
  sayReturned(input: LoanReturnInput, account: SignedInPerson): Promise<HandOverRow> {
    return this.change(input.id, 'toId', account, async (m, row) => {
      this.expectDay(row, input.on);
      const said = {
        ...{ returnAs: input.as, returnSaidOn: input.on },
        returnWord: trimmed(input.word) ?? null,
      };
      return this.note(m, row, said, 'return said', account);
    });
  }

  /** The lender's word that it is back, or died; then the fish swims with them again. */
  end(input: LoanReturnInput, account: SignedInPerson): Promise<HandOverRow> {
    return this.change(input.id, 'fromId', account, async (m, row) => {
      this.expectDay(row, input.on);
      const done = { day: input.on, by: account.name, accountId: account.id };
      const ended = await endHandOver(m, this.records, row, input.as, done);
      const fish = await this.records.lock(m, fishRecord, row.fishId);
      const changes: Partial<FishRow> =
        input.as === 'died'
          ? {
              ...{ disposition: 'died', dispositionDate: input.on },
              dispositionReason: trimmed(input.word) ?? `on loan with ${row.toName}`,
            }
          : { swimsWithId: row.fromId };
      const action = input.as === 'died' ? 'died on loan' : 'came back from a loan';
      const doing = { action, byAccountId: account.id };
      if (fish.withdrawnAt === null)
        await this.records.correct<FishRow>(
          m,
          fishRecord,
          fish.id,
          undefined,
          changes,
          account.name,
          doing,
        );
      return ended;
    });
  }

  /** The lender puts the day back off, or brings it forward. */
  async putOff(id: string, backOn: string, account: SignedInPerson): Promise<HandOverRow> {
    this.offers.expectDayBack(backOn);
    return this.change(id, 'fromId', account, (m, row) =>
      this.note(m, row, { backOn }, 'day back changed', account),
    );
  }

  private expectDay(row: HandOverRow, on: string): void {
    expectDayHappened(this.clock, 'on', on);
    if (row.movedOn === null || on >= row.movedOn) return;
    throw fieldError({
      field: 'on',
      message: `${on} is before ${row.tag} was lent (${row.movedOn}): correct the day.`,
    });
  }

  private async change(
    id: string,
    side: Side,
    account: SignedInPerson,
    work: (m: EntityManager, row: HandOverRow) => Promise<HandOverRow>,
  ): Promise<HandOverRow> {
    const [seen] = await handOversById(this.dataSource.manager, [id]);
    if (seen === undefined || seen[side] !== account.keepsFor)
      throw notFound(side === 'toId' ? 'loan to you' : 'loan of yours', id);
    return asSystem('hand-over', () =>
      this.dataSource.transaction(async (m) => {
        const row = await this.records.lock<HandOverRow>(m, handOverRecord, id);
        if (row.kind !== 'loan' || row.movedOn === null)
          throw fieldError({ field: 'id', message: `${row.tag} is not on loan.` });
        if (row.endedOn !== null)
          throw fieldError({
            field: 'id',
            message: `The loan of ${row.tag} ended on ${row.endedOn} already.`,
          });
        return work(m, row);
      }),
    );
  }

  private note(
    m: EntityManager,
    row: HandOverRow,
    changes: Partial<HandOverRow>,
    action: string,
    { name: by, id: accountId }: SignedInPerson,
  ): Promise<HandOverRow> {
    return noteHandOver(m, this.records, row, changes, action, { by, accountId });
  }
}
