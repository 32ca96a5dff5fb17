import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { RecordStore } from '../database/record-store.js';
import { orTaken } from '../database/unique.js';
import { fieldError } from '../errors/request-error.js';
import { FishRow } from '../fish/fish.entity.js';
import { checkedTag, fishRecord } from '../fish/fish.service.js';
import { Disposition, type Sex } from '../graphql/enums.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { SpawnRow } from './spawn.entity.js';
import { spawnRecord } from './spawn-record.js';

/**
 * Records for the parents nobody knows. Young of one spawn are sibs whoever their parents were: with a stand-in for
 * each unknown parent they count as sibs everywhere, instead of as unrelated founders.
 */
@Injectable()
export class StandInParentsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  record(spawnId: string, keeper: SignedInKeeper): Promise<SpawnRow> {
    const save = this.dataSource.transaction(async (m): Promise<SpawnRow> => {
      const spawn = await m.findOne(SpawnRow, {
        where: { id: spawnId },
        lock: { mode: 'pessimistic_write' },
      });
      if (spawn === null)
        throw fieldError({ field: 'spawnId', message: `There is no spawn ${spawnId}.` });
      const changes: Partial<SpawnRow> = {};
      if (spawn.sireId === null) changes.sireId = await this.standIn(m, spawn, 'male', keeper);
      if (spawn.damId === null) changes.damId = await this.standIn(m, spawn, 'female', keeper);
      if (Object.keys(changes).length === 0) return spawn;
      return this.records.correct<SpawnRow>(
        m,
        spawnRecord,
        spawn.id,
        undefined,
        changes,
        keeper.name,
      );
    });
    return orTaken(
      save,
      'fish_tag_once',
      'spawnId',
      'A fish with the tag of a stand-in exists already: choose it as the parent on the form “Correct”.',
    );
  }

  private async standIn(
    m: EntityManager,
    spawn: SpawnRow,
    sex: Sex,
    keeper: SignedInKeeper,
  ): Promise<string> {
    const role = sex === 'male' ? 'sire' : 'dam';
    const row = {
      id: randomUUID(),
      keeperId: keeper.id,
      tag: checkedTag(`${spawn.tag} ${role}`),
      name: `unknown ${role} of ${spawn.tag}`,
      sex,
      disposition: Disposition.ELSEWHERE,
      origin: 'Unknown: stands in for a parent, so that its young count as sibs.',
    };
    return (await this.records.create<FishRow>(m, fishRecord, row, keeper.name)).id;
  }
}
