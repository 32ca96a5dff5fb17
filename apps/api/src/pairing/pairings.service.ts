import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { orTaken } from '../database/unique.js';
import { fieldError } from '../errors/request-error.js';
import type { PairingState } from '../graphql/enums.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { expectPossibleParents } from '../stock/parentage.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import { SpawnsService } from '../spawns/spawns.service.js';
import { expectPlannable } from './pair-obstacles.js';
import type { PairingRow } from '../stock/rows/pairing.entity.js';
import type { PairingSpawnInput, PlanPairingInput } from './pairing.inputs.js';
import { pairingsByDay, plannedPairing } from '../stock/pairing-rows.js';
import { pairingRecord } from '../stock/record-types.js';

@Injectable()
export class PairingsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly spawns: SpawnsService,
  ) {}

  one(id: string): Promise<PairingRow> {
    return this.records.find(this.dataSource.manager, pairingRecord, id);
  }

  list(states: PairingState[] | null, makerId: string | null = null): Promise<PairingRow[]> {
    return pairingsByDay(this.dataSource.manager, states, makerId);
  }

  plan(input: PlanPairingInput, person: SignedInPerson): Promise<PairingRow> {
    return this.dataSource.transaction((m) => this.planIn(m, input, person));
  }

  /** The same within a transaction. */
  async planIn(
    m: EntityManager,
    input: PlanPairingInput,
    person: SignedInPerson,
  ): Promise<PairingRow> {
    const { sireId, damId, plannedOn } = input;
    await expectPossibleParents(m, { spawnId: null, sireId, damId, hatchDate: plannedOn });
    const standing = await plannedPairing(m, sireId, damId);
    if (standing !== null) return standing;
    await expectPlannable(m, { sireId, damId, plannedOn, confirmed: input.confirmed === true });
    const row = {
      id: input.id ?? randomUUID(),
      personId: person.id,
      sireId,
      damId,
      plannedOn,
      reason: trimmed(input.reason) ?? null,
      note: trimmed(input.note) ?? null,
    };
    return this.records.create<PairingRow>(m, pairingRecord, row, person.name);
  }

  drop(input: WithdrawInput, person: SignedInPerson): Promise<PairingRow> {
    return this.dataSource.transaction((m) => this.dropIn(m, input, person));
  }

  /** The same within a transaction. */
  async dropIn(
    m: EntityManager,
    input: WithdrawInput,
    person: SignedInPerson,
  ): Promise<PairingRow> {
    if (input.reason.trim() === '')
      throw fieldError({ field: 'reason', message: 'Say why the pairing is dropped.' });
    const changes: Partial<PairingRow> = { state: 'dropped', note: input.reason.trim() };
    return this.records.correct<PairingRow>(
      m,
      pairingRecord,
      input.id,
      input.revision,
      changes,
      person.name,
      'dropped',
    );
  }

  recordSpawn(input: PairingSpawnInput, person: SignedInPerson): Promise<SpawnRow> {
    const save = this.dataSource.transaction(async (m): Promise<SpawnRow> => {
      const pairing = await this.records.find(m, pairingRecord, input.pairingId);
      if (pairing.state === 'dropped') {
        throw fieldError({
          field: 'pairingId',
          message: 'This pairing was dropped: plan it again first.',
        });
      }
      const { sireId, damId } = pairing;
      const spawn = await this.spawns.createIn(
        m,
        {
          ...(input.spawnId != null && { id: input.spawnId }),
          tag: input.tag,
          lineId: input.lineId ?? null,
          sireId,
          damId,
          pairingId: pairing.id,
          spawnedOn: input.spawnedOn ?? null,
          purpose: pairing.reason,
          note: input.note ?? null,
          confirmed: input.confirmed ?? false,
        },
        person,
      );
      await this.records.correct<PairingRow>(
        m,
        pairingRecord,
        pairing.id,
        undefined,
        { state: 'spawned' },
        person.name,
        'spawned',
      );
      return spawn;
    });
    return orTaken(
      save,
      'spawn_tag_once',
      'tag',
      `The tag "${input.tag}" is on another of your spawns: choose another.`,
    );
  }
}
