import { Injectable } from '@nestjs/common';
import type { DeepPartial, EntityManager, EntityTarget } from 'typeorm';
import { currentActor } from '../access/acting.js';
import { seesAll } from '../access/actor.js';
import { oneAtATime } from '../database/one-at-a-time.js';
import { Clock } from '../clock/clock.js';
import { RequestError, fieldError, notFound } from '../errors/request-error.js';
import { type Doing, HistoryService } from './history.service.js';
import type { RecordKind } from '../database/record-kind.js';
import type { RecordRow } from '../database/record.entity.js';

/** What identifies a table of records and the words used for one of them. */
export interface RecordType<Row extends RecordRow> {
  readonly target: EntityTarget<Row>;
  readonly kind: RecordKind;
  readonly word: string;
}

/**
 * Rows go into the tables themselves: views in which a part is empty take no row. Whoever reads through them changes records of their own
 * alone, and of those nothing is empty.
 */
const saveIn = async <Row extends RecordRow>(manager: EntityManager, row: Row): Promise<Row> => {
  if (seesAll(currentActor())) return (await manager.save(row)) as Row;
  const path = "set_config('search_path', $1, true)";
  const [before] = (await manager.query(`SELECT current_setting('search_path') AS path,
    (SELECT reset_val FROM pg_settings WHERE name = 'search_path') AS tables`)) as {
    path: string;
    tables: string;
  }[];
  await manager.query(`SELECT ${path}`, [before?.tables]);
  const saved = (await manager.save(row)) as Row;
  await manager.query(`SELECT ${path}`, [before?.path]);
  return saved;
};

/**
 * Creates, corrects and withdraws records: every change is locked, counted in `revision` and told in the history,
 * all in the caller's transaction.
 */
@Injectable()
export class RecordStore {
  constructor(
    private readonly history: HistoryService,
    private readonly clock: Clock,
  ) {}

  async find<Row extends RecordRow>(
    manager: EntityManager,
    type: RecordType<Row>,
    id: string,
  ): Promise<Row> {
    const row = await this.known(manager, type, id);
    if (row === null) throw notFound(type.word, id);
    return row;
  }

  /** The record with that id, withdrawn or not, where there is one. */
  known<Row extends RecordRow>(
    manager: EntityManager,
    type: RecordType<Row>,
    id: string,
  ): Promise<Row | null> {
    return manager.findOne(type.target, { where: { id } as never });
  }

  /** The same where it is not withdrawn. */
  async standing<Row extends RecordRow>(
    manager: EntityManager,
    type: RecordType<Row>,
    id: string,
  ): Promise<Row | null> {
    const row = await this.known(manager, type, id);
    return row === null || row.withdrawnAt !== null ? null : row;
  }

  /** Sending the same new record twice makes it once: the second call finds the first one's row. */
  async create<Row extends RecordRow>(
    manager: EntityManager,
    type: RecordType<Row>,
    row: DeepPartial<Row> & { id: string },
    by: string,
    doing: string | Doing = 'recorded',
  ): Promise<Row> {
    // Two senders of the same record: the second waits until the first has committed, then finds its row.
    await oneAtATime(manager, row.id);
    const existing = await this.known(manager, type, row.id);
    if (existing !== null) return existing;
    const made = { createdAt: this.clock.now(), ...row } as DeepPartial<Row>;
    const saved = await saveIn(manager, manager.create(type.target, made) as Row);
    await this.history.record(manager, type.kind, null, saved, doing, by);
    return saved;
  }

  async correct<Row extends RecordRow>(
    manager: EntityManager,
    type: RecordType<Row>,
    id: string,
    expectedRevision: number | undefined,
    changes: Partial<Row>,
    by: string,
    doing: string | Doing = 'corrected',
  ): Promise<Row> {
    const row = await this.lock(manager, type, id);
    this.expectRevision(type.word, row, expectedRevision);
    this.expectInForce(type.word, row);
    return this.change(manager, type, row, changes, by, doing);
  }

  /**
   * Takes back what one change of a record did, a withdrawal too: `before` are the values that it changed.
   *
   * @throws RequestError `CONFLICT_REVISION` when the record is no longer at the revision that the change made.
   */
  async reinstate<Row extends RecordRow>(
    manager: EntityManager,
    type: RecordType<Row>,
    made: { readonly id: string; readonly revision: number },
    before: Partial<Row>,
    by: string,
    doing: string | Doing,
  ): Promise<Row> {
    const row = await this.lock(manager, type, made.id);
    this.expectRevision(type.word, row, made.revision);
    const inForce = (before.withdrawnReason === null ? { withdrawnAt: null } : {}) as Partial<Row>;
    return this.change(manager, type, row, { ...before, ...inForce }, by, doing);
  }

  private async change<Row extends RecordRow>(
    manager: EntityManager,
    type: RecordType<Row>,
    row: Row,
    changes: Partial<Row>,
    by: string,
    doing: string | Doing,
  ): Promise<Row> {
    const before = { ...row };
    Object.assign(row, changes);
    if (this.history.changesBetween(before, row).length === 0) return row;
    row.revision += 1;
    const saved = await saveIn(manager, row);
    await this.history.record(manager, type.kind, before, saved, doing, by);
    return saved;
  }

  async withdraw<Row extends RecordRow>(
    manager: EntityManager,
    type: RecordType<Row>,
    id: string,
    reason: string,
    by: string,
    expectedRevision?: number,
    doing: string | Doing = 'withdrawn',
  ): Promise<Row> {
    if (reason.trim() === '') {
      throw fieldError({ field: 'reason', message: 'Say why the record is withdrawn.' });
    }
    const changes = {
      withdrawnAt: this.clock.now(),
      withdrawnReason: reason.trim(),
    } as Partial<Row>;
    return this.correct(manager, type, id, expectedRevision, changes, by, doing);
  }

  /** Held until the transaction ends: who changes it at the same time waits, and then sees what was made of it. */
  async lock<Row extends RecordRow>(
    manager: EntityManager,
    type: RecordType<Row>,
    id: string,
  ): Promise<Row> {
    const row = await manager.findOne(type.target, {
      where: { id } as never,
      lock: { mode: 'pessimistic_write' },
    });
    if (row === null) throw notFound(type.word, id);
    return row;
  }

  private expectRevision(word: string, row: RecordRow, expected: number | undefined): void {
    if (expected === undefined || expected === row.revision) return;
    throw new RequestError(
      'CONFLICT_REVISION',
      `This ${word} was changed meanwhile (you opened revision ${expected}, it is now ${row.revision}): look at the newer values, then save again.`,
      { id: row.id, expectedRevision: expected, currentRevision: row.revision },
    );
  }

  private expectInForce(word: string, row: RecordRow): void {
    if (row.withdrawnAt === null) return;
    throw fieldError({
      field: 'id',
      message: `This ${word} was withdrawn (${row.withdrawnReason ?? 'no reason given'}): record a new one instead.`,
    });
  }
}
