import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { accountWithId } from '../accounts/known-accounts.js';
import { Clock } from '../clock/clock.js';
import { fieldError, notFound } from '../errors/request-error.js';
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

  async grant({ personId, ...granted }: GrantLineInput): Promise<LineGrantRow[]> {
    const account = await accountWithId(this.dataSource, personId);
    if (account === null) throw notFound('account', personId);
    if (account.role !== 'partner')
      throw fieldError({
        field: 'personId',
        message: `${account.name} sees all records already: grant lines to partners.`,
      });
    const line = await this.records.standing(this.dataSource.manager, lineRecord, granted.lineId);
    if (line === null) throw notFound('line', granted.lineId);
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
