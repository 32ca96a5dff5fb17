import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { given, kept, trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { orTaken } from '../database/unique.js';
import { onceAnEntry } from '../stock/once-an-entry.js';
import { FieldChecks } from '../errors/field-checks.js';
import { RequestError, fieldError } from '../errors/request-error.js';
import type { KeysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import type { Doing } from '../stock/history.service.js';
import { expectNotOwnAncestor, expectPossibleParents } from '../stock/parentage.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import { fishByTag } from '../stock/fish-rows.js';
import { isOnRecord } from '../stock/people-rows.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import type {
  CorrectFishInput,
  CreateFishInput,
  DecideFishInput,
  FishFilter,
  FishSort,
} from './fish.inputs.js';
import { listFish } from '../stock/fish-list.js';
import { spawnOfParent } from '../stock/spawn-rows.js';
import { placeAfter, usualPlace } from '../stock/fish-place.js';
import { fishRecord, spawnRecord } from '../stock/record-types.js';

const taken = (tag: string): string =>
  `The tag "${tag}" is on another of your fish, and tags are never reused: choose another.`;

export const checkedTag = (tag: string): string => {
  const text = tag.trim();
  if (text === '' || text.length > 40) {
    throw fieldError({
      field: 'tag',
      message: `"${tag}" cannot be a tag: give 1 to 40 characters.`,
    });
  }
  return text;
};

interface KnownParents {
  readonly sireId?: string | null | undefined;
  readonly damId?: string | null | undefined;
}

@Injectable()
export class FishService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  list(
    filter: Partial<FishFilter>,
    sort: FishSort,
    first: number,
    after?: string,
  ): Promise<KeysetPage<FishRow>> {
    return listFish(this.dataSource.manager, filter, sort, first, after);
  }

  one(id: string): Promise<FishRow> {
    return this.records.find(this.dataSource.manager, fishRecord, id);
  }

  /** By tag, the owner's own fish before a partner's. */
  byTag(tag: string): Promise<FishRow | null> {
    return fishByTag(this.dataSource.manager, tag.trim());
  }

  create(input: CreateFishInput, person: SignedInPerson): Promise<FishRow> {
    const tag = input.tag.trim();
    const sent = { id: input.entryId, kind: 'new_fish' as const, person };
    const save = this.dataSource.transaction((m) =>
      onceAnEntry(
        m,
        sent,
        this.oneFish(m, () => this.createIn(m, input, person)),
      ),
    );
    return orTaken(save, 'fish_tag_once', 'tag', taken(tag));
  }

  private async createIn(
    m: EntityManager,
    input: CreateFishInput,
    person: SignedInPerson,
  ): Promise<FishRow> {
    const hatchDate = input.hatchDate ?? null;
    const checks = new FieldChecks();
    const tag = checks.keepNow(() => checkedTag(input.tag)) ?? '';
    if (hatchDate !== null)
      checks.keepNow(() => expectDayHappened(this.clock, 'hatchDate', hatchDate));
    const spawnId =
      input.spawnId ??
      (await checks.keep(() =>
        this.spawnOfKnownParents(m, tag, hatchDate, input.lineId ?? null, input, person),
      )) ??
      null;
    checks.expectNone();
    const spawn = spawnId === null ? null : await this.records.find(m, spawnRecord, spawnId);
    if (spawn !== null && spawn.withdrawnAt !== null) {
      throw fieldError({
        field: 'spawnId',
        message: `Spawn ${spawn.tag} was withdrawn: record the fish in another.`,
      });
    }
    const row = {
      id: input.id ?? randomUUID(),
      personId: person.id,
      tag,
      name: trimmed(input.name) ?? null,
      sex: input.sex,
      hatchDate: hatchDate ?? spawn?.hatchDate ?? null,
      lineId: input.lineId ?? spawn?.lineId ?? null,
      spawnId,
      origin: trimmed(input.origin) ?? null,
      declaredUnrelated: input.declaredUnrelated ?? null,
      note: trimmed(input.note) ?? null,
      disposition: input.disposition,
      swimsWithId: usualPlace(person.id, input.disposition),
    };
    return this.records.create<FishRow>(m, fishRecord, row, person.name);
  }

  private oneFish(m: EntityManager, work: () => Promise<FishRow>) {
    return {
      apply: async () => {
        const answer = await work();
        return { answer, recordIds: [answer.id] };
      },
      again: ([id = '']: string[]) => this.records.find(m, fishRecord, id),
    };
  }

  correct(input: CorrectFishInput, person: SignedInPerson): Promise<FishRow> {
    const tag = kept(input.tag);
    const sent = { id: input.entryId, kind: 'sex' as const, person };
    const save = this.dataSource.transaction((m) =>
      onceAnEntry(
        m,
        sent,
        this.oneFish(m, () => this.correctIn(m, input, person)),
      ),
    );
    return orTaken(save, 'fish_tag_once', 'tag', taken(tag ?? ''));
  }

  private async correctIn(
    m: EntityManager,
    input: CorrectFishInput,
    person: SignedInPerson,
  ): Promise<FishRow> {
    const tag = kept(input.tag);
    const row = await this.records.find(m, fishRecord, input.id);
    const hatchDate = input.hatchDate === undefined ? row.hatchDate : input.hatchDate;
    if (hatchDate !== null && hatchDate !== row.hatchDate)
      expectDayHappened(this.clock, 'hatchDate', hatchDate);
    await this.expectSexFitsYoung(m, row, kept(input.sex));
    const spawnId = await this.correctedSpawn(m, row, input, hatchDate, person);
    const changes = given<Partial<FishRow>>({
      ...(tag !== undefined && { tag: checkedTag(tag) }),
      ...(input.name !== undefined && { name: trimmed(input.name) ?? null }),
      ...(kept(input.sex) !== undefined && { sex: kept(input.sex)! }),
      hatchDate,
      ...(input.lineId !== undefined && { lineId: input.lineId }),
      spawnId,
      ...(typeof input.declaredUnrelated === 'boolean' && {
        declaredUnrelated: input.declaredUnrelated,
      }),
      ...(input.origin !== undefined && { origin: trimmed(input.origin) ?? null }),
      ...(input.note !== undefined && { note: trimmed(input.note) ?? null }),
      ...(input.swimsWithId !== undefined && {
        swimsWithId: await this.expectPerson(m, input.swimsWithId),
      }),
    });
    return this.records.correct<FishRow>(
      m,
      fishRecord,
      input.id,
      input.revision,
      changes,
      person.name,
    );
  }

  decide(input: DecideFishInput, person: SignedInPerson): Promise<FishRow> {
    this.expectDecision(input);
    const sent = { id: input.entryId, kind: 'decision' as const, person };
    return this.dataSource.transaction((m) =>
      onceAnEntry(
        m,
        sent,
        this.oneFish(m, () => this.decideIn(m, input, person)),
      ),
    );
  }

  /** @throws RequestError `VALIDATION` for a cull without a reason and a day that is yet to come. */
  expectDecision(input: Pick<DecideFishInput, 'disposition' | 'reason' | 'on'>): void {
    const checks = new FieldChecks();
    if (input.disposition === 'culled' && (trimmed(input.reason) ?? null) === null)
      checks.refuse(
        'reason',
        'Say why the fish is culled: the reason is what the line learns from.',
      );
    checks.keepNow(() => expectDayHappened(this.clock, 'on', input.on));
    checks.expectNone();
  }

  /** In the caller's transaction; `doing` is what the history says was done. */
  async decideIn(
    m: EntityManager,
    input: DecideFishInput,
    person: SignedInPerson,
    doing: string | Doing = 'decided',
  ): Promise<FishRow> {
    const { id, on } = input;
    const before = await this.records.find(m, fishRecord, id);
    const said = await this.expectPerson(m, input.swimsWithId);
    const changes: Partial<FishRow> = {
      disposition: input.disposition,
      dispositionDate: on,
      dispositionReason: trimmed(input.reason) ?? null,
      swimsWithId: placeAfter(input.disposition, before, said, person.id),
    };
    const row = await this.records.correct<FishRow>(
      m,
      fishRecord,
      id,
      input.revision ?? undefined,
      changes,
      person.name,
      doing,
    );
    if (row.hatchDate === null || on >= row.hatchDate) return row;
    throw fieldError({
      field: 'on',
      message: `Decided on ${on}, before ${row.tag} hatched (${row.hatchDate}): correct the day.`,
    });
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<FishRow> {
    return this.dataSource.transaction((m) => this.withdrawIn(m, input, person));
  }

  /** In the caller's transaction; `doing` is what the history says was done. */
  async withdrawIn(
    m: EntityManager,
    input: WithdrawInput,
    person: SignedInPerson,
    doing: string | Doing = 'withdrawn',
  ): Promise<FishRow> {
    await this.records.find(m, fishRecord, input.id);
    const spawn = await spawnOfParent(m, input.id);
    if (spawn !== null) {
      throw new RequestError(
        'IN_USE',
        `This fish is a parent of spawn ${spawn.tag}: correct or withdraw that spawn first.`,
        {
          spawnId: spawn.id,
        },
      );
    }
    return this.records.withdraw<FishRow>(
      m,
      fishRecord,
      input.id,
      input.reason,
      person.name,
      input.revision,
      doing,
    );
  }

  private async expectPerson<Id extends string | null | undefined>(
    m: EntityManager,
    id: Id,
  ): Promise<Id> {
    if (id && !(await isOnRecord(m, id))) {
      throw fieldError({
        field: 'swimsWithId',
        message: `There is nobody with id ${id} on record: choose a partner whose line you took in, or leave it as not known.`,
      });
    }
    return id;
  }

  private async correctedSpawn(
    m: EntityManager,
    row: FishRow,
    input: CorrectFishInput,
    hatchDate: string | null,
    person: SignedInPerson,
  ): Promise<string | null> {
    if (input.spawnId !== undefined) {
      if (input.spawnId === null) return null;
      const spawn = await this.records.find(m, spawnRecord, input.spawnId);
      await expectPossibleParents(m, {
        spawnId: spawn.id,
        sireId: spawn.sireId,
        damId: spawn.damId,
        hatchDate,
      });
      await expectNotOwnAncestor(m, row, [spawn.sireId, spawn.damId]);
      return spawn.id;
    }
    if (input.sireId === undefined && input.damId === undefined) return row.spawnId;
    await expectNotOwnAncestor(m, row, [input.sireId, input.damId]);
    return this.spawnOfKnownParents(m, row.tag, hatchDate, row.lineId, input, person);
  }

  /** A fish's parents are its spawn's: one whose mating has no record yet gets one with what is known. */
  private async spawnOfKnownParents(
    m: EntityManager,
    tag: string,
    hatchDate: string | null,
    lineId: string | null,
    parents: KnownParents,
    person: SignedInPerson,
  ): Promise<string | null> {
    const sireId = parents.sireId ?? null;
    const damId = parents.damId ?? null;
    if (sireId === null && damId === null) return null;
    await expectPossibleParents(m, { spawnId: null, sireId, damId, hatchDate });
    const row = {
      id: randomUUID(),
      personId: person.id,
      tag: `${tag} (from)`,
      lineId,
      sireId,
      damId,
      hatchDate,
    };
    return (await this.records.create<SpawnRow>(m, spawnRecord, row, person.name)).id;
  }

  private async expectSexFitsYoung(
    m: EntityManager,
    row: FishRow,
    sex: string | undefined,
  ): Promise<void> {
    if (sex === undefined || sex === row.sex || (sex !== 'male' && sex !== 'female')) return;
    const role = sex === 'male' ? 'dam' : 'sire';
    const spawn = await spawnOfParent(m, row.id, role);
    if (spawn === null) return;
    throw fieldError({
      field: 'sex',
      message: `${row.tag} is the ${role} of spawn ${spawn.tag} and cannot be ${sex}: correct that spawn first.`,
    });
  }
}
