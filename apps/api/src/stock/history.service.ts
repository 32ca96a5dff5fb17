import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager, In, LessThan } from 'typeorm';
import { HistoryRow } from './rows/history.entity.js';
import type { RecordKind } from '../database/record-kind.js';
import { RequestError } from '../errors/request-error.js';
import { rowsByOwner } from '../graphql/row-loader.js';
import type { KeysetPage } from '../graphql/keyset.js';
import { pageSize, readCursor, writeCursor } from '../graphql/page.js';

export interface FieldChangeValue {
  readonly field: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** Changes that are read beside a record; more are read page by page. */
const MOST_BESIDE = 500;

const NEWEST_BESIDE = `
  SELECT r.sequence FROM (
    SELECT sequence, row_number() OVER (PARTITION BY record_id ORDER BY sequence DESC) AS place
    FROM record_history WHERE record_id = ANY(:ids)) r
  WHERE r.place <= :most`;

const sequenceIn = (cursor: string): string => {
  const { id } = readCursor(cursor);
  if (/^\d{1,18}$/.test(id)) return id;
  throw new RequestError(
    'CURSOR_INVALID',
    `"${cursor}" is not a cursor of this list: start again without "after".`,
  );
};

/** What the history says was done, with the act for several records that it is part of, and for which account where the program itself writes. */
export interface Doing {
  readonly action: string;
  readonly actId?: string;
  readonly byAccountId?: string;
}

const bookkeeping = new Set([
  ...['id', 'revision', 'createdAt', 'updatedAt', 'withdrawnAt', 'byAccountId'],
  ...['madeHere', 'applied'],
]);

const comparable = (value: unknown): unknown =>
  value instanceof Date ? value.toISOString() : (value ?? null);

@Injectable()
export class HistoryService {
  private readonly beside;
  private readonly ofActs;

  constructor(private readonly dataSource: DataSource) {
    this.beside = rowsByOwner(
      (ids) =>
        this.repository
          .createQueryBuilder('h')
          .where(`h.sequence IN (${NEWEST_BESIDE})`, { ids, most: MOST_BESIDE + 1 })
          .orderBy('h.sequence', 'DESC')
          .getMany(),
      (row) => row.recordId,
      { cache: false },
    );
    this.ofActs = rowsByOwner(
      (ids) => this.repository.find({ where: { actId: In(ids) }, order: { sequence: 'DESC' } }),
      (row) => row.actId,
      { cache: false },
    );
  }

  changesBetween(before: object | null, after: object): FieldChangeValue[] {
    const old = (before ?? {}) as Record<string, unknown>;
    return Object.entries(after)
      .filter(([field]) => !bookkeeping.has(field))
      .map(([field, value]) => ({
        field,
        before: comparable(old[field]),
        after: comparable(value),
      }))
      .filter((c) => JSON.stringify(c.before) !== JSON.stringify(c.after));
  }

  async record(
    manager: EntityManager,
    kind: RecordKind,
    before: object | null,
    after: { id: string; revision: number },
    doing: string | Doing,
    by: string,
  ): Promise<void> {
    const changes = Object.fromEntries(
      this.changesBetween(before, after).map((c) => [
        c.field,
        { before: c.before, after: c.after },
      ]),
    );
    const told = typeof doing === 'string' ? { action: doing } : doing;
    await manager.insert(HistoryRow, {
      recordKind: kind,
      recordId: after.id,
      revision: after.revision,
      byName: by,
      ...told,
      changes: changes as never,
    });
  }

  /**
   * All changes of a record, newest first; of all records that a request asks for, together.
   *
   * @throws RequestError `HISTORY_LONG` where some would be missing.
   */
  async of(recordId: string, context: object): Promise<HistoryRow[]> {
    const rows = await this.beside.of(context).load(recordId);
    if (rows.length <= MOST_BESIDE) return rows;
    throw new RequestError(
      'HISTORY_LONG',
      `The record ${recordId} was changed more than ${MOST_BESIDE} times: read its changes page by page with the query "history".`,
    );
  }

  /** One page of the changes of a record, newest first. */
  async page(
    recordKind: RecordKind,
    recordId: string,
    first: number,
    after: string | undefined,
  ): Promise<KeysetPage<HistoryRow>> {
    const size = pageSize(first);
    const where = { recordKind, recordId };
    const older = after === undefined ? null : sequenceIn(after);
    const [totalCount, rows] = await Promise.all([
      this.repository.countBy(where),
      this.repository.find({
        where: { ...where, ...(older !== null && { sequence: LessThan(older) }) },
        order: { sequence: 'DESC' },
        take: size + 1,
      }),
    ]);
    const edges = rows
      .slice(0, size)
      .map((node) => ({ cursor: writeCursor(null, node.sequence), node }));
    return {
      edges,
      pageInfo: { hasNextPage: rows.length > size, endCursor: edges.at(-1)?.cursor ?? null },
      totalCount,
    };
  }

  private get repository() {
    return this.dataSource.getRepository(HistoryRow);
  }

  /** What an act for several records did, and what its taking back did, newest first. */
  ofAct(actId: string, context: object): Promise<HistoryRow[]> {
    return this.ofActs.of(context).load(actId);
  }
}
