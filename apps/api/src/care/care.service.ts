import { randomUUID } from 'node:crypto';
import { isSpawnEvent } from '@linewright/care';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectTimeHappened } from '../clock/expect-happened.js';
import { trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { fieldError, notFound } from '../errors/request-error.js';
import type { SpawnEventKind } from '../graphql/enums.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { careRecord, eventRecord } from '../stock/record-types.js';
import { SpawnLogService } from '../spawns/spawn-log.service.js';
import type { SpawnEventRow } from '../stock/rows/spawn-log.entity.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import { SpawnsService } from '../spawns/spawns.service.js';
import type { CareRecordRow } from '../stock/rows/care.entity.js';
import type {
  CorrectCareInput,
  RecordCareInput,
  SkipCareInput,
  UndoCareInput,
} from './care.inputs.js';

const expectStep = (step: string): void => {
  if (/^[a-z][a-z0-9_]{0,39}$/.test(step) && step !== 'decided') return;
  throw fieldError({
    field: 'step',
    message: `"${step}" is not a step that can be recorded: give the id of a step of the calendar.`,
  });
};

/** Writes the log: events go to the spawn's events, everything else to the care records. */
@Injectable()
export class CareService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly spawns: SpawnsService,
    private readonly events: SpawnLogService,
    private readonly clock: Clock,
  ) {}

  async record(input: RecordCareInput, person: SignedInPerson): Promise<string> {
    const { spawnId, step, at } = input;
    expectStep(step);
    const id = input.id ?? randomUUID();
    const note = trimmed(input.note) ?? null;
    if (!isSpawnEvent(step)) {
      expectTimeHappened(this.clock, at);
      return this.save(person, { id, spawnId, step, at, action: 'done', note });
    }
    const event = { id, spawnId, kind: step as SpawnEventKind, at, note, zone: input.zone ?? null };
    await this.events.recordEvent(event, person);
    return id;
  }

  skip(input: SkipCareInput, person: SignedInPerson): Promise<string> {
    const { spawnId, step, at } = input;
    expectStep(step);
    expectTimeHappened(this.clock, at);
    const note = trimmed(input.reason) ?? null;
    if (note === null) {
      throw fieldError({ field: 'reason', message: 'Say why it is skipped.' });
    }
    return this.save(person, {
      id: input.id ?? randomUUID(),
      spawnId,
      step,
      at,
      action: 'skipped',
      note,
    });
  }

  async correct(input: CorrectCareInput, person: SignedInPerson): Promise<void> {
    const { spawnId, recordId } = input;
    if ((await this.eventOf(recordId, spawnId)) !== null) {
      await this.events.correctEvent(input, person);
      return;
    }
    if (input.at != null) expectTimeHappened(this.clock, input.at);
    await this.inSpawn(spawnId, async (m) => {
      await this.expectCareRecord(m, recordId, spawnId);
      const changes: Partial<CareRecordRow> = {
        ...(input.at != null && { at: input.at }),
        ...(input.note !== undefined && { note: trimmed(input.note) ?? null }),
      };
      await this.records.correct<CareRecordRow>(
        m,
        careRecord,
        recordId,
        input.revision ?? undefined,
        changes,
        person.name,
      );
    });
  }

  /** Taking back twice is taking back once. */
  async undo(input: UndoCareInput, person: SignedInPerson): Promise<void> {
    const { spawnId, recordId } = input;
    const reason = trimmed(input.reason) ?? 'undone';
    const event = await this.eventOf(recordId, spawnId);
    if (event !== null) {
      if (event.withdrawnAt === null)
        await this.events.withdraw({ spawnId, recordId, reason, zone: input.zone ?? null }, person);
      return;
    }
    await this.inSpawn(spawnId, async (m) => {
      const row = await this.expectCareRecord(m, recordId, spawnId);
      if (row.withdrawnAt !== null) return;
      await this.records.withdraw<CareRecordRow>(m, careRecord, recordId, reason, person.name);
    });
  }

  private async eventOf(id: string, spawnId: string): Promise<SpawnEventRow | null> {
    const event = await this.records.known(this.dataSource.manager, eventRecord, id);
    return event?.spawnId === spawnId ? event : null;
  }

  private async expectCareRecord(
    m: EntityManager,
    id: string,
    spawnId: string,
  ): Promise<CareRecordRow> {
    const row = await this.records.known(m, careRecord, id);
    if (row?.spawnId !== spawnId) throw notFound('record of this spawn', id);
    return row;
  }

  private save(
    person: SignedInPerson,
    row: Pick<CareRecordRow, 'id' | 'spawnId' | 'step' | 'at' | 'action' | 'note'>,
  ): Promise<string> {
    return this.inSpawn(row.spawnId, async (m) => {
      const saved = await this.records.create<CareRecordRow>(m, careRecord, row, person.name);
      return saved.id;
    });
  }

  private async inSpawn<T>(
    spawnId: string,
    work: (m: EntityManager, spawn: SpawnRow) => Promise<T>,
  ): Promise<T> {
    const spawn = await this.spawns.one(spawnId);
    if (spawn.withdrawnAt !== null) {
      throw fieldError({
        field: 'spawnId',
        message: `Spawn ${spawn.tag} was withdrawn: record this in another.`,
      });
    }
    return this.dataSource.transaction((m) => work(m, spawn));
  }
}
