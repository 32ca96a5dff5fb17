import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../../clock/clock.js';
import { notFound } from '../../errors/request-error.js';
import type { SignedInPerson } from '../../graphql/request-context.js';
import { changesReceivedAt, receivedAndUsed } from '../../stock/received-rows.js';
import type { HistoryRow } from '../../stock/rows/history.entity.js';
import { lineExchanges } from '../partners/partner-install-rows.js';
import { type SharedKind, sharedKinds } from '../share-fields.js';
import { recordsHere } from '../share-planning.js';
import type { SharedRecord } from '../share-record.js';
import { type Changed, expectSoundPedigree, writeChanged } from '../share-writing.js';

/** How many changes were taken back, and how many stay since the record was changed or is in use since. */
export interface TakenBack {
  readonly taken: number;
  readonly left: number;
}

/** What of a record is as it was before it came: withdrawn where it was new, else the values of before. */
const before = (record: SharedRecord, change: HistoryRow, at: Date, why: string): Changed => {
  const fields: Readonly<Record<string, unknown>> =
    change.revision === 1
      ? { withdrawnAt: at.toISOString(), withdrawnReason: why }
      : Object.fromEntries(
          Object.entries(change.changes)
            .filter(([name]) => name in record)
            .map(([name, value]) => [name, value.before]),
        );
  return {
    record: { ...record, ...fields },
    changes: Object.entries(fields).map(([field, after]) => ({
      ...{ field, before: record[field] ?? null, after },
    })),
  };
};

/** What last came of a line from a partner's install, without anybody looking at it first; and the way to take it back. */
@Injectable()
export class WhatCameService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  /** Changes that were taken in together, in the order in which they were written. */
  async list(installId: string, lineId: string): Promise<HistoryRow[]> {
    const { manager } = this.dataSource;
    return changesReceivedAt(manager, await this.cameAt(manager, installId, lineId));
  }

  /** Takes back all of it that nobody has changed or used since; what is taken back goes out as a change of this install. */
  takeBack(installId: string, lineId: string, person: SignedInPerson): Promise<TakenBack> {
    return this.dataSource.transaction(async (manager) => {
      // One at a time, and no parent changed between the check and the end.
      await manager.query('SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE');
      const came = await changesReceivedAt(manager, await this.cameAt(manager, installId, lineId));
      let taken = 0;
      for (const kind of [...sharedKinds].reverse())
        taken += await this.takeKindBack(
          manager,
          kind,
          came.filter(({ recordKind }) => recordKind === kind.kind),
          person.name,
        );
      await expectSoundPedigree(manager);
      return { taken, left: came.length - taken };
    });
  }

  private async takeKindBack(
    manager: EntityManager,
    kind: SharedKind,
    came: readonly HistoryRow[],
    by: string,
  ): Promise<number> {
    if (came.length === 0) return 0;
    const ids = came.map(({ recordId }) => recordId);
    const here = await recordsHere(manager, kind, ids);
    const used = await receivedAndUsed(manager, kind.table, came);
    const now = this.clock.now();
    const back = came.flatMap((change) => {
      const record = here.get(change.recordId);
      if (record === undefined || used.has(change.recordId)) return [];
      return [before(record, change, now, `taken back: came from ${change.byName}`)];
    });
    // Those that were new and those that were changed have different fields to write.
    await writeChanged(manager, kind, back, by, 'corrected');
    return back.length;
  }

  private async cameAt(manager: EntityManager, installId: string, lineId: string): Promise<Date> {
    const rows = await lineExchanges(manager, installId);
    const cameAt = rows.find((row) => row.lineId === lineId)?.cameAt ?? null;
    if (cameAt === null) throw notFound('line that came from the partner', lineId);
    return cameAt;
  }
}
