import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectTimeHappened } from '../clock/expect-happened.js';
import { trimmed } from '../database/given.js';
import { RecordStore, type RecordType } from '../stock/record-store.js';
import { type SentEntry, onceAnEntry } from '../stock/once-an-entry.js';
import { FieldChecks } from '../errors/field-checks.js';
import { fieldError, notFound } from '../errors/request-error.js';
import { LociService } from '../loci/loci.service.js';
import { readPhenotype } from '../loci/phenotype-reading.js';
import { expectPossibleParents } from '../stock/parentage.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { expectDayOfBrood } from './day-of-brood.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import type {
  ClassCountRow,
  SpawnCountRow,
  SpawnEventRow,
  SpawnLossRow,
} from '../stock/rows/spawn-log.entity.js';
import { expectPossibleIntervals } from './event-intervals.js';
import { type EventChange, factsAfter } from '../stock/spawn-event-facts.js';
import { expectSpawnDates } from './spawn-dates.js';
import type {
  ClassCountInput,
  SpawnCountInput,
  SpawnEventInput,
  SpawnLossInput,
  WithdrawFromSpawnLogInput,
} from './spawn.inputs.js';
import {
  classCountRecord,
  countRecord,
  eventRecord,
  lossRecord,
  spawnRecord,
} from '../stock/record-types.js';

export interface CorrectEvent {
  readonly spawnId: string;
  readonly recordId: string;
  readonly at?: Date | null;
  readonly note?: string | null;
  readonly zone?: string | null;
  readonly revision?: number | null;
}

const MOST_COUNTED = 100_000;

const expectCount = (what: string, number: number, least: number): void => {
  if (Number.isInteger(number) && number >= least && number <= MOST_COUNTED) return;
  throw fieldError({
    field: 'number',
    message: `${number} ${what} cannot be: give a whole number from ${least} to ${MOST_COUNTED}.`,
  });
};

/** A stage or kind as it is spoken of: `free_swimming` is "free swimming". */
const spoken = (word: string): string => word.replaceAll('_', ' ');

