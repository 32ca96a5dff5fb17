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
import { hasInstall } from '../stock/people-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { fishClaimRecord, fishRecord } from '../stock/record-types.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import { FishClaimRow } from '../stock/rows/fish-claim.entity.js';
import {
  expectUnitable,
  handBareRecord,
  ownFishTagged,
  uniteFish,
  whyNotBare,
} from '../stock/unite-fish.js';
import { standingSql, thatStands } from '../stock/standing.js';
import type { ClaimFishInput } from './claim.model.js';
import { endOfClaim, stateOfClaim } from './claim.mapper.js';

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
    if (open) query.andWhere(`c.answer IS NULL AND ${standingSql('c')}`);
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
    { keepsFor, id: byAccountId, name }: SignedInPerson,
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
    if (await m.existsBy(FishClaimRow, { fishId: bare.id, answer: IsNull(), ...thatStands }))
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
    // Answered elsewhere, it has to be sound by what is known here as well; here it is asked when it is answered.
    if (own !== null && (await hasInstall(m, bare.personId))) await expectUnitable(m, bare, own);
    const row = {
      ...{ id: randomUUID(), fishId: bare.id, tag: bare.tag, asFishId: own?.id ?? null, asTag },
      ...{ byId: keepsFor, toId: bare.personId, word: trimmed(input.word) ?? null },
      claimedOn: this.clock.today(),
    };
    const doing = { action: 'claimed', byAccountId };
    return this.records.create<FishClaimRow>(m, fishClaimRecord, row, name, doing);
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
        const answered = { answeredOn: this.clock.today(), answerWord: trimmed(word) ?? null };
        const changes = { answer, ...answered, applied: confirmed };
        const doing = { action: answer, byAccountId: account.id };
        const { name } = account;
        return this.records.correct<FishClaimRow>(
          m,
          fishClaimRecord,
          row.id,
          undefined,
          changes,
          name,
          doing,
        );
      }),
    );
  }

  async takeBack(id: string, account: SignedInPerson): Promise<FishClaimRow> {
    await this.expectSide(id, 'byId', account);
    const doing = { action: 'taken back', byAccountId: account.id };
    return asSystem('hand-over', () =>
      this.dataSource.transaction(async (m) => {
        await this.open(m, id);
        return this.records.withdraw<FishClaimRow>(
          m,
          fishClaimRecord,
          id,
          'taken back',
          account.name,
          undefined,
          doing,
        );
      }),
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
    const row = await this.records.lock(m, fishClaimRecord, id);
    const state = stateOfClaim(row);
    if (state === 'open') return row;
    throw fieldError({
      field: 'id',
      message: `The claim of ${row.tag} was ${state.replace('_', ' ')} on ${endOfClaim(row) ?? ''} already.`,
    });
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
    if (bare.personId !== row.toId)
      throw fieldError({
        field: 'id',
        message: `${row.tag} is on record with somebody else by now: decline the claim.`,
      });
    const done = { day: this.clock.today(), by: account.name, accountId: account.id };
    if (row.asFishId !== null) {
      const own = await this.records.lock(m, fishRecord, row.asFishId);
      if (own.withdrawnAt !== null || own.personId !== row.byId)
        throw fieldError({
          field: 'id',
          message: `${own.tag} is no longer on record with whoever claims it: decline the claim.`,
        });
      const learns = !(await hasInstall(m, row.byId));
      return uniteFish(m, this.records, { bare, own, learns }, done);
    }
    if (row.asTag !== null)
      throw fieldError({
        field: 'id',
        message: `The record ${row.asTag} that is meant has not come along: have the line exchanged once more.`,
      });
    await this.expectTagFree(m, bare, row.byId);
    await handBareRecord(m, this.records, bare, row.byId, done, bare.tag);
  }

  private async expectTagFree(m: EntityManager, bare: FishRow, personId: string): Promise<void> {
    if ((await tagsTakenBy(m, personId, [bare])).size === 0) return;
    throw fieldError({
      field: 'id',
      message: `Whoever claims ${bare.tag} uses that tag for another fish: they have to name the record that is meant.`,
    });
  }
}
