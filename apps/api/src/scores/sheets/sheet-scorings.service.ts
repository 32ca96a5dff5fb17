import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { oneAtATime } from '../../database/one-at-a-time.js';
import { Clock } from '../../clock/clock.js';
import { trimmed } from '../../database/given.js';
import { RecordStore } from '../../stock/record-store.js';
import { onceAnEntry } from '../../stock/once-an-entry.js';
import { FieldChecks } from '../../errors/field-checks.js';
import { fieldError } from '../../errors/request-error.js';
import type { SignedInPerson } from '../../graphql/request-context.js';
import type { WithdrawInput } from '../../graphql/withdraw.input.js';
import type { ScoreRow } from '../../stock/rows/score.entity.js';
import { ScoresService, ageInDays, expectScoredOn } from '../scores.service.js';
import type { FishRow } from '../../stock/rows/fish.entity.js';
import type { ScoreSheetVersionRow, SheetScoringRow } from '../../stock/rows/sheet.entity.js';
import type { ScoreOnSheetInput } from './sheet.inputs.js';
import { valuesOfLook } from '../../stock/score-rows.js';
import { sheetVersion } from '../../stock/sheet-rows.js';
import { fishRecord, scoreRecord, scoringRecord, sheetRecord } from '../../stock/record-types.js';

const MOST_NOTE = 2_000;

const expectOnSheet = (input: ScoreOnSheetInput, version: ScoreSheetVersionRow): void => {
  const checks = new FieldChecks();
  if (input.scores.length === 0 && input.faultIds.length === 0)
    checks.refuse('scores', 'Score at least one trait, or mark a fault.');
  const traits = new Set(version.lines.map((line) => line.traitId));
  const of = `not on version ${version.version} of this sheet: remove it, or revise the sheet.`;
  const scored = new Set<string>();
  for (const { traitId } of input.scores) {
    if (!traits.has(traitId)) checks.refuse('scores', `The trait ${traitId} is ${of}`);
    if (scored.has(traitId))
      checks.refuse('scores', `The trait ${traitId} is scored twice: send it once.`);
    scored.add(traitId);
  }
  const faults = new Set(version.faults.map((fault) => fault.id));
  for (const id of input.faultIds)
    if (!faults.has(id)) checks.refuse('faultIds', `The fault ${id} is ${of}`);
  if ((input.note ?? '').length > MOST_NOTE)
    checks.refuse('note', `The note is longer than ${MOST_NOTE} characters: shorten it.`);
  checks.expectNone();
};

/** Looks at whole fish: values, faults and note in one transaction. */
@Injectable()
export class SheetScoringsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly scores: ScoresService,
    private readonly clock: Clock,
  ) {}

  record(input: ScoreOnSheetInput, person: SignedInPerson): Promise<SheetScoringRow> {
    const sent = { id: input.entryId, kind: 'sheet_look' as const, person };
    return this.dataSource.transaction((m) =>
      onceAnEntry(m, sent, {
        apply: async () => {
          const answer = await this.recordOnce(m, input, person);
          const scores = await valuesOfLook(m, answer.id);
          return { answer, recordIds: [answer.id, ...scores.map((score) => score.id)] };
        },
        again: ([id]) => this.records.find(m, scoringRecord, id!),
      }),
    );
  }

  private async recordOnce(
    m: EntityManager,
    input: ScoreOnSheetInput,
    person: SignedInPerson,
  ): Promise<SheetScoringRow> {
    // Two sendings of the same look at the same moment: the second waits and finds the first.
    await oneAtATime(m, input.id);
    const existing = await this.records.known(m, scoringRecord, input.id);
    return existing ?? this.recordNew(m, input, person);
  }

  private async recordNew(
    m: EntityManager,
    input: ScoreOnSheetInput,
    person: SignedInPerson,
  ): Promise<SheetScoringRow> {
    const sheet = await this.records.find(m, sheetRecord, input.sheetId);
    const version = await sheetVersion(m, sheet.id, input.sheetVersion);
    expectOnSheet(input, version);
    const fish: FishRow = await this.records.find(m, fishRecord, input.fishId);
    if (fish.withdrawnAt !== null)
      throw fieldError({
        field: 'fishId',
        message: `${fish.tag} was withdrawn (${fish.withdrawnReason ?? 'no reason given'}): score another fish.`,
      });
    const { id, fishId, scoredOn, scores, scorer = null } = input;
    const row = {
      id,
      fishId,
      sheetId: sheet.id,
      sheetVersion: version.version,
      scoredOn,
      ageDays: ageInDays(fish.hatchDate, scoredOn),
      scorer: trimmed(scorer) ?? person.name,
      note: trimmed(input.note) ?? null,
      faultIds: [...new Set(input.faultIds)],
    };
    if (scores.length === 0) expectScoredOn(this.clock, fish, scoredOn);
    const saved = await this.records.create<SheetScoringRow>(m, scoringRecord, row, person.name);
    if (scores.length > 0)
      await this.scores.recordIn(m, { fishId, scoredOn, scorer, scores }, person, {
        scoringId: saved.id,
      });
    return saved;
  }

  /** Its values go with it. */
  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<SheetScoringRow> {
    const { id, reason, revision } = input;
    return this.dataSource.transaction(async (m) => {
      const row = await this.records.withdraw<SheetScoringRow>(
        m,
        scoringRecord,
        id,
        reason,
        person.name,
        revision,
      );
      const scores = await valuesOfLook(m, id);
      for (const score of scores.filter((one) => one.withdrawnAt === null))
        await this.records.withdraw<ScoreRow>(m, scoreRecord, score.id, reason, person.name);
      return row;
    });
  }
}
