import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { Clock } from '../clock/clock.js';
import { trimmed } from '../database/given.js';
import { fieldError, notFound, RequestError } from '../errors/request-error.js';
import type { KeysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import {
  addRequest,
  changeRequest,
  lockRequest,
  requestsByDay,
  requestWithId,
  shownLines,
} from '../stock/club-rows.js';
import type { ClubRequestRow } from '../stock/rows/club.entity.js';
import type { AnswerClubRequestInput, AskClubInput } from './requests.model.js';

/** Requests between keepers: asked, answered or withdrawn. Each sees those they made or got. */
@Injectable()
export class RequestsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  page(
    openAlone: boolean,
    first: number,
    after: string | undefined,
  ): Promise<KeysetPage<ClubRequestRow>> {
    return requestsByDay(this.dataSource.manager, openAlone, first, after);
  }

  /** Sent again under the same id it is asked once. */
  async ask(input: AskClubInput, by: SignedInPerson): Promise<ClubRequestRow> {
    const words = input.words.trim();
    if (words === '')
      throw fieldError({ field: 'words', message: 'Say in a word or two what you would like.' });
    const shown = await asSystem('club', () => shownLines(this.dataSource));
    const line = shown.find(({ id }) => id === input.lineId.toLowerCase());
    if (line === undefined) throw notFound('line', input.lineId);
    if (line.keeperId === by.keepsFor)
      throw fieldError({ field: 'lineId', message: 'This line is yours: there is nobody to ask.' });
    const { manager } = this.dataSource;
    const id = input.id ?? randomUUID();
    const sent = await requestWithId(manager, id);
    if (sent !== null) return sent;
    await addRequest(manager, {
      ...{ id, lineId: line.id, lineName: `${line.code} ${line.name}`, what: input.what, words },
      ...{ fromId: by.keepsFor, toId: line.keeperId, askedAt: this.clock.now() },
      ...{ state: 'open', answer: null, endedAt: null },
    });
    return this.known(manager, id);
  }

  answer(input: AnswerClubRequestInput, by: SignedInPerson): Promise<ClubRequestRow> {
    const ended = {
      state: input.yes ? 'yes' : 'no',
      answer: trimmed(input.words) ?? null,
    } as const;
    return this.end(input.requestId, 'toId', ended, by);
  }

  withdraw(id: string, by: SignedInPerson): Promise<ClubRequestRow> {
    return this.end(id, 'fromId', { state: 'withdrawn' }, by);
  }

  private end(
    id: string,
    whose: 'fromId' | 'toId',
    changes: Partial<ClubRequestRow>,
    by: SignedInPerson,
  ): Promise<ClubRequestRow> {
    return this.dataSource.transaction(async (m) => {
      const row = await lockRequest(m, id);
      if (row === null || row[whose] !== by.keepsFor) throw notFound('request', id);
      if (row.state !== 'open')
        throw new RequestError(
          'CONFLICT_REVISION',
          'This request is not open any more: look at the page again.',
        );
      await changeRequest(m, row.id, { ...changes, endedAt: this.clock.now() });
      return this.known(m, row.id);
    });
  }

  private async known(manager: EntityManager, id: string): Promise<ClubRequestRow> {
    const row = await requestWithId(manager, id);
    if (row === null) throw notFound('request', id);
    return row;
  }
}
