import { daysBetween } from '@linewright/care';
import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { onceAnEntry } from '../stock/once-an-entry.js';
import { FieldChecks } from '../errors/field-checks.js';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import type { ScoreRow, TraitDefinitionRow } from '../stock/rows/score.entity.js';
import type { CorrectScoreInput, RecordScoresInput } from './score.inputs.js';
import { type KnownScore, scoresOfFish } from '../stock/score.loader.js';
import { isCorrected, scoresById } from '../stock/score-rows.js';
import { fishRecord, scoreRecord, traitRecord } from '../stock/record-types.js';
import { scoreProblem } from '../stock/valid-score.js';

export const ageInDays = (hatchDate: string | null, on: string): number | null =>
  hatchDate === null ? null : daysBetween(hatchDate, on);

const expectValue = (
  trait: TraitDefinitionRow,
  value: number,
  field = trait.key,
  present = true,
): void => {
  const problem = scoreProblem(trait, value, present);
  if (problem === null) return;
  throw fieldError({ field, message: `${trait.name}: "${value}" ${problem}` });
};

/** Version that the value is of: scored without a connection, it may be older than the present one. */
const versionSeen = (trait: TraitDefinitionRow, given: number | null | undefined): number => {
  const version = given ?? trait.version;
  if (Number.isInteger(version) && version >= 1 && version <= trait.version) return version;
  throw fieldError({
    field: 'traitVersion',
    message: `${trait.name} has no version ${version}, the present one is ${trait.version}: give no version.`,
  });
};

/** Refuses a day on which the fish cannot have been looked at. */
export const expectScoredOn = (
  clock: Clock,
  fish: { readonly tag: string; readonly hatchDate: string | null },
  scoredOn: string,
): void => {
  expectDayHappened(clock, 'scoredOn', scoredOn);
  if (fish.hatchDate === null || scoredOn >= fish.hatchDate) return;
  throw fieldError({
    field: 'scoredOn',
    message: `Scored on ${scoredOn}, before ${fish.tag} hatched (${fish.hatchDate}): correct the day.`,
  });
};

@Injectable()
export class ScoresService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  record(input: RecordScoresInput, person: SignedInPerson): Promise<KnownScore[]> {
    if (input.scores.length === 0)
      throw fieldError({ field: 'scores', message: 'Score at least one trait.' });
    const sent = { id: input.entryId, kind: 'scores' as const, person };
    return this.dataSource.transaction(async (m) => {
      const ids = await onceAnEntry(m, sent, {
        apply: async () => {
          const recordIds = (await this.recordIn(m, input, person)).map((row) => row.id);
          return { answer: recordIds, recordIds };
        },
        again: (recordIds) => Promise.resolve(recordIds),
      });
      const rows = await scoresById(m, ids);
      return rows.map((row) => Object.assign(row, { corrected: false }));
    });
  }

  /** In the caller's transaction; with the look at the whole fish on a sheet, or the picture, that the values come from. */
  async recordIn(
    m: EntityManager,
    input: RecordScoresInput,
    person: SignedInPerson,
    from: Partial<Pick<ScoreRow, 'scoringId' | 'marking'>> = {},
  ): Promise<KnownScore[]> {
    const fish = await this.records.find(m, fishRecord, input.fishId);
    if (fish.withdrawnAt !== null) {
      throw fieldError({
        field: 'fishId',
        message: `${fish.tag} was withdrawn (${fish.withdrawnReason ?? 'no reason given'}): score another fish.`,
      });
    }
    const checks = new FieldChecks();
    checks.keepNow(() => expectScoredOn(this.clock, fish, input.scoredOn));
    const traits = await this.checkedTraits(m, input.scores, checks);
    checks.expectNone();
    const ids: string[] = [];
    for (const [k, scored] of input.scores.entries()) {
      const trait = traits[k]!;
      const row = {
        id: scored.id ?? randomUUID(),
        fishId: fish.id,
        traitId: trait.id,
        traitVersion: versionSeen(trait, scored.traitVersion),
        value: scored.value,
        scoredOn: input.scoredOn,
        ageDays: ageInDays(fish.hatchDate, input.scoredOn),
        scorer: trimmed(input.scorer) ?? person.name,
        note: trimmed(scored.note) ?? null,
        ...from,
      };
      ids.push((await this.records.create<ScoreRow>(m, scoreRecord, row, person.name)).id);
    }
    const rows = await scoresById(m, ids);
    return rows.map((row) => Object.assign(row, { corrected: false }));
  }

  private async checkedTraits(
    m: EntityManager,
    scores: RecordScoresInput['scores'],
    checks: FieldChecks,
  ): Promise<TraitDefinitionRow[]> {
    const traits: TraitDefinitionRow[] = [];
    for (const { traitId, value, traitVersion } of scores) {
      const trait = await this.records.find(m, traitRecord, traitId);
      traits.push(trait);
      checks.keepNow(() => {
        const present = versionSeen(trait, traitVersion) === trait.version;
        expectValue(trait, value, `scores.${traitId}`, present);
      });
    }
    return traits;
  }

  correct(input: CorrectScoreInput, person: SignedInPerson): Promise<KnownScore> {
    const reason = trimmed(input.reason) ?? null;
    if (reason === null)
      throw fieldError({ field: 'reason', message: 'Say what was wrong with the score.' });
    return this.dataSource.transaction(async (m) => {
      const old = await this.records.find(m, scoreRecord, input.scoreId);
      await this.expectStanding(m, old);
      const trait = await this.records.find(m, traitRecord, old.traitId);
      expectValue(trait, input.value);
      const { fishId, traitId, scoredOn, ageDays, scorer, scoringId } = old;
      const row = {
        id: randomUUID(),
        fishId,
        traitId,
        traitVersion: trait.version,
        value: input.value,
        scoredOn,
        ageDays,
        scorer,
        note: reason,
        correctsId: old.id,
        scoringId,
      };
      const saved = await this.records.create<ScoreRow>(m, scoreRecord, row, person.name);
      return Object.assign(saved, { corrected: false });
    });
  }

  async withdraw(input: WithdrawInput, person: SignedInPerson): Promise<KnownScore> {
    const row = await this.dataSource.transaction((m) =>
      this.records.withdraw<ScoreRow>(
        m,
        scoreRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      ),
    );
    return Object.assign(row, { corrected: false });
  }

  ofFish(fishIds: string[]): Promise<KnownScore[]> {
    return scoresOfFish(this.dataSource, fishIds);
  }

  private async expectStanding(m: EntityManager, score: ScoreRow): Promise<void> {
    if (await isCorrected(m, score.id)) {
      throw fieldError({
        field: 'scoreId',
        message: 'This score was corrected already: correct the later score.',
      });
    }
  }
}
