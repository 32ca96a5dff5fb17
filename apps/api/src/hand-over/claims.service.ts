import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager, IsNull } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { accountWithId } from '../accounts/known-accounts.js';
import { Clock } from '../clock/clock.js';
import { oneAtATime } from '../database/one-at-a-time.js';
import { trimmed } from '../database/given.js';
import { fieldError, notFound } from '../errors/request-error.js';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { tagsTakenBy } from '../stock/hand-over-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { fishRecord } from '../stock/record-types.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import { FishClaimRow } from '../stock/rows/fish-claim.entity.js';
import { ownFishTagged, uniteFish, whyNotBare } from '../stock/unite-fish.js';
import type { ClaimFishInput } from './claim.model.js';

/** Claims of fish of which somebody else recorded only the tag. */
@Injectable()
export class ClaimsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /** By or to whoever asks, the latest first. */
  list(
    { keepsFor }: SignedInPerson,
    open: boolean,
    page: { readonly first: number; readonly after: string | null },
  ): Promise<KeysetPage<FishClaimRow>> {
    const query = this.dataSource
      .getRepository(FishClaimRow)
      .createQueryBuilder('c')
      .where('(c.by_id = :me OR c.to_id = :me)', { me: keepsFor });
    if (open) query.andWhere('c.answer IS NULL');
    const newestFirst = { key: 'c.created_at', type: 'timestamptz', direction: 'DESC' } as const;
    return keysetPage(query, 'c', newestFirst, page.first, page.after ?? undefined);
  }

  /**
   * Says of a fish that somebody else has on record by its tag alone that it is one's own; whoever recorded it confirms.
   *
   * @throws RequestError `VALIDATION` for a fish that is more than a tag there, or a tag that none of one's own fish bears; `NOT_FOUND`
   */
  async claim(input: ClaimFishInput, account: SignedInPerson): Promise<FishClaimRow> {
    await this.records.find(this.dataSource.manager, fishRecord, input.fishId);
    return asSystem('hand-over', () =>
      this.dataSource.transaction((m) => this.claimIn(m, input, account)),
    );
  }

  private async claimIn(
    m: EntityManager,
    input: ClaimFishInput,
    { keepsFor }: SignedInPerson,
  ): Promise<FishClaimRow> {
    await oneAtATime(m, `claim ${input.fishId.toLowerCase()}`);
    const bare = await this.records.lock(m, fishRecord, input.fishId);
    if (bare.personId === keepsFor)
      throw fieldError({ field: 'fishId', message: `${bare.tag} is on record with you already.` });
    const why = await whyNotBare(m, bare);
    if (why !== null)
      throw fieldError({
        field: 'fishId',
        message: `${bare.tag} ${why}: ask whoever keeps its record to hand it over.`,
      });
    if (await m.existsBy(FishClaimRow, { fishId: bare.id, answer: IsNull() }))
      throw fieldError({
        field: 'fishId',
        message: `${bare.tag} is claimed already: wait for the answer.`,
      });
    const asTag = trimmed(input.asTag) ?? null;
    const own = asTag === null ? null : await ownFishTagged(m, keepsFor, asTag);
    if (asTag !== null && own === null)
      throw fieldError({
        field: 'asTag',
        message: `None of your fish has the tag "${asTag}": give the tag as it stands in your records, or leave it empty.`,
      });
    const row = m.create(FishClaimRow, {
      ...{ id: randomUUID(), fishId: bare.id, tag: bare.tag, asFishId: own?.id ?? null, asTag },
      ...{ byId: keepsFor, toId: bare.personId, word: trimmed(input.word) ?? null },
      ...{ claimedOn: this.clock.today(), createdAt: this.clock.now() },
    });
    return m.save(row);
  }

  /** Confirmed, both records are one from then on; declined, both stay as they are. */
  async answer(
    id: string,
    confirmed: boolean,
    word: string | null,
    account: SignedInPerson,
  ): Promise<FishClaimRow> {
    await this.expectSide(id, 'toId', account);
    return asSystem('hand-over', () =>
      this.dataSource.transaction(async (m) => {
        const row = await this.open(m, id);
        if (confirmed) await this.unite(m, row, account);
        const answer = confirmed ? ('confirmed' as const) : ('declined' as const);
        return this.note(m, row, answer, word);
      }),
    );
  }

  async takeBack(id: string, account: SignedInPerson): Promise<FishClaimRow> {
    await this.expectSide(id, 'byId', account);
    return asSystem('hand-over', () =>
      this.dataSource.transaction(async (m) =>
        this.note(m, await this.open(m, id), 'taken_back', null),
      ),
    );
  }

  private async expectSide(
    id: string,
    side: 'byId' | 'toId',
    { keepsFor }: SignedInPerson,
  ): Promise<void> {
    const row = await this.dataSource.manager.findOneBy(FishClaimRow, { id });
    if (row === null || row[side] !== keepsFor) throw notFound('claim', id);
  }

  private async open(m: EntityManager, id: string): Promise<FishClaimRow> {
    const row = await m.findOneOrFail(FishClaimRow, {
      where: { id },
      lock: { mode: 'pessimistic_write' },
    });
    if (row.answer === null) return row;
    throw fieldError({
      field: 'id',
      message: `The claim of ${row.tag} was ${row.answer.replace('_', ' ')} on ${row.answeredOn ?? ''} already.`,
    });
  }

  private note(
    m: EntityManager,
    row: FishClaimRow,
    answer: NonNullable<FishClaimRow['answer']>,
    word: string | null,
  ): Promise<FishClaimRow> {
    const answered = { answer, answeredOn: this.clock.today(), answerWord: trimmed(word) ?? null };
    return m.save(Object.assign(row, answered));
  }

  private async unite(m: EntityManager, row: FishClaimRow, account: SignedInPerson): Promise<void> {
    if ((await accountWithId(this.dataSource, row.byId)) === null)
      throw fieldError({
        field: 'id',
        message: `Whoever claims ${row.tag} has no account here any more.`,
      });
    const bare = await this.records.lock(m, fishRecord, row.fishId);
    const why = await whyNotBare(m, bare);
    if (why !== null)
      throw fieldError({ field: 'id', message: `${row.tag} ${why} by now: decline the claim.` });
    const done = { day: this.clock.today(), by: account.name, accountId: account.id };
    if (row.asFishId !== null) {
      const own = await this.records.lock(m, fishRecord, row.asFishId);
      if (own.withdrawnAt !== null || own.personId !== row.byId)
        throw fieldError({
          field: 'id',
          message: `${own.tag} is no longer on record with whoever claims it: decline the claim.`,
        });
      return uniteFish(m, this.records, { bare, own }, done);
    }
    await this.handRecord(m, bare, row.byId, account);
  }

  /** A claimant without a record of it gets this one. */
  private async handRecord(
    m: EntityManager,
    bare: FishRow,
    personId: string,
    account: SignedInPerson,
  ): Promise<void> {
    if ((await tagsTakenBy(m, personId, [bare])).size > 0)
      throw fieldError({
        field: 'id',
        message: `Whoever claims ${bare.tag} uses that tag for another fish: they have to name the record that is meant.`,
      });
    const doing = { action: 'claimed', byAccountId: account.id };
    const changes: Partial<FishRow> = {
      ...{ personId, swimsWithId: personId },
      disposition: bare.disposition === 'elsewhere' ? 'keeper' : bare.disposition,
    };
    await this.records.correct<FishRow>(
      m,
      fishRecord,
      bare.id,
      undefined,
      changes,
      account.name,
      doing,
    );
  }
}
