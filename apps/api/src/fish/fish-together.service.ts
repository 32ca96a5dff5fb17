import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { RecordStore } from '../database/record-store.js';
import { RequestError, fieldError } from '../errors/request-error.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { LineRow } from '../lines/line.entity.js';
import { FishRow } from './fish.entity.js';
import { FishService, fishRecord } from './fish.service.js';
import type { ChangeFishTogetherInput, ChosenFishInput } from './fish-together.inputs.js';

interface InTheWay {
  readonly id: string;
  readonly tag: string;
  readonly why: string;
}

type ChangeOne = (m: EntityManager, fish: ChosenFishInput) => Promise<FishRow>;

/** One act for several fish, all or none, in one transaction; each fish's history says that it was one of several. */
@Injectable()
export class FishTogetherService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly fish: FishService,
  ) {}

  /**
   * @throws RequestError `VALIDATION` when no fish or not exactly one act is given, when the act itself cannot be done
   * (a cull without a reason), and when fish stand in the way: then `fish` holds the id, tag and reason of each.
   */
  async change(input: ChangeFishTogetherInput, keeper: SignedInKeeper): Promise<FishRow[]> {
    const chosen = [...input.fish].sort((a, b) => (a.id < b.id ? -1 : 1));
    const ids = new Set(chosen.map((one) => one.id));
    if (chosen.length === 0 || ids.size < chosen.length)
      throw fieldError({ field: 'fish', message: 'Choose at least one fish, and each once.' });
    const changeOne = this.act(input, keeper);
    return this.dataSource.transaction(async (m) => {
      await this.expectLine(m, input.line?.lineId);
      const changed: FishRow[] = [];
      const inTheWay: InTheWay[] = [];
      // Sorted by id: two acts on the same fish wait for each other instead of locking each other out.
      for (const one of chosen) {
        try {
          changed.push(await changeOne(m, one));
        } catch (error) {
          if (!(error instanceof RequestError)) throw error;
          const row = await m.findOneBy(FishRow, { id: one.id });
          inTheWay.push({ id: one.id, tag: row?.tag ?? one.id, why: error.message });
        }
      }
      if (inTheWay.length > 0) throw refusal(inTheWay, chosen.length);
      return changed;
    });
  }

  private act(input: ChangeFishTogetherInput, keeper: SignedInKeeper): ChangeOne {
    const { line, decision, withdrawal } = input;
    const given = [line, decision, withdrawal].filter((one) => one !== null && one !== undefined);
    if (given.length !== 1)
      throw fieldError({
        field: 'line',
        message: 'Give exactly one of line, decision and withdrawal.',
      });
    const together = (action: string) => `${action}, ${input.fish.length} fish in one act`;
    if (decision) {
      this.fish.expectDecision(decision);
      const action = together('decided');
      return (m, one) => this.fish.decideIn(m, { ...decision, ...one }, keeper, action);
    }
    if (withdrawal) {
      if (withdrawal.reason.trim() === '')
        throw fieldError({ field: 'reason', message: 'Say why the records are withdrawn.' });
      const action = together('withdrawn');
      return (m, one) => this.fish.withdrawIn(m, { ...withdrawal, ...one }, keeper, action);
    }
    const changes = { lineId: line?.lineId ?? null };
    const action = together('corrected');
    return (m, { id, revision }) =>
      this.records.correct<FishRow>(m, fishRecord, id, revision, changes, keeper.name, action);
  }

  private async expectLine(m: EntityManager, id: string | null | undefined): Promise<void> {
    if (id === null || id === undefined) return;
    const row = await m.findOneBy(LineRow, { id });
    if (row !== null && row.withdrawnAt === null) return;
    const message =
      row === null
        ? `There is no line with id ${id}: choose one that is on record.`
        : `Line ${row.code} was withdrawn: choose another.`;
    throw fieldError({ field: 'lineId', message });
  }
}

const refusal = (inTheWay: readonly InTheWay[], count: number): RequestError => {
  const told = inTheWay.slice(0, 10).map(({ tag, why }) => `${tag}: ${why}`);
  const more = inTheWay.length > told.length ? ` And ${inTheWay.length - told.length} more.` : '';
  return new RequestError(
    'VALIDATION',
    `Nothing was changed: ${inTheWay.length} of ${count} fish cannot be changed. ${told.join(' ')}${more}`,
    { fish: inTheWay },
  );
};
