import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { RecordStore } from '../stock/record-store.js';
import { fieldError, notFound } from '../errors/request-error.js';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { changesOfAct, lastChangeOf } from '../stock/history-rows.js';
import { FishActRow } from '../stock/rows/fish-act.entity.js';
import {
  expectNoneInTheWay,
  forEachFish,
  type InTheWay,
  rolledBack,
  type Went,
} from './fish-in-the-way.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import { inOneAct } from './fish-together.service.js';
import { fishRecord, lineRecord, spawnRecord } from '../stock/record-types.js';

/** Acts for several fish, and the way to take one back as a whole. */
@Injectable()
export class FishActsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /** Newest first. */
  list(
    person: SignedInPerson,
    first: number,
    after: string | null,
  ): Promise<KeysetPage<FishActRow>> {
    const query = this.dataSource
      .getRepository(FishActRow)
      .createQueryBuilder('a')
      .where('a.person_id = :personId', { personId: person.id });
    const newestFirst = { key: 'a.at', type: 'timestamptz', direction: 'DESC' } as const;
    return keysetPage(query, 'a', newestFirst, first, after ?? undefined);
  }

  async one(id: string, person: SignedInPerson): Promise<FishActRow> {
    const row = await this.dataSource.manager.findOneBy(FishActRow, { id, personId: person.id });
    if (row === null) throw notFound('act for several fish', id);
    return row;
  }

  /** The fish that keep an act from being taken back; none of one that was taken back already. */
  async inTheWay(id: string, person: SignedInPerson): Promise<readonly InTheWay[]> {
    const row = await this.one(id, person);
    if (row.takenBackAt !== null) return [];
    const went = await rolledBack(this.dataSource.manager, (m) => this.undo(m, row, person.name));
    return went.inTheWay;
  }

  /**
   * Puts every fish back to what it was before the act, or none.
   *
   * @throws RequestError `VALIDATION` when it was taken back already, and when fish stand in the way: then `fish` holds the
   * id, tag and reason of each.
   */
  takeBack(id: string, person: SignedInPerson): Promise<FishActRow> {
    return this.dataSource.transaction(async (m) => {
      const row = await m.findOne(FishActRow, {
        where: { id, personId: person.id },
        lock: { mode: 'pessimistic_write' },
      });
      if (row === null) throw notFound('act for several fish', id);
      if (row.takenBackAt !== null)
        throw fieldError({
          field: 'id',
          message: 'This act was taken back already: there is nothing left to do.',
        });
      const { inTheWay } = await this.undo(m, row, person.name);
      expectNoneInTheWay(inTheWay, row.fishCount);
      const at = this.clock.now();
      return m.save(Object.assign(row, { takenBackAt: at, takenBackBy: person.name }));
    });
  }

  private async undo(m: EntityManager, act: FishActRow, by: string): Promise<Went> {
    const told = await changesOfAct(m, act.id);
    const fish = told.map(({ recordId, revision, changes }) => ({
      id: recordId,
      revision,
      before: Object.fromEntries(
        Object.entries(changes).map(([field, change]) => [field, change.before]),
      ) as Partial<FishRow>,
    }));
    const doing = { action: inOneAct('taken back', act.fishCount), actId: act.id };
    return forEachFish(m, fish, async (made) => {
      await this.expectUntouched(m, made);
      const row = await this.records.reinstate<FishRow>(
        m,
        fishRecord,
        made,
        made.before,
        by,
        doing,
      );
      await this.expectStanding(m, row, made.before);
      return row;
    });
  }

  /** Says who did what since; `reinstate` holds the row and looks again. */
  private async expectUntouched(
    m: EntityManager,
    made: { readonly id: string; readonly revision: number },
  ): Promise<void> {
    const last = await lastChangeOf(m, made.id);
    if (last === null || last.revision === made.revision) return;
    throw fieldError({
      field: 'id',
      message: `It was changed since (${last.action}, by ${last.byName}): correct it by hand.`,
    });
  }

  /** What the fish goes back to may have been withdrawn since. */
  private async expectStanding(
    m: EntityManager,
    row: FishRow,
    before: Partial<FishRow>,
  ): Promise<void> {
    const comesBack = before.withdrawnReason === null;
    if (row.lineId !== null && (comesBack || before.lineId !== undefined)) {
      const line = await this.records.find(m, lineRecord, row.lineId);
      if (line.withdrawnAt !== null)
        throw fieldError({
          field: 'lineId',
          message: `Its line ${line.code} was withdrawn since.`,
        });
    }
    if (row.spawnId === null || !comesBack) return;
    const spawn = await this.records.find(m, spawnRecord, row.spawnId);
    if (spawn.withdrawnAt !== null)
      throw fieldError({
        field: 'spawnId',
        message: `Its spawn ${spawn.tag} was withdrawn since.`,
      });
  }
}
