import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { trimmed } from '../database/given.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { RecordStore } from '../stock/record-store.js';
import { roundRecord } from '../stock/record-types.js';
import type { RoundRow } from '../stock/rows/round.entity.js';
import type { LessonInput } from './lessons.inputs.js';

/** What was learnt from rounds. */
@Injectable()
export class LessonsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  /** @throws RequestError `CONFLICT_REVISION` when the round is no longer as the form was opened at. */
  say({ id, revision, learnt }: LessonInput, person: SignedInPerson): Promise<RoundRow> {
    const changes = { learnt: trimmed(learnt) ?? null };
    return this.dataSource.transaction((m) =>
      this.records.correct<RoundRow>(m, roundRecord, id, revision, changes, person.name, 'learnt'),
    );
  }
}
