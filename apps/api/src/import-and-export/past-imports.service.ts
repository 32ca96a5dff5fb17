import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { fieldError, notFound } from '../errors/request-error.js';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { lockStock } from './do-import.js';
import { PastImportRow } from '../stock/rows/past-import.entity.js';
import {
  expectNothingRests,
  type TakeBackState,
  takeBackState,
  withdrawImport,
} from '../stock/take-back.js';

/** Files that were taken in, and the way to take one back as a whole. */
@Injectable()
export class PastImportsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  /** Newest first. */
  list(
    account: SignedInPerson,
    first: number,
    after: string | null,
  ): Promise<KeysetPage<PastImportRow>> {
    const query = this.dataSource
      .getRepository(PastImportRow)
      .createQueryBuilder('p')
      .where('p.person_id = :personId', { personId: account.keepsFor });
    const newestFirst = { key: 'p.at', type: 'timestamptz', direction: 'DESC' } as const;
    return keysetPage(query, 'p', newestFirst, first, after ?? undefined);
  }

  /** What has come to rest on an import; writes nothing. */
  async look(id: string, account: SignedInPerson): Promise<TakeBackState> {
    const { manager } = this.dataSource;
    await this.standing(manager, id, account);
    return takeBackState(manager, id);
  }

  /** Withdraws all that an import made, in one transaction, or nothing while something in use rests on it. */
  takeBack(id: string, reason: string, account: SignedInPerson): Promise<PastImportRow> {
    const why = reason.trim();
    if (why === '')
      throw fieldError({ field: 'reason', message: 'Say why the import is taken back.' });
    return this.dataSource.transaction(async (manager) => {
      await lockStock(manager, false);
      const row = await this.standing(manager, id, account);
      const at = this.clock.now();
      await withdrawImport(manager, id, { by: account.name, reason: why, at });
      // Asked once the rows are held, so that what others saved meanwhile is seen.
      expectNothingRests(await takeBackState(manager, id));
      return manager.save(
        Object.assign(row, {
          takenBackAt: at,
          takenBackBy: account.name,
          takenBackByAccountId: account.id,
          takenBackReason: why,
        }),
      );
    });
  }

  private async standing(
    manager: EntityManager,
    id: string,
    account: SignedInPerson,
  ): Promise<PastImportRow> {
    const row = await manager.findOneBy(PastImportRow, { id, personId: account.keepsFor });
    if (row === null) throw notFound('import', id);
    if (row.takenBackAt === null) return row;
    throw fieldError({
      field: 'id',
      message: `This import was taken back already (${row.takenBackReason ?? 'no reason given'}): there is nothing left to do.`,
    });
  }
}
