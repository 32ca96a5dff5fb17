import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { trimmed } from '../database/given.js';
import { RecordStore, type RecordType } from '../stock/record-store.js';
import type { RecordRow } from '../database/record.entity.js';
import { RequestError, notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { changeMade } from '../stock/history-rows.js';
import { isCorrected } from '../stock/score-rows.js';
import type { UndoEntryInput } from './entry.model.js';
import { DAYS_KEPT, onceAnEntry } from '../stock/once-an-entry.js';
import { type EntryChange, ReceivedEntryRow } from '../stock/rows/received-entry.entity.js';
import {
  classCountRecord,
  fishRecord,
  lossRecord,
  scoreRecord,
  scoringRecord,
} from '../stock/record-types.js';

/** Kinds of records that an entry of the sorting bench can touch. */
const undoable = new Map<string, RecordType<RecordRow>>(
  [fishRecord, scoreRecord, scoringRecord, lossRecord, classCountRecord].map((type) => [
    type.kind,
    type as unknown as RecordType<RecordRow>,
  ]),
);

@Injectable()
export class EntriesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  /**
   * Takes an entry back: what it recorded is withdrawn, what it changed gets its earlier values again. A record that
   * was changed after the entry is left alone and the undoing refused.
   */
  undo(input: UndoEntryInput, person: SignedInPerson): Promise<ReceivedEntryRow> {
    const sent = { id: input.entryId, kind: 'undo' as const, person };
    return this.dataSource.transaction(async (m) => {
      await onceAnEntry(m, sent, {
        apply: async () => ({ answer: null, recordIds: await this.takeBack(m, input, person) }),
        again: () => Promise.resolve(null),
      });
      return m.findOneByOrFail(ReceivedEntryRow, { id: input.entryId });
    });
  }

  private async takeBack(
    m: EntityManager,
    input: UndoEntryInput,
    person: SignedInPerson,
  ): Promise<string[]> {
    const entry = await m.findOne(ReceivedEntryRow, {
      where: { id: input.undoes, personId: person.id },
      lock: { mode: 'pessimistic_write' },
    });
    // An undoing is no entry of before that it could undo itself.
    if (entry === null || entry.id === input.entryId)
      throw new RequestError(
        'NOT_FOUND',
        `The entry ${input.undoes} is not known here, so it cannot be undone: it arrived more than ${DAYS_KEPT} days ago, or in another install. Correct or withdraw the record on its own page.`,
        { id: input.undoes },
      );
    if (entry.undoneBy !== null) return [];
    const reason = trimmed(input.reason) ?? 'undone at the sorting bench';
    for (const change of [...entry.changes].reverse()) {
      await this.takeBackChange(m, change, reason, person.name);
    }
    await m.update(ReceivedEntryRow, { id: entry.id }, { undoneBy: input.entryId });
    return entry.changes.map((change) => change.id);
  }

  private async takeBackChange(
    m: EntityManager,
    change: EntryChange,
    reason: string,
    by: string,
  ): Promise<void> {
    const type = undoable.get(change.kind);
    if (type === undefined) throw notFound(change.kind, change.id);
    const told = await changeMade(m, change.id, change.revision);
    if (told.action === 'recorded') {
      if (type.kind === scoreRecord.kind) await this.expectUncorrected(m, change.id);
      await this.records.withdraw(m, type, change.id, reason, by, change.revision);
      return;
    }
    const earlier = Object.fromEntries(
      Object.entries(told.changes).map(([field, { before }]) => [field, before]),
    );
    await this.records.correct(m, type, change.id, change.revision, earlier, by, 'undone');
  }

  /** A correction of a score is a score of its own: withdrawing the first alone would leave it standing. */
  private async expectUncorrected(m: EntityManager, scoreId: string): Promise<void> {
    if (!(await isCorrected(m, scoreId))) return;
    throw new RequestError(
      'CONFLICT_REVISION',
      'This score was corrected after the entry: withdraw the corrected score on the page of the fish.',
      { id: scoreId },
    );
  }
}
