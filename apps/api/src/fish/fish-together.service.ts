import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { oneAtATime } from '../database/one-at-a-time.js';
import { Clock } from '../clock/clock.js';
import { RecordStore } from '../stock/record-store.js';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { changesOfAct, countChangesOfAct } from '../stock/history-rows.js';
import type { HistoryRow } from '../stock/rows/history.entity.js';
import type { LineRow } from '../stock/rows/line.entity.js';
import { FishActRow } from '../stock/rows/fish-act.entity.js';
import { expectNoneInTheWay, forEachFish, type InTheWay, rolledBack } from './fish-in-the-way.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import { FishService } from './fish.service.js';
import type { ChangeFishTogetherInput, ChosenFishInput } from './fish-together.inputs.js';
import { fishRecord, lineRecord } from '../stock/record-types.js';

/** What an act would do. */
export interface TriedAct {
  readonly done: readonly {
    readonly id: string;
    readonly tag: string;
    readonly changes: HistoryRow['changes'];
  }[];
  readonly inTheWay: readonly InTheWay[];
}

interface Act {
  /** In words, with the names of today. */
  readonly what: string;
  readonly changeOne: (fish: ChosenFishInput) => Promise<FishRow>;
}

const decided: Record<FishRow['disposition'], string> = {
  unsorted: 'put back to unsorted',
  keeper: 'kept',
  hold: 'put on hold',
  culled: 'culled',
  placed: 'placed',
  died: 'recorded as dead',
  elsewhere: 'marked as ancestors only',
};

/** One act for several fish, all or none, in one transaction; each fish's history says that it was one of several. */
@Injectable()
export class FishTogetherService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly fish: FishService,
    private readonly clock: Clock,
  ) {}

  /**
   * Sending the same act twice does it once.
   *
   * @throws RequestError `VALIDATION` when no fish or not exactly one act is given, when the act itself cannot be done
   * (a cull without a reason) or changes nothing, and when fish stand in the way: then `fish` holds the id, tag and
   * reason of each.
   */
  change(input: ChangeFishTogetherInput, person: SignedInPerson): Promise<FishActRow> {
    const id = input.id ?? randomUUID();
    return this.dataSource.transaction(async (m) => {
      await oneAtATime(m, id);
      const done = await m.findOneBy(FishActRow, { id, personId: person.id });
      if (done !== null) return done;
      const act = await this.act(m, id, input, person);
      const { inTheWay } = await forEachFish(m, input.fish, act.changeOne);
      expectNoneInTheWay(inTheWay, input.fish.length);
      const fishCount = await countChangesOfAct(m, id);
      if (fishCount === 0)
        throw fieldError({
          field: 'fish',
          message: 'Nothing would change: all of these fish are so already.',
        });
      const row = { id, personId: person.id, what: act.what, fishCount, byName: person.name };
      return m.save(m.create(FishActRow, { ...row, at: this.clock.now() }));
    });
  }

  /** What the act would change and what stands in its way; nothing is saved. Throws for an act that cannot be done at all. */
  tryOut(input: ChangeFishTogetherInput, person: SignedInPerson): Promise<TriedAct> {
    const id = randomUUID();
    return rolledBack(this.dataSource.manager, async (m) => {
      const act = await this.act(m, id, input, person);
      const { rows, inTheWay } = await forEachFish(m, input.fish, act.changeOne);
      const told = await changesOfAct(m, id);
      const changes = new Map(told.map(({ recordId, changes }) => [recordId, changes]));
      const done = rows.map((row) => ({
        id: row.id,
        tag: row.tag,
        changes: changes.get(row.id) ?? {},
      }));
      return { done, inTheWay };
    });
  }

  private async act(
    m: EntityManager,
    actId: string,
    input: ChangeFishTogetherInput,
    person: SignedInPerson,
  ): Promise<Act> {
    const { line, decision, withdrawal, fish } = input;
    if (fish.length === 0 || new Set(fish.map((one) => one.id)).size < fish.length)
      throw fieldError({ field: 'fish', message: 'Choose at least one fish, and each once.' });
    const given = [line, decision, withdrawal].filter((one) => one !== null && one !== undefined);
    if (given.length !== 1)
      throw fieldError({
        field: 'line',
        message: 'Give exactly one of line, decision and withdrawal.',
      });
    const doing = (action: string) => ({ actId, action: inOneAct(action, fish.length) });
    if (decision) {
      this.fish.expectDecision(decision);
      return {
        what: `${decided[decision.disposition]} on ${decision.on}${because(decision.reason)}`,
        changeOne: (one) =>
          this.fish.decideIn(m, { ...decision, ...one }, person, doing('decided')),
      };
    }
    if (withdrawal) {
      if (withdrawal.reason.trim() === '')
        throw fieldError({ field: 'reason', message: 'Say why the records are withdrawn.' });
      return {
        what: `withdrawn${because(withdrawal.reason)}`,
        changeOne: (one) =>
          this.fish.withdrawIn(m, { ...withdrawal, ...one }, person, doing('withdrawn')),
      };
    }
    const lineId = line?.lineId ?? null;
    const row = lineId === null ? null : await this.expectLine(m, lineId);
    return {
      what: row === null ? 'taken out of their line' : `moved to line ${row.code}`,
      changeOne: ({ id, revision }) =>
        this.records.correct<FishRow>(
          m,
          fishRecord,
          id,
          revision,
          { lineId },
          person.name,
          doing('corrected'),
        ),
    };
  }

  private async expectLine(m: EntityManager, id: string): Promise<LineRow> {
    const row = await this.records.known(m, lineRecord, id);
    if (row !== null && row.withdrawnAt === null) return row;
    const message =
      row === null
        ? `There is no line with id ${id}: choose one that is on record.`
        : `Line ${row.code} was withdrawn: choose another.`;
    throw fieldError({ field: 'lineId', message });
  }
}

export const inOneAct = (action: string, count: number): string =>
  `${action}, ${count} fish in one act`;

const because = (reason: string | null | undefined): string => {
  const why = reason?.trim() ?? '';
  return why === '' ? '' : `: ${why}`;
};
