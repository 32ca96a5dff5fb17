import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { given, kept, trimmed } from '../database/given.js';
import { fieldError, RequestError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { RecordStore } from '../stock/record-store.js';
import { fishRecord, showResultRecord } from '../stock/record-types.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import type { ShowResultRow } from '../stock/rows/show-result.entity.js';
import type { CorrectShowResultInput, RecordShowResultInput } from './show.model.js';

const needed = (field: 'show' | 'class', value: string | null | undefined): string => {
  const text = trimmed(value) ?? null;
  if (text !== null) return text;
  const what = field === 'show' ? 'Name the show.' : 'Name the class it was shown in.';
  throw fieldError({ field, message: what });
};

const expectPlacing = (placing: number | null | undefined): void => {
  if (placing == null || placing > 0) return;
  throw fieldError({ field: 'placing', message: `${placing} is not a place: the first is 1.` });
};

/** A show before the fish had hatched was that of another fish. */
const expectHatched = (fish: Pick<FishRow, 'tag' | 'hatchDate'>, onDate: string): void => {
  if (fish.hatchDate === null || onDate >= fish.hatchDate) return;
  throw fieldError({
    field: 'onDate',
    message: `${fish.tag} had not hatched on ${onDate}: correct the day.`,
  });
};

/** Results of shows. */
@Injectable()
export class ShowsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  record(input: RecordShowResultInput, person: SignedInPerson): Promise<ShowResultRow> {
    expectKeepsRecords(person);
    expectDayHappened(this.clock, 'onDate', input.onDate);
    expectPlacing(input.placing);
    const named = { show: needed('show', input.show), class: needed('class', input.class) };
    return this.dataSource.transaction(async (m): Promise<ShowResultRow> => {
      const fish = await this.records.find(m, fishRecord, input.fishId);
      if (fish.withdrawnAt !== null)
        throw fieldError({ field: 'fishId', message: `${fish.tag} was withdrawn.` });
      expectHatched(fish, input.onDate);
      const row = {
        ...{ id: input.id ?? randomUUID(), fishId: fish.id, onDate: input.onDate, ...named },
        ...{ placing: input.placing ?? null, points: input.points ?? null },
        note: trimmed(input.note) ?? null,
      };
      return this.records.create<ShowResultRow>(m, showResultRecord, row, person.name);
    });
  }

  correct(input: CorrectShowResultInput, person: SignedInPerson): Promise<ShowResultRow> {
    const { id, revision, show, onDate, placing, points, note } = input;
    expectKeepsRecords(person);
    if (onDate != null) expectDayHappened(this.clock, 'onDate', onDate);
    expectPlacing(placing);
    const changes = given({
      ...{ onDate: kept(onDate), placing, points, note: trimmed(note) },
      ...{ show: show == null ? undefined : needed('show', show) },
      ...{ class: input.class == null ? undefined : needed('class', input.class) },
    }) as Partial<ShowResultRow>;
    return this.dataSource.transaction(async (m) => {
      const row = await this.records.correct<ShowResultRow>(
        m,
        showResultRecord,
        id,
        revision,
        changes,
        person.name,
      );
      expectHatched(await this.records.find(m, fishRecord, row.fishId), row.onDate);
      return row;
    });
  }

  withdraw(
    { id, reason, revision }: WithdrawInput,
    person: SignedInPerson,
  ): Promise<ShowResultRow> {
    expectKeepsRecords(person);
    return this.dataSource.transaction((m) =>
      this.records.withdraw<ShowResultRow>(m, showResultRecord, id, reason, person.name, revision),
    );
  }
}

/** @throws RequestError `NOT_ALLOWED` for a partner, who is shown them with the scores */
const expectKeepsRecords = ({ role }: SignedInPerson): void => {
  if (role !== 'partner') return;
  throw new RequestError(
    'NOT_ALLOWED',
    'Results of shows are recorded by whoever keeps records of their own here.',
  );
};
