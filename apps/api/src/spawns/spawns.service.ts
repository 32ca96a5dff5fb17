import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { given, kept, trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { orTaken } from '../database/unique.js';
import { RequestError, fieldError } from '../errors/request-error.js';
import { FieldChecks } from '../errors/field-checks.js';
import { countFishOf, tagsUsedIn } from '../stock/fish-rows.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import { usualPlace } from '../stock/fish-place.js';
import type { KeysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { expectPossibleParents } from '../stock/parentage.js';
import { expectNotRecordedYet, isOtherBrood } from '../stock/same-brood.js';
import { expectSpawnDates } from './spawn-dates.js';
import { listSpawns } from '../stock/spawn-list.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import type {
  AddFishToSpawnInput,
  CorrectSpawnInput,
  CreateSpawnInput,
  SpawnFilter,
  SpawnSort,
} from './spawn.inputs.js';
import { fishRecord, spawnRecord } from '../stock/record-types.js';

const MOST_FISH_AT_ONCE = 600;

const taken = (tag: string): string =>
  `The tag "${tag}" is on another of your spawns: choose another.`;

export const checkedSpawnTag = (tag: string): string => {
  const text = tag.trim();
  if (text === '' || text.length > 60) {
    throw fieldError({
      field: 'tag',
      message: `"${tag}" cannot be a spawn's tag: give 1 to 60 characters.`,
    });
  }
  return text;
};

@Injectable()
export class SpawnsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  one(id: string): Promise<SpawnRow> {
    return this.records.find(this.dataSource.manager, spawnRecord, id);
  }

  list(
    filter: Partial<SpawnFilter>,
    sort: SpawnSort,
    first: number,
    after?: string,
  ): Promise<KeysetPage<SpawnRow>> {
    return listSpawns(this.dataSource.manager, filter, sort, first, after);
  }

  create(input: CreateSpawnInput, person: SignedInPerson): Promise<SpawnRow> {
    const save = this.dataSource.transaction((m) => this.createIn(m, input, person));
    return orTaken(save, 'spawn_tag_once', 'tag', taken(input.tag.trim()));
  }

  /** The same in another feature's transaction (a planned pairing that spawned). */
  async createIn(
    m: EntityManager,
    input: CreateSpawnInput,
    person: SignedInPerson,
  ): Promise<SpawnRow> {
    const spawnedOn = input.spawnedOn ?? null;
    const hatchDate = input.hatchDate ?? null;
    const sireId = input.sireId ?? null;
    const damId = input.damId ?? null;
    const parents = { spawnId: null, sireId, damId, hatchDate: hatchDate ?? spawnedOn };
    const checks = new FieldChecks();
    const tag = checks.keepNow(() => checkedSpawnTag(input.tag)) ?? '';
    checks.keepNow(() => expectSpawnDates(this.clock, spawnedOn, hatchDate));
    await checks.keep(() => expectPossibleParents(m, parents));
    checks.expectNone();
    const id = input.id ?? randomUUID();
    if (input.confirmed !== true)
      await expectNotRecordedYet(m, { id, sireId, damId, spawnedOn, hatchDate });
    const row = {
      id,
      personId: person.id,
      tag,
      lineId: input.lineId ?? null,
      sireId,
      damId,
      pairingId: input.pairingId ?? null,
      spawnedOn,
      hatchDate,
      mixedOrigin: input.mixedOrigin ?? null,
      purpose: trimmed(input.purpose) ?? null,
      note: trimmed(input.note) ?? null,
    };
    return this.records.create<SpawnRow>(m, spawnRecord, row, person.name);
  }

  correct(input: CorrectSpawnInput, person: SignedInPerson): Promise<SpawnRow> {
    const tag = kept(input.tag);
    const save = this.dataSource.transaction(async (m): Promise<SpawnRow> => {
      const row = await this.records.find(m, spawnRecord, input.id);
      const next = {
        ...row,
        ...given({
          sireId: input.sireId,
          damId: input.damId,
          spawnedOn: input.spawnedOn,
          hatchDate: input.hatchDate,
        }),
      };
      const parents = {
        spawnId: row.id,
        sireId: next.sireId,
        damId: next.damId,
        hatchDate: next.hatchDate ?? next.spawnedOn,
      };
      const checks = new FieldChecks();
      const checkedTag = tag === undefined ? undefined : checks.keepNow(() => checkedSpawnTag(tag));
      // Days that came in contradicting one another do not keep a note from being mended.
      if (next.spawnedOn !== row.spawnedOn || next.hatchDate !== row.hatchDate)
        checks.keepNow(() => expectSpawnDates(this.clock, next.spawnedOn, next.hatchDate));
      await checks.keep(() => expectPossibleParents(m, parents));
      checks.expectNone();
      const { sireId, damId, spawnedOn, hatchDate } = next;
      if (input.confirmed !== true && isOtherBrood(row, next))
        await expectNotRecordedYet(m, { id: row.id, sireId, damId, spawnedOn, hatchDate });
      const failed = kept(input.failed);
      const changes = given<Partial<SpawnRow>>({
        ...(checkedTag !== undefined && { tag: checkedTag }),
        ...(input.lineId !== undefined && { lineId: input.lineId }),
        sireId,
        damId,
        spawnedOn,
        hatchDate,
        ...(input.purpose !== undefined && { purpose: trimmed(input.purpose) ?? null }),
        ...(input.note !== undefined && { note: trimmed(input.note) ?? null }),
        ...(typeof input.mixedOrigin === 'boolean' && { mixedOrigin: input.mixedOrigin }),
        ...(failed !== undefined && { failed }),
        ...(input.failedReason !== undefined && {
          failedReason: trimmed(input.failedReason) ?? null,
        }),
      });
      return this.records.correct<SpawnRow>(
        m,
        spawnRecord,
        input.id,
        input.revision,
        changes,
        person.name,
      );
    });
    return orTaken(save, 'spawn_tag_once', 'tag', taken(tag ?? ''));
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<SpawnRow> {
    return this.dataSource.transaction(async (m): Promise<SpawnRow> => {
      const count = await countFishOf(m, { spawnId: input.id });
      if (count > 0) {
        throw new RequestError(
          'IN_USE',
          `${count} recorded fish came from this spawn: withdraw or correct them first.`,
          { count },
        );
      }
      return this.records.withdraw<SpawnRow>(
        m,
        spawnRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      );
    });
  }

  /** Records for jarred fish: tags follow the spawn's own (`R26-04-07`), counting on from the highest in use. */
  addFish(input: AddFishToSpawnInput, person: SignedInPerson): Promise<FishRow[]> {
    const number = input.tags?.length || input.number;
    if (number < 1 || number > MOST_FISH_AT_ONCE) {
      throw fieldError({
        field: 'number',
        message: `"${number}" fish at once: give 1 to ${MOST_FISH_AT_ONCE}.`,
      });
    }
    const save = this.dataSource.transaction(async (m) => {
      const spawn = await this.heldSpawn(m, input.spawnId);
      const tags = input.tags?.length ? input.tags : await this.nextTags(m, spawn, number);
      const made: FishRow[] = [];
      for (const tag of tags) {
        const row = {
          id: randomUUID(),
          personId: person.id,
          tag: tag.trim(),
          sex: input.sex,
          hatchDate: spawn.hatchDate,
          lineId: spawn.lineId,
          spawnId: spawn.id,
          disposition: input.disposition,
          swimsWithId: usualPlace(person.id, input.disposition),
        };
        made.push(await this.records.create<FishRow>(m, fishRecord, row, person.name));
      }
      return made;
    });
    return orTaken(
      save,
      'fish_tag_once',
      'tags',
      'One of these tags is on another of your fish: choose others.',
    );
  }

  /** Two who add fish at once: the second waits here, and counts on from the tags of the first. */
  private async heldSpawn(m: EntityManager, id: string): Promise<SpawnRow> {
    const known = await this.records.known(m, spawnRecord, id);
    if (known === null) throw fieldError({ field: 'spawnId', message: `There is no spawn ${id}.` });
    return this.records.lock(m, spawnRecord, id);
  }

  private async nextTags(m: EntityManager, spawn: SpawnRow, number: number): Promise<string[]> {
    const used = await tagsUsedIn(m, spawn);
    const prefix = `${spawn.tag}-`;
    const highest = used
      .map((tag) => (tag.startsWith(prefix) ? Number(tag.slice(prefix.length)) : Number.NaN))
      .filter((n) => Number.isInteger(n))
      .reduce((a, b) => Math.max(a, b), 0);
    return Array.from(
      { length: number },
      (_, i) => `${prefix}${String(highest + i + 1).padStart(2, '0')}`,
    );
  }
}
