import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { seesByGrant } from '../access/actor.js';
import { accountWithId } from '../accounts/known-accounts.js';
import { Clock } from '../clock/clock.js';
import { daySlip, timeSlipText } from '../clock/expect-happened.js';
import { oneAtATime } from '../database/one-at-a-time.js';
import { trimmed } from '../database/given.js';
import { FieldChecks } from '../errors/field-checks.js';
import { fieldError, notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { asOffered, whyItStays } from '../stock/hand-over-moves.js';
import { handOversById, loanOf, offeredTogether, openOffersOf } from '../stock/hand-over-rows.js';
import { accountNamed } from '../stock/people-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { fishRecord, handOverRecord } from '../stock/record-types.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import type { HandOverRow } from '../stock/rows/hand-over.entity.js';
import { answeredRequest } from './answered-request.js';
import type { OfferFishInput } from './hand-over.inputs.js';
import { latestDayBack } from './latest-day-back.js';

interface Receiver {
  readonly toId: string | null;
  readonly toName: string;
}

type Offer = Receiver & {
  readonly groupId: string;
  readonly fromId: string;
  readonly requestId: string | null;
};

/** Offering fish, and taking an offer back. */
@Injectable()
export class OffersService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly clock: Clock,
  ) {}

  /**
   * Offers fish to somebody: all of them or none. Sending the same offer twice offers once.
   *
   * @throws RequestError `VALIDATION` for fish that cannot go, each named with its reason; `NOT_FOUND`.
   */
  async offer(input: OfferFishInput, account: SignedInPerson): Promise<HandOverRow[]> {
    this.expectOffer(input);
    for (const id of input.fishIds)
      await this.records.find(this.dataSource.manager, fishRecord, id);
    const receiver = await this.receiver(input, account);
    const going = { fromId: account.keepsFor, ...receiver };
    const requestId = await this.answered(input, going);
    const offer = { groupId: input.id ?? randomUUID(), ...going, requestId };
    return asSystem('hand-over', () =>
      this.dataSource.transaction((m) => this.offerIn(m, input, offer, account)),
    );
  }

  private expectOffer({ fishIds, kind, backOn }: OfferFishInput): void {
    const checks = new FieldChecks();
    if (
      fishIds.length === 0 ||
      new Set(fishIds.map((id) => id.toLowerCase())).size < fishIds.length
    )
      checks.refuse('fishIds', 'Choose at least one fish, and each once.');
    if (kind === 'loan') checks.keepNow(() => this.expectDayBack(backOn ?? null));
    else if (backOn != null)
      checks.refuse('backOn', 'Only a loan has a day on which it is to be back: leave it empty.');
    checks.expectNone();
  }

  /** @throws RequestError `VALIDATION` for a day that is not yet to come, or years away. */
  expectDayBack(day: string | null): asserts day is string {
    const today = this.clock.today();
    const latest = latestDayBack(today);
    if (day === null)
      throw fieldError({ field: 'backOn', message: 'Say when the fish is to be back.' });
    if (daySlip(day, latest) === 'too-early')
      throw fieldError({ field: 'backOn', message: `${day} is ${timeSlipText['too-early']}` });
    if (day <= today)
      throw fieldError({
        field: 'backOn',
        message: `${day} is not after today (${today}): give a day to come.`,
      });
    if (day > latest)
      throw fieldError({
        field: 'backOn',
        message: `${day} is more than five years away: give an earlier day, it can be put off later.`,
      });
  }

  private async receiver(
    { toId, toName }: OfferFishInput,
    account: SignedInPerson,
  ): Promise<Receiver> {
    const name = trimmed(toName) ?? null;
    if ((toId == null) === (name === null))
      throw fieldError({ field: 'toId', message: 'Say to whom: choose one person.' });
    const found = toId != null ? await this.chosen(toId) : await this.named(name!, account);
    if (found.toId === account.keepsFor)
      throw fieldError({
        field: 'toId',
        message: 'You have these fish already: choose somebody else.',
      });
    return found;
  }

  private answered(
    { requestId, kind }: OfferFishInput,
    going: Pick<Offer, 'fromId' | 'toId'>,
  ): Promise<string | null> {
    if (requestId == null) return Promise.resolve(null);
    return answeredRequest(this.dataSource.manager, requestId, { ...going, kind });
  }

  /** Somebody whom whoever asks knows of. */
  private async chosen(id: string): Promise<Receiver> {
    const person = await accountWithId(this.dataSource, id);
    // With an account or without one: to whoever may not see them, both are nowhere.
    if (person === null)
      throw fieldError({
        field: 'toId',
        message:
          'There is nobody of that id with an account here who could answer: choose somebody else.',
      });
    return { toId: person.keepsFor, toName: person.name };
  }

  /** Whether there is somebody of that name is not told: the offer stands, and whoever signs in so finds it. */
  private async named(name: string, { role }: SignedInPerson): Promise<Receiver> {
    const person = await asSystem('hand-over', () => accountNamed(this.dataSource.manager, name));
    if (person === null && !seesByGrant(role))
      throw fieldError({
        field: 'toName',
        message: `Nobody named ${name} has an account here: invite them first, on the page "People".`,
      });
    if (person === null) return { toId: null, toName: name };
    // Those of the household answer for the owner, whose records they keep.
    const known = await asSystem('hand-over', () => accountWithId(this.dataSource, person.id));
    return { toId: known?.keepsFor ?? null, toName: name };
  }

  private async offerIn(
    m: EntityManager,
    input: OfferFishInput,
    offer: Offer,
    account: SignedInPerson,
  ): Promise<HandOverRow[]> {
    await oneAtATime(m, offer.groupId);
    const before = await offeredTogether(m, offer.groupId);
    if (before.length > 0) {
      if (before[0]!.fromId !== offer.fromId) throw notFound('offer', offer.groupId);
      return before;
    }
    const fish: FishRow[] = [];
    // Sorted by id: two offers of the same fish wait for each other instead of locking each other out.
    for (const id of [...input.fishIds].sort())
      fish.push(await this.records.lock(m, fishRecord, id));
    this.expectOneLine(fish);
    await this.expectFree(m, fish, { ...offer, kind: input.kind });
    const rows: HandOverRow[] = [];
    for (const one of fish) rows.push(await this.row(m, one, input, offer, account));
    return rows;
  }

  private expectOneLine(fish: readonly FishRow[]): void {
    if (new Set(fish.map(({ lineId }) => lineId)).size <= 1) return;
    throw fieldError({
      field: 'fishIds',
      message: 'These fish are of different lines: offer those of each line by themselves.',
    });
  }

  private async expectFree(
    m: EntityManager,
    fish: readonly FishRow[],
    going: Offer & Pick<OfferFishInput, 'kind'>,
  ): Promise<void> {
    const offered = new Map(
      (
        await openOffersOf(
          m,
          fish.map(({ id }) => id),
        )
      ).map((row) => [row.fishId, row]),
    );
    const checks = new FieldChecks();
    for (const one of fish) {
      const why = whyItStays(one, going, await loanOf(m, one.id));
      const open = offered.get(one.id);
      if (why !== null) checks.refuse('fishIds', `${one.tag} ${why}.`);
      else if (open !== undefined)
        checks.refuse(
          'fishIds',
          `${one.tag} is offered to ${open.toName} already: take that offer back first.`,
        );
    }
    checks.expectNone();
  }

  private async row(
    m: EntityManager,
    fish: FishRow,
    input: OfferFishInput,
    { groupId, fromId, toId, toName, requestId }: Offer,
    account: SignedInPerson,
  ): Promise<HandOverRow> {
    const made = {
      ...{ id: randomUUID(), groupId, fishId: fish.id, fromId, toId, toName, requestId },
      ...(await asOffered(m, fish)),
      ...{
        madeHere: true,
        kind: input.kind,
        offeredOn: this.clock.today(),
        backOn: input.backOn ?? null,
      },
      ...{ word: trimmed(input.word) ?? null, healthNote: trimmed(input.healthNote) ?? null },
      ...{ laterSpawns: input.laterSpawns, scores: input.withScores },
      ...{ photos: input.withPhotos, notes: input.withNotes },
    };
    const by = { action: 'offered', byAccountId: account.id };
    return this.records.create<HandOverRow>(m, handOverRecord, made, account.name, by);
  }

  /**
   * Takes back offers that nobody has answered: all of those named, or none.
   *
   * @throws RequestError `VALIDATION` for one that was answered; `NOT_FOUND`
   */
  async takeBack(
    ids: readonly string[],
    reason: string | null,
    account: SignedInPerson,
  ): Promise<HandOverRow[]> {
    const seen = await handOversById(this.dataSource.manager, ids);
    for (const id of ids)
      if (!seen.some((row) => row.id === id.toLowerCase() && row.fromId === account.keepsFor))
        throw notFound('offer of yours', id);
    return asSystem('hand-over', () =>
      this.dataSource.transaction(async (m) => {
        const rows: HandOverRow[] = [];
        for (const id of [...new Set(ids)].sort())
          rows.push(await this.takeBackIn(m, id, reason, account));
        return rows;
      }),
    );
  }

  private async takeBackIn(
    m: EntityManager,
    id: string,
    reason: string | null,
    account: SignedInPerson,
  ): Promise<HandOverRow> {
    const row = await this.records.lock<HandOverRow>(m, handOverRecord, id);
    if (row.withdrawnAt !== null) return row;
    if (row.answer !== null)
      throw fieldError({
        field: 'ids',
        message: `${row.toName} has answered already (${row.tag} was ${row.answer} on ${row.answeredOn ?? ''}): it cannot be taken back.`,
      });
    const doing = { action: 'taken back', byAccountId: account.id };
    const why = trimmed(reason) ?? 'taken back by the giver';
    return this.records.withdraw<HandOverRow>(
      m,
      handOverRecord,
      id,
      why,
      account.name,
      undefined,
      doing,
    );
  }
}
