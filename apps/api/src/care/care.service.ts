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
import { careEntryRecord, eventRecord } from '../stock/record-types.js';
import { SpawnLogService } from '../spawns/spawn-log.service.js';
import type { SpawnEventRow } from '../stock/rows/spawn-entries.entity.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import { SpawnsService } from '../spawns/spawns.service.js';
import type { CareEntryRow } from '../stock/rows/care.entity.js';
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

/** Writes the log: events go to the spawn's events, everything else to the care entries. */
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
    const { spawnId, entryId } = input;
    if ((await this.eventOf(entryId, spawnId)) !== null) {
      await this.events.correctEvent(input, person);
      return;
    }
    if (input.at != null) expectTimeHappened(this.clock, input.at);
    await this.inSpawn(spawnId, async (m) => {
      await this.expectEntry(m, entryId, spawnId);
      const changes: Partial<CareEntryRow> = {
        ...(input.at != null && { at: input.at }),
        ...(input.note !== undefined && { note: trimmed(input.note) ?? null }),
      };
      await this.records.correct<CareEntryRow>(
        m,
        careEntryRecord,
        entryId,
        input.revision ?? undefined,
        changes,
        person.name,
      );
    });
  }

  /** Taking back twice is taking back once. */
  async undo(input: UndoCareInput, person: SignedInPerson): Promise<void> {
    const { spawnId, entryId } = input;
    const reason = trimmed(input.reason) ?? 'undone';
    const event = await this.eventOf(entryId, spawnId);
    if (event !== null) {
      if (event.withdrawnAt === null)
        await this.events.withdrawEntry(
          { spawnId, entryId, reason, zone: input.zone ?? null },
          person,
        );
      return;
    }
    await this.inSpawn(spawnId, async (m) => {
      const row = await this.expectEntry(m, entryId, spawnId);
      if (row.withdrawnAt !== null) return;
      await this.records.withdraw<CareEntryRow>(m, careEntryRecord, entryId, reason, person.name);
    });
  }

  private async eventOf(id: string, spawnId: string): Promise<SpawnEventRow | null> {
    const event = await this.records.known(this.dataSource.manager, eventRecord, id);
    return event?.spawnId === spawnId ? event : null;
  }

  private async expectEntry(m: EntityManager, id: string, spawnId: string): Promise<CareEntryRow> {
    const row = await this.records.known(m, careEntryRecord, id);
    if (row?.spawnId !== spawnId) throw notFound('entry of this spawn', id);
    return row;
  }

  private save(
    person: SignedInPerson,
    row: Pick<CareEntryRow, 'id' | 'spawnId' | 'step' | 'at' | 'action' | 'note'>,
  ): Promise<string> {
    return this.inSpawn(row.spawnId, async (m) => {
      const saved = await this.records.create<CareEntryRow>(m, careEntryRecord, row, person.name);
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
