import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { RecordStore } from '../stock/record-store.js';
import { orTaken } from '../database/unique.js';
import { fieldError } from '../errors/request-error.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import { fishRecord, spawnRecord } from '../stock/record-types.js';

/** Says of fish already recorded that they are full sibs: they get the spawn of one of them, or one without parents. */
@Injectable()
export class SibsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  record(fishIds: readonly string[], tag: string, person: SignedInPerson): Promise<SpawnRow> {
    const ids = [...new Set(fishIds.map((id) => id.toLowerCase()))];
    if (ids.length < 2) {
      throw fieldError({
        field: 'fishIds',
        message: 'Sibs are two or more fish: choose all of them.',
      });
    }
    const named = tag.trim();
    if (named === '') {
      throw fieldError({ field: 'tag', message: 'Give the spawn they came from a tag.' });
    }
    const save = this.dataSource.transaction(async (m): Promise<SpawnRow> => {
      const fish: FishRow[] = [];
      for (const id of ids) fish.push(await this.records.find(m, fishRecord, id));
      const spawn = (await this.spawnOf(m, fish)) ?? (await this.newSpawn(m, fish, named, person));
      for (const { id, spawnId } of fish) {
        if (spawnId === spawn.id) continue;
        const changes: Partial<FishRow> = { spawnId: spawn.id };
        await this.records.correct<FishRow>(m, fishRecord, id, undefined, changes, person.name);
      }
      return spawn;
    });
    return orTaken(
      save,
      'spawn_tag_once',
      'tag',
      `There is a spawn ${named} already: choose another tag.`,
    );
  }

  /** The one spawn that some of them have already; the others join it. */
  private async spawnOf(m: EntityManager, fish: readonly FishRow[]): Promise<SpawnRow | null> {
    const [first, other] = fish.filter(
      ({ spawnId }, at, all) =>
        spawnId !== null && all.findIndex((one) => one.spawnId === spawnId) === at,
    );
    if (first?.spawnId == null) return null;
    if (other !== undefined) {
      throw fieldError({
        field: 'fishIds',
        message: `${first.tag} and ${other.tag} came from two spawns: correct the spawn of one of them first.`,
      });
    }
    return this.records.find(m, spawnRecord, first.spawnId);
  }

  private newSpawn(
    m: EntityManager,
    fish: readonly FishRow[],
    tag: string,
    person: SignedInPerson,
  ): Promise<SpawnRow> {
    const [first] = fish;
    const same = <Field extends 'hatchDate' | 'lineId'>(field: Field): FishRow[Field] | null =>
      fish.every((one) => one[field] === first?.[field]) ? (first?.[field] ?? null) : null;
    const row = {
      id: randomUUID(),
      personId: person.id,
      tag,
      lineId: same('lineId'),
      hatchDate: same('hatchDate'),
    };
    return this.records.create<SpawnRow>(m, spawnRecord, row, person.name);
  }
}
