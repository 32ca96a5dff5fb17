import { dayAfter } from '@linewright/care';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { accountWithId } from '../accounts/known-accounts.js';
import { Clock } from '../clock/clock.js';
import { trimmed } from '../database/given.js';
import { fieldError, notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { moveFish, noteHandOver, whyItStays } from '../stock/hand-over-moves.js';
import { handOversById, loanOf, tagsTakenBy } from '../stock/hand-over-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { fishRecord, handOverRecord } from '../stock/record-types.js';
import type { HandOverRow } from '../stock/rows/hand-over.entity.js';
import type { AcceptFishInput } from './hand-over.inputs.js';

/** Longest quarantine that is taken: a year. */
const MOST_QUARANTINE = 366;

const day = (on: string | null): string => (on === null ? '' : ` on ${on}`);

/** Taking offered fish, or declining them. */
@Injectable()
export class AnswersService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /**
   * Takes fish that were offered: all of those named, or none. Where both are at this install they move in the same transaction; otherwise
   * once the giver's install has said so.
   *
   * @throws RequestError `VALIDATION` for an offer that no longer stands and for fish that cannot go, with the reason; `NOT_FOUND`
   */
  async accept(input: AcceptFishInput, account: SignedInPerson): Promise<HandOverRow[]> {
    const { quarantineDays } = input;
    if (quarantineDays != null && (quarantineDays < 1 || quarantineDays > MOST_QUARANTINE))
      throw fieldError({
        field: 'quarantineDays',
        message: `${quarantineDays} days of quarantine: give 1 to ${MOST_QUARANTINE}, or leave it empty.`,
      });
    await this.expectMine(input.ids, account);
    return asSystem('hand-over', () =>
      this.dataSource.transaction(async (m) => {
        const rows = await this.open(m, input.ids);
        const tags = await this.tags(m, rows, input, account);
        const done: HandOverRow[] = [];
        for (const row of rows)
          done.push(await this.acceptIn(m, row, input, account, tags.get(row.id)));
        return done;
      }),
    );
  }

  async decline(
    ids: readonly string[],
    word: string | null,
    account: SignedInPerson,
  ): Promise<HandOverRow[]> {
    await this.expectMine(ids, account);
    return asSystem('hand-over', () =>
      this.dataSource.transaction(async (m) => {
        const done: HandOverRow[] = [];
        for (const row of await this.open(m, ids)) {
          const answer = { answer: 'declined' as const, ...this.said(word) };
          done.push(await this.note(m, row, answer, 'declined', account));
        }
        return done;
      }),
    );
  }

  private said(word: string | null | undefined): Pick<HandOverRow, 'answeredOn' | 'answerWord'> {
    return { answeredOn: this.clock.today(), answerWord: trimmed(word) ?? null };
  }

  /** Offers to whoever asks; those of others are as missing as any. */
  private async expectMine(ids: readonly string[], { keepsFor }: SignedInPerson): Promise<void> {
    if (ids.length === 0)
      throw fieldError({ field: 'ids', message: 'Choose at least one of the offered fish.' });
    const seen = await handOversById(this.dataSource.manager, ids);
    for (const id of ids)
      if (!seen.some((row) => row.id === id.toLowerCase() && row.toId === keepsFor))
        throw notFound('offer to you', id);
  }

  private async open(m: EntityManager, ids: readonly string[]): Promise<HandOverRow[]> {
    const rows: HandOverRow[] = [];
    for (const id of [...new Set(ids)].sort()) {
      const row = await this.records.lock<HandOverRow>(m, handOverRecord, id);
      if (row.withdrawnAt !== null)
        throw fieldError({
          field: 'ids',
          message: `${row.tag} is no longer offered: ${row.withdrawnReason ?? 'it was taken back'}.`,
        });
      if (row.answer !== null)
        throw fieldError({
          field: 'ids',
          message: `${row.tag} was ${row.answer}${day(row.answeredOn)} already.`,
        });
      rows.push(row);
    }
    return rows;
  }

  /** The tags that fish get which are the receiver's from then on. */
  private async tags(
    m: EntityManager,
    rows: readonly HandOverRow[],
    { tags }: AcceptFishInput,
    { keepsFor }: SignedInPerson,
  ): Promise<Map<string, string>> {
    const lasting = rows.filter(({ kind }) => kind !== 'loan');
    const wanted = new Map((tags ?? []).map(({ id, tag }) => [id.toLowerCase(), tag.trim()]));
    const found = new Map<string, string>();
    const asked: { id: string; tag: string }[] = [];
    for (const { id, fishId } of lasting) {
      const fish = await this.records.find(m, fishRecord, fishId);
      const tag = wanted.get(id) ?? fish.tag;
      if (tag === '' || tag.length > 40)
        throw fieldError({
          field: 'tags',
          message: `"${tag}" cannot be a tag: give 1 to 40 characters.`,
        });
      if (tag !== fish.tag) found.set(id, tag);
      asked.push({ id: fishId, tag });
    }
    const taken = await tagsTakenBy(m, keepsFor, asked);
    const twice = asked.find(({ tag }, k) => asked.findIndex((other) => other.tag === tag) < k);
    const clash = asked.find(({ tag }) => taken.has(tag)) ?? twice;
    if (clash !== undefined)
      throw fieldError({
        field: 'tags',
        message: `The tag "${clash.tag}" is on another of your fish, and tags are never reused: give this one another tag.`,
      });
    return found;
  }

  private async acceptIn(
    m: EntityManager,
    row: HandOverRow,
    input: AcceptFishInput,
    account: SignedInPerson,
    tag: string | undefined,
  ): Promise<HandOverRow> {
    const today = this.clock.today();
    const days = input.quarantineDays ?? null;
    const answer = {
      ...{ answer: 'accepted' as const, ...this.said(input.word) },
      quarantineUntil: days === null ? null : dayAfter(today, days - 1),
    };
    // Whether it was taken back meanwhile, only the install knows where it was offered.
    if (!row.madeHere)
      return this.note(m, row, { ...answer, newTag: tag ?? null }, 'accepted', account);
    if ((await accountWithId(this.dataSource, row.fromId)) === null)
      throw fieldError({
        field: 'ids',
        message: `Whoever offered ${row.tag} has no account here any more: it cannot be taken.`,
      });
    const fish = await this.records.lock(m, fishRecord, row.fishId);
    const why = whyItStays(fish, row, await loanOf(m, row.fishId));
    if (why !== null)
      throw fieldError({ field: 'ids', message: `${row.tag} cannot be taken: it ${why}.` });
    const done = { day: today, by: account.name, accountId: account.id };
    return moveFish(m, this.records, row, done, answer, tag);
  }

  private note(
    m: EntityManager,
    row: HandOverRow,
    changes: Partial<HandOverRow>,
    action: string,
    { name: by, id: accountId }: SignedInPerson,
  ): Promise<HandOverRow> {
    return noteHandOver(m, this.records, row, changes, action, { by, accountId });
  }
}