/** What is written down about a brood as it happens. */
@Injectable()
export class SpawnLogService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly loci: LociService,
    private readonly clock: Clock,
  ) {}

  async recordEvent(input: SpawnEventInput, person: SignedInPerson): Promise<SpawnRow> {
    expectTimeHappened(this.clock, input.at);
    return this.inSpawn(input.spawnId, async (m, spawn) => {
      const { kind, at } = input;
      const row = {
        id: input.id ?? randomUUID(),
        spawnId: spawn.id,
        kind,
        at,
        note: trimmed(input.note) ?? null,
      };
      const again = (await this.records.known(m, eventRecord, row.id)) !== null;
      const saved = await this.records.create<SpawnEventRow>(m, eventRecord, row, person.name);
      // Sent again by a device that did not hear the answer, after it was taken back: it stays taken back.
      if (saved.withdrawnAt !== null) return;
      const zone = input.zone ?? this.clock.zone();
      // Sent again it is known, and whatever was recorded since has nothing to say against it.
      const moved = again ? null : saved;
      await this.followEvent(m, spawn, { before: null, after: saved, zone }, person, moved);
    });
  }

  async correctEvent(input: CorrectEvent, person: SignedInPerson): Promise<SpawnRow> {
    if (input.at != null) expectTimeHappened(this.clock, input.at);
    return this.inSpawn(input.spawnId, async (m, spawn) => {
      const before = await this.records.known(m, eventRecord, input.recordId);
      if (before?.spawnId !== spawn.id) throw notFound('event of this spawn', input.recordId);
      const changes: Partial<SpawnEventRow> = {
        ...(input.at != null && { at: input.at }),
        ...(input.note !== undefined && { note: trimmed(input.note) ?? null }),
      };
      const after = await this.records.correct<SpawnEventRow>(
        m,
        eventRecord,
        before.id,
        input.revision ?? undefined,
        changes,
        person.name,
      );
      const zone = input.zone ?? this.clock.zone();
      const moved = before.at.getTime() === after.at.getTime() ? null : after;
      await this.followEvent(m, spawn, { before, after, zone }, person, moved);
    });
  }

  async recordCount(input: SpawnCountInput, person: SignedInPerson): Promise<SpawnRow> {
    const { stage, countedOn, number } = input;
    expectCount(spoken(stage), number, 0);
    return this.inSpawn(input.spawnId, async (m, spawn) => {
      expectDayOfBrood(
        this.clock,
        'countedOn',
        `Counted ${spoken(stage)}`,
        countedOn,
        spawn.spawnedOn,
      );
      const row = {
        id: input.id ?? randomUUID(),
        spawnId: spawn.id,
        stage,
        countedOn,
        number,
        note: trimmed(input.note) ?? null,
      };
      await this.records.create<SpawnCountRow>(m, countRecord, row, person.name);
    });
  }

  async recordLoss(input: SpawnLossInput, person: SignedInPerson): Promise<SpawnRow> {
    const reason = trimmed(input.reason) ?? '';
    const checks = new FieldChecks();
    checks.keepNow(() => expectCount(input.kind, input.number, 1));
    if (reason === '')
      checks.refuse(
        'reason',
        `Say why ${input.number} ${input.kind}: the reason is what the line learns from.`,
      );
    checks.expectNone();
    const sent = { id: input.entryId, kind: 'loss' as const, person };
    return this.inSpawnOnce(sent, input.spawnId, async (m, spawn) => {
      const { kind, number } = input;
      expectDayOfBrood(this.clock, 'on', `${number} ${kind}`, input.on, spawn.spawnedOn);
      const phenotype = await this.phenotypeOf(m, input);
      const row = {
        id: input.id ?? randomUUID(),
        spawnId: spawn.id,
        kind,
        onDate: input.on,
        number,
        reason,
        heritable: input.heritable,
        locusId: input.locusId ?? null,
        phenotype,
        note: trimmed(input.note) ?? null,
      };
      return (await this.records.create<SpawnLossRow>(m, lossRecord, row, person.name)).id;
    });
  }

  async recordClassCount(input: ClassCountInput, person: SignedInPerson): Promise<SpawnRow> {
    const phenotype = input.phenotype.trim();
    const checks = new FieldChecks();
    checks.keepNow(() => expectCount('of a class', input.number, 0));
    if (phenotype === '') checks.refuse('phenotype', 'Name the class that was counted.');
    checks.expectNone();
    const sent = { id: input.entryId, kind: 'class_count' as const, person };
    return this.inSpawnOnce(sent, input.spawnId, async (m, spawn) => {
      const { locusIds, number, countedOn } = input;
      for (const id of locusIds) await this.loci.find(id, m);
      const row = {
        id: input.id ?? randomUUID(),
        spawnId: spawn.id,
        locusIds,
        phenotype,
        number,
        countedOn,
        note: trimmed(input.note) ?? null,
      };
      return (await this.records.create<ClassCountRow>(m, classCountRecord, row, person.name)).id;
    });
  }

  withdraw(
    input: WithdrawFromSpawnLogInput & { readonly zone?: string | null },
    person: SignedInPerson,
  ): Promise<SpawnRow> {
    return this.inSpawn(input.spawnId, async (m, spawn) => {
      for (const type of [
        eventRecord,
        countRecord,
        lossRecord,
        classCountRecord,
      ] as RecordType<SpawnEventRow>[]) {
        const before = await this.records.known(m, type, input.recordId);
        if (before?.spawnId !== spawn.id) continue;
        await this.records.withdraw<SpawnEventRow>(
          m,
          type,
          input.recordId,
          input.reason,
          person.name,
        );
        if (type === eventRecord) {
          const zone = input.zone ?? this.clock.zone();
          await this.followEvent(m, spawn, { before, after: null, zone }, person);
        }
        return;
      }
      throw notFound('record of this spawn', input.recordId);
    });
  }

  /** Some events are also facts of the spawn itself: its dates, and that it failed. `moved` is the event whose time is new. */
  private async followEvent(
    m: EntityManager,
    spawn: SpawnRow,
    change: EventChange,
    person: SignedInPerson,
    moved: SpawnEventRow | null = null,
  ): Promise<void> {
    // Two who record at once: the second waits here, and sees what the first made of it.
    const locked = await this.records.lock(m, spawnRecord, spawn.id);
    const changes = await factsAfter(m, locked, change);
    const next = { ...locked, ...changes };
    // Taking back is never refused: what then does not fit is told where it shows.
    const isNewDay = 'spawnedOn' in changes || 'hatchDate' in changes;
    if (change.after !== null && isNewDay) await this.expectPossible(m, next);
    if (moved !== null) await expectPossibleIntervals(m, locked, moved);
    if (Object.keys(changes).length === 0) return;
    await this.records.correct<SpawnRow>(m, spawnRecord, spawn.id, undefined, changes, person.name);
  }

  private async expectPossible(m: EntityManager, spawn: SpawnRow): Promise<void> {
    const { spawnedOn, hatchDate, sireId, damId } = spawn;
    expectSpawnDates(this.clock, spawnedOn, hatchDate);
    const young = { spawnId: spawn.id, sireId, damId, hatchDate: hatchDate ?? spawnedOn };
    await expectPossibleParents(m, young);
  }

  /** Read where the entry is applied: sent again it is known, whatever became of the locus since. */
  private async phenotypeOf(m: EntityManager, input: SpawnLossInput): Promise<string | null> {
    const locus = input.locusId ? await this.loci.find(input.locusId, m) : null;
    const seen = trimmed(input.phenotype) ?? null;
    if (seen === null) return null;
    if (locus !== null) return readPhenotype(locus, seen).id;
    throw fieldError({ field: 'locusId', message: 'Choose the locus at which it was seen.' });
  }

  private async standingSpawn(m: EntityManager, spawnId: string): Promise<SpawnRow> {
    const spawn = await this.records.find(m, spawnRecord, spawnId);
    if (spawn.withdrawnAt === null) return spawn;
    throw fieldError({
      field: 'spawnId',
      message: `Spawn ${spawn.tag} was withdrawn: record this in another.`,
    });
  }

  /** `work` answers the id of the record it made. */
  private inSpawnOnce(
    sent: SentEntry,
    spawnId: string,
    work: (m: EntityManager, spawn: SpawnRow) => Promise<string>,
  ): Promise<SpawnRow> {
    return this.dataSource.transaction(async (m) => {
      await onceAnEntry(m, sent, {
        apply: async () => ({
          answer: null,
          recordIds: [await work(m, await this.standingSpawn(m, spawnId))],
        }),
        again: () => Promise.resolve(null),
      });
      return this.records.find(m, spawnRecord, spawnId);
    });
  }

  private inSpawn(
    spawnId: string,
    work: (m: EntityManager, spawn: SpawnRow) => Promise<void>,
  ): Promise<SpawnRow> {
    return this.dataSource.transaction(async (m) => {
      await work(m, await this.standingSpawn(m, spawnId));
      return this.records.find(m, spawnRecord, spawnId);
    });
  }
}
