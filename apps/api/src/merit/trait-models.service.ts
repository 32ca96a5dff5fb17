import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { fieldError, RequestError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { RecordStore } from '../stock/record-store.js';
import { traitModelRecord, traitRecord } from '../stock/record-types.js';
import { TraitModelRow } from '../stock/rows/trait-model.entity.js';
import { thatStands } from '../stock/standing.js';
import type { SetTraitModelInput } from './merit.inputs.js';
import { settingsIn, usualSettings } from './trait-settings.js';

/** Own traits that one trait is corrected for: each takes levels from what the scores can tell. */
const MOST_BESIDE = 5;

/** With what breeding values of a trait are worked out: what is usual for its kind, until it is set otherwise. */
@Injectable()
export class TraitModelsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  standing(m: EntityManager, traitId: string): Promise<TraitModelRow | null> {
    return m.findOneBy(TraitModelRow, { traitId, ...thatStands });
  }

  /** @throws RequestError `CONFLICT_REVISION` when the settings are no longer those the form was opened at. */
  set(input: SetTraitModelInput, person: SignedInPerson): Promise<TraitModelRow> {
    const { traitId, revision, ...given } = input;
    return this.dataSource.transaction(async (m) => {
      // Two who set it for the first time wait for each other here.
      await m.query('SELECT pg_advisory_xact_lock(7040024, hashtext($1))', [traitId]);
      const trait = await this.records.find(m, traitRecord, traitId);
      await this.expectBeside(m, trait.id, given.besideTraitIds ?? []);
      const standing = await this.standing(m, trait.id);
      const before = standing === null ? usualSettings(trait.kind) : settingsIn(standing);
      const set = Object.entries(given).filter(([, v]) => v !== null && v !== undefined);
      const settings = { ...before, ...(Object.fromEntries(set) as Partial<typeof before>) };
      if (standing !== null)
        return this.records.correct<TraitModelRow>(
          m,
          traitModelRecord,
          standing.id,
          revision,
          settings,
          person.name,
        );
      if (revision !== 0)
        throw new RequestError(
          'CONFLICT_REVISION',
          `The settings of ${trait.name} were taken back meanwhile: look at the usual ones, then save again.`,
          { id: trait.id, expectedRevision: revision, currentRevision: 0 },
        );
      const row = { id: randomUUID(), traitId: trait.id, ...settings };
      return this.records.create<TraitModelRow>(m, traitModelRecord, row, person.name);
    });
  }

  /** @throws RequestError `VALIDATION` for the trait itself or too many; `NOT_FOUND` for one that is not there. */
  private async expectBeside(
    m: EntityManager,
    traitId: string,
    beside: readonly string[],
  ): Promise<void> {
    const field = 'besideTraitIds';
    if (beside.includes(traitId))
      throw fieldError({ field, message: 'A trait cannot be corrected for itself.' });
    if (new Set(beside).size > MOST_BESIDE)
      throw fieldError({ field, message: `Choose at most ${MOST_BESIDE} traits to correct for.` });
    for (const id of beside) await this.records.find(m, traitRecord, id);
  }

  /** Goes back to what is usual for the trait's kind. */
  reset(traitId: string, revision: number, person: SignedInPerson): Promise<void> {
    return this.dataSource.transaction(async (m) => {
      const trait = await this.records.find(m, traitRecord, traitId);
      const standing = await this.standing(m, trait.id);
      if (standing === null) return;
      await this.records.withdraw(
        m,
        traitModelRecord,
        standing.id,
        'Back to what is usual.',
        person.name,
        revision,
      );
    });
  }
}
