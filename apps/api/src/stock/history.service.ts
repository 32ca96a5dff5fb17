import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { HistoryRow } from './rows/history.entity.js';
import type { RecordKind } from '../database/record-kind.js';

export interface FieldChangeValue {
  readonly field: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** What the history says was done, and the act for several records that it is part of. */
export interface Doing {
  readonly action: string;
  readonly actId: string;
}

const bookkeeping = new Set(['id', 'revision', 'createdAt', 'updatedAt', 'withdrawnAt']);

const comparable = (value: unknown): unknown =>
  value instanceof Date ? value.toISOString() : (value ?? null);

@Injectable()
export class HistoryService {
  constructor(private readonly dataSource: DataSource) {}

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

  /** Newest first. */
  async of(recordId: string): Promise<HistoryRow[]> {
    return this.dataSource
      .getRepository(HistoryRow)
      .find({ where: { recordId }, order: { sequence: 'DESC' }, take: 500 });
  }

  /** What an act for several records did, and what its taking back did, newest first. */
  async ofAct(actId: string): Promise<HistoryRow[]> {
    return this.dataSource
      .getRepository(HistoryRow)
      .find({ where: { actId }, order: { sequence: 'DESC' } });
  }
}
