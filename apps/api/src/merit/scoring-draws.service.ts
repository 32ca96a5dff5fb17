import { randomInt, randomUUID } from 'node:crypto';
import { randomDozen } from '@linewright/merit';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { fieldError, RequestError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { namedFish } from '../kinship/named-fish.js';
import { toWithdrawal } from '../shapes/history.model.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { isSortingBegun, openToDraw } from '../stock/merit-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { scoringDrawRecord, spawnRecord } from '../stock/record-types.js';
import { ScoringDrawRow } from '../stock/rows/scoring-draw.entity.js';
import { thatStands } from '../stock/standing.js';
import type { DrawForScoringInput } from './merit.inputs.js';
import type { ScoringDrawModel } from './scoring-draw.model.js';

const DOZEN = 12;
const MOST_DRAWN = 200;

/** Draws fish of a brood to be scored, and keeps which were drawn. */
@Injectable()
export class ScoringDrawsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /**
   * Chance chooses among those that no standing draw has named; unless more are asked for, a draw that stands is the answer.
   * @throws RequestError `SORTING_BEGUN` when fish of the brood were decided about: what is left is no random part of it.
   */
  draw(input: DrawForScoringInput, person: SignedInPerson): Promise<ScoringDrawModel> {
    const number = input.number ?? DOZEN;
    if (!Number.isInteger(number) || number < 1 || number > MOST_DRAWN)
      throw fieldError({
        field: 'number',
        message: `"number" is ${number}: give a whole number from 1 to ${MOST_DRAWN}.`,
      });
    return this.dataSource.transaction(async (m) => {
      const spawn = await this.records.find(m, spawnRecord, input.spawnId);
      // Two who draw at once wait for each other here, so that no fish is drawn twice.
      await m.query('SELECT pg_advisory_xact_lock(7040026, hashtext($1))', [spawn.id]);
      const standing = input.further === true ? undefined : (await standingDraws(m, spawn.id))[0];
      if (standing !== undefined) return this.told(standing);
      if (await isSortingBegun(m, spawn.id))
        throw new RequestError(
          'SORTING_BEGUN',
          `The sorting of ${spawn.tag} has begun: those left are not a random part of the brood. Score all that are left, or draw from the next brood before you sort it.`,
          { spawnId: spawn.id },
        );
      const young = await openToDraw(m, spawn.id);
      if (young.length === 0)
        throw fieldError({
          field: 'spawnId',
          message: `${spawn.tag} has no young here that are not sorted, were not drawn yet and have a record: jar some first.`,
        });
      const chance = (): number => randomInt(2 ** 47) / 2 ** 47;
      const row = {
        id: input.id ?? randomUUID(),
        spawnId: spawn.id,
        drawnOn: this.clock.today(),
        drawnFrom: young.length,
        fishIds: randomDozen(young, chance, number),
        byName: person.name,
      };
      return this.told(
        await this.records.create<ScoringDrawRow>(m, scoringDrawRecord, row, person.name),
      );
    });
  }

  /** Takes a draw back: its fish are then counted by the day they were scored. */
  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<ScoringDrawModel> {
    return this.dataSource.transaction(async (m) =>
      this.told(
        await this.records.withdraw<ScoringDrawRow>(
          m,
          scoringDrawRecord,
          input.id,
          input.reason,
          person.name,
          input.revision,
        ),
      ),
    );
  }

  /** Those of a brood that stand, the newest first. */
  async ofSpawn(spawnId: string): Promise<ScoringDrawModel[]> {
    const rows = await standingDraws(this.dataSource.manager, spawnId);
    const named = await namedFish(
      this.dataSource,
      rows.flatMap(({ fishIds }) => fishIds),
    );
    return rows.map((row) => toDraw(row, named));
  }

  private async told(row: ScoringDrawRow): Promise<ScoringDrawModel> {
    return toDraw(row, await namedFish(this.dataSource, row.fishIds));
  }
}

/** The newest first. */
const standingDraws = (manager: EntityManager, spawnId: string): Promise<ScoringDrawRow[]> =>
  manager.getRepository(ScoringDrawRow).find({
    where: { spawnId, ...thatStands },
    order: { createdAt: 'DESC', id: 'ASC' },
  });

const toDraw = (
  row: ScoringDrawRow,
  named: ReadonlyMap<string, NamedFishModel>,
): ScoringDrawModel => ({
  id: row.id,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  drawnOn: row.drawnOn,
  drawnFrom: row.drawnFrom,
  by: row.byName,
  fish: row.fishIds
    .flatMap((id) => named.get(id) ?? [])
    .sort((a, b) => a.tag.localeCompare(b.tag, 'en')),
});
