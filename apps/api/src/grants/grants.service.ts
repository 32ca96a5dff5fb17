import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { seesByGrant } from '../access/actor.js';
import { accountWithId } from '../accounts/known-accounts.js';
import { Clock } from '../clock/clock.js';
import { fieldError, notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { endLineGrants, lineGrants, putLineGrant } from '../stock/grant-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import type { LineGrantRow } from '../stock/rows/line-grant.entity.js';
import type { GrantLineInput } from './grant.model.js';

@Injectable()
export class GrantsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  list(lineId: string | null): Promise<LineGrantRow[]> {
    return lineGrants(this.dataSource.manager, lineId);
  }

  /** A keeper lends lines of their own, to people they know of. */
  async grant(
    { personId, ...granted }: GrantLineInput,
    by: SignedInPerson,
  ): Promise<LineGrantRow[]> {
    const account = await accountWithId(this.dataSource, personId);
    if (account === null) throw notFound('account', personId);
    expectLesser(account, by);
    const line = await this.records.standing(this.dataSource.manager, lineRecord, granted.lineId);
    if (line === null || (by.role === 'keeper' && line.personId !== by.id))
      throw notFound('line', granted.lineId);
    const row = { accountId: personId, grantedAt: this.clock.now(), ...granted };
    await putLineGrant(this.dataSource.manager, row);
    return this.list(line.id);
  }

  /** From then on the database itself refuses; what they saw before stays with them. */
  async end(personId: string, lineId: string): Promise<LineGrantRow[]> {
    await endLineGrants(this.dataSource.manager, { accountId: personId, lineId });
    return this.list(lineId);
  }
}

/** @throws RequestError `VALIDATION` for whoever is granted no lines: the keeper of the line, and whoever sees all records but those of keepers. */
const expectLesser = (account: SignedInPerson, by: SignedInPerson): void => {
  if (seesByGrant(account.role) && account.id !== by.id) return;
  const message =
    by.role === 'keeper'
      ? `${account.name} cannot be granted a line of yours: choose a partner or another keeper.`
      : `${account.name} sees all records already: grant lines to partners.`;
  throw fieldError({ field: 'personId', message });
};
