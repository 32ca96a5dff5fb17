import { randomUUID } from 'node:crypto';
import {
  dayForPairs,
  isOutsideDays,
  judgedPairs,
  type LinePurpose,
  setFigures,
  type SetFigures,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { trimmed } from '../database/given.js';
import { oneAtATime } from '../database/one-at-a-time.js';
import { fieldError, RequestError } from '../errors/request-error.js';
import type { KeysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { JudgingService } from '../pairing/judging.service.js';
import { PairingsService } from '../pairing/pairings.service.js';
import { purposeOfLine } from '../stock/purpose-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord, roundRecord } from '../stock/record-types.js';
import {
  addRoundPairs,
  pairsOfRounds,
  roundsOfLine,
  standingPairsOfLine,
} from '../stock/round-rows.js';
import type { RoundRow } from '../stock/rows/round.entity.js';
import { standingPlaces } from './proposal-task.js';
import type { AdoptRoundInput, PairOfFishInput } from './rounds.inputs.js';

const MOST_PAIRS = 200;

/** Rounds: pairs adopted together, with what was expected of them then. */
@Injectable()
export class RoundsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly judging: JudgingService,
    private readonly pairings: PairingsService,
    private readonly clock: Clock,
  ) {}

  one(id: string): Promise<RoundRow> {
    return this.records.find(this.dataSource.manager, roundRecord, id);
  }

  async ofLine(
    lineId: string,
    first: number,
    after: string | undefined,
  ): Promise<KeysetPage<RoundRow>> {
    const { manager } = this.dataSource;
    const line = await this.records.find(manager, lineRecord, lineId);
    return roundsOfLine(manager, line.id, first, after);
  }

  /**
   * Plans all pairs and keeps them as one round, or nothing. A pair that is planned already keeps its plan.
   *
   * @throws RequestError `CONFLICT_REVISION` when what the line is for was said anew since; `VALIDATION` for pairs that cannot be.
   */
  async adopt(input: AdoptRoundInput, person: SignedInPerson): Promise<RoundRow> {
    expectPairs(input.pairs);
    const figures = await this.figuresOf(input, person.name);
    const count = input.pairs.length;
    return this.dataSource.transaction(async (m) => {
      const id = input.id ?? randomUUID();
      await oneAtATime(m, id);
      const made = await this.records.known(m, roundRecord, id);
      if (made !== null) return made;
      const line = await this.records.find(m, lineRecord, input.lineId);
      const purpose = await this.expectPurpose(m, line, input.expectedPurposeVersion);
      expectDay(purpose, input.plannedOn);
      const row = await this.records.create<RoundRow>(
        m,
        roundRecord,
        {
          ...{ id, lineId: line.id, personId: person.id, plannedOn: input.plannedOn },
          purposeVersion: input.expectedPurposeVersion,
          kinshipLimit: input.kinshipLimit ?? null,
          expectedWorth: figures.worth / count,
          expectedKinship: figures.coancestry,
          expectedInbreeding: figures.inbreeding,
          note: trimmed(input.note) ?? null,
        },
        person.name,
      );
      await this.plan(m, row, input, figures, person);
      return row;
    });
  }

  /** Takes a round back: its pairs that are still planned are dropped with it; those that spawned stay as they are. */
  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<RoundRow> {
    return this.dataSource.transaction(async (m) => {
      const row = await this.records.withdraw<RoundRow>(
        m,
        roundRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      );
      for (const { pairing } of await pairsOfRounds(m, [row.id]))
        if (pairing.state === 'planned' && pairing.withdrawnAt === null)
          await this.pairings.dropIn(m, { id: pairing.id, reason: input.reason }, person);
      return row;
    });
  }

  /** The same figures as a proposal of these pairs tells. */
  private async figuresOf(
    { lineId, pairs }: AdoptRoundInput,
    by: string,
  ): Promise<SetFigures & { readonly ids: readonly PairOfFishInput[] }> {
    const named = pairs.flatMap(({ sireId, damId }) => [sireId, damId]);
    const { content } = await purposeOfLine(this.dataSource.manager, lineId);
    const day = dayForPairs(content, this.clock.today());
    const { input } = await this.judging.stock({ lineIds: [lineId] }, by, named, day);
    const judged = judgedPairs(input);
    const places = pairs.map(({ sireId, damId }): readonly [number, number] => {
      const [male, female] = [judged.males.indexOf(sireId), judged.females.indexOf(damId)];
      if (male < 0 || female < 0)
        throw fieldError({
          field: 'pairs',
          message: `The pair ${sireId} by ${damId} is not a male and a female on record: propose the pairs again.`,
        });
      return [male, female];
    });
    const standing = await standingPairsOfLine(this.dataSource.manager, lineId);
    const beside = standingPlaces(judged, standing).filter(
      ([male, female]) => !places.some(([m, f]) => m === male && f === female),
    );
    const figures = setFigures(judged, places, beside);
    const stopped = figures.pairs.find(({ worth }) => Number.isNaN(worth));
    if (stopped !== undefined)
      throw fieldError({
        field: 'pairs',
        message: `A pair of these must not be made now (${judged.males[stopped.male]!} by ${judged.females[stopped.female]!}): propose the pairs again.`,
      });
    const ids = figures.pairs.map(({ male, female }) => ({
      sireId: judged.males[male]!,
      damId: judged.females[female]!,
    }));
    return { ...figures, ids };
  }

  private async expectPurpose(
    m: EntityManager,
    line: { readonly id: string; readonly code: string },
    expected: number,
  ): Promise<LinePurpose> {
    const { version, content } = await purposeOfLine(m, line.id);
    if (version === expected) return content;
    throw new RequestError(
      'CONFLICT_REVISION',
      `A newer version of what line ${line.code} is for was saved meanwhile (these pairs were proposed for version ${expected}, it is now version ${version}): propose the pairs again.`,
      { id: line.id, expectedRevision: expected, currentRevision: version },
    );
  }

  private async plan(
    m: EntityManager,
    round: RoundRow,
    { plannedOn, confirmed }: AdoptRoundInput,
    { pairs, ids }: SetFigures & { readonly ids: readonly PairOfFishInput[] },
    person: SignedInPerson,
  ): Promise<void> {
    const plans: string[] = [];
    for (const pair of ids) {
      const planned = { ...pair, plannedOn, confirmed: confirmed === true };
      plans.push((await this.pairings.planIn(m, planned, person)).id);
    }
    await addRoundPairs(
      m,
      pairs.map(({ worth, inbreeding }, k) => ({
        ...{ roundId: round.id, pairingId: plans[k]!, place: k + 1 },
        ...{ expectedWorth: worth, expectedInbreeding: inbreeding },
      })),
    );
  }
}

/** @throws RequestError `VALIDATION` for a day on which the line makes no pairs. */
const expectDay = (purpose: LinePurpose, day: string): void => {
  if (!isOutsideDays(purpose, day)) return;
  const { earliest, latest } = purpose;
  const days = [
    ...(earliest === null ? [] : [`from ${earliest}`]),
    ...(latest === null ? [] : [`until ${latest}`]),
  ].join(' ');
  throw fieldError({
    field: 'plannedOn',
    message: `This line makes pairs ${days}: choose one of these days, or give others in what the line is for.`,
  });
};

const expectPairs = (pairs: readonly PairOfFishInput[]): void => {
  const keys = new Set(pairs.map(({ sireId, damId }) => `${sireId} ${damId}`.toLowerCase()));
  if (pairs.length === 0 || pairs.length > MOST_PAIRS || keys.size < pairs.length)
    throw fieldError({
      field: 'pairs',
      message: `A round has 1 to ${MOST_PAIRS} pairs, none of them twice; ${pairs.length} were given.`,
    });
};
