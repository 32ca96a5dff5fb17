import type { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type GraphqlAnswer, recordsOf, type RunningApi, startApi } from './harness.js';
import { type Browser, joinedAs } from './other-browser.js';

const SECRET = 'For nobody else';
const FIELDS = `id state side toName tag quarantineUntil backOn movedOn endedAs answerWord healthNote
  from { name } to { name } handed: fish { tag } laterSpawns { sireTag damTag day counts { stage number } }`;
const OFFER = `mutation ($input: OfferFishInput!) { offerFish(input: $input) { ${FIELDS} } }`;
const ACCEPT = `mutation ($input: AcceptFishInput!) { acceptFish(input: $input) { ${FIELDS} } }`;
const DECLINE = `mutation ($ids: [ID!]!, $word: String) { declineFish(ids: $ids, word: $word) { ${FIELDS} } }`;
const TAKE_BACK = `mutation ($ids: [ID!]!) { takeBackOffers(ids: $ids) { ${FIELDS} } }`;
const SAY_BACK = `mutation ($input: LoanReturnInput!) { sayLoanReturned(input: $input) { ${FIELDS} } }`;
const END = `mutation ($input: LoanReturnInput!) { endLoan(input: $input) { ${FIELDS} } }`;
const PUT_OFF = `mutation ($id: ID!, $on: Date!) { putOffLoan(id: $id, backOn: $on) { backOn } }`;
const ONE = `query ($id: ID!) { handOver(id: $id) { ${FIELDS} } }`;
const DUE = `query ($on: Date) { handOversDue(on: $on) { id tag state side } }`;
const FISH = `query ($id: ID!) { fish(id: $id) { tag note revision place inUse disposition person { name } swimsWith { name }
  scores { value } genotypes { genotype } handOvers { state toName backOn } } }`;

interface Told {
  id: string;
  state: string;
  side: string;
  toName: string;
  tag: string;
  quarantineUntil: string | null;
  backOn: string | null;
  endedAs: string | null;
  from: { name: string };
  to: { name: string } | null;
  handed: { tag: string } | null;
  laterSpawns: { sireTag: string; damTag: string; day: string; counts: object[] }[];
}

interface SeenFish {
  tag: string;
  note: string | null;
  revision: number;
  place: string;
  person: { name: string };
  swimsWith: { name: string } | null;
  scores: object[];
  handOvers: { state: string; toName: string; backOn: string | null }[];
}

let api: RunningApi;
let records: DataSource;
let owner: Pick<Browser, 'send'>;
let runa: Browser & { id: string };
let pelle: Browser & { id: string };
let ownerId = '';
let lineId = '';
let otherLine = '';
let traitId = '';
let made = 0;

const problem = ({ errors }: GraphqlAnswer<unknown>): string =>
  errors?.[0] === undefined ? '' : `${errors[0].extensions.code}: ${errors[0].message}`;

const sent = async <Data>(
  by: Pick<Browser, 'send'>,
  query: string,
  variables: object,
): Promise<Data> => {
  const answer = await by.send<Data>(query, variables);
  expect(problem(answer)).toBe('');
  return answer.data as Data;
};

const refused = async (
  by: Pick<Browser, 'send'>,
  query: string,
  variables: object,
): Promise<string> => problem(await by.send(query, variables));

/** A male of the line that swims with the owner. */
const newFish = async (more: object = {}): Promise<string> =>
  newRecords(api).createFish({
    tag: `HO-${(made += 1)}`,
    sex: 'MALE',
    lineId,
    note: SECRET,
    ...more,
  });

const offered = async (
  by: Pick<Browser, 'send'>,
  fishIds: string[],
  toId: string,
  more: object = {},
): Promise<Told[]> => {
  const input = { fishIds, toId, kind: 'GIFT', ...more };
  return (await sent<{ offerFish: Told[] }>(by, OFFER, { input })).offerFish;
};

const accepted = async (
  by: Pick<Browser, 'send'>,
  ids: string[],
  more: object = {},
): Promise<Told[]> =>
  (await sent<{ acceptFish: Told[] }>(by, ACCEPT, { input: { ids, ...more } })).acceptFish;

const fishAs = async (by: Pick<Browser, 'send'>, id: string): Promise<SeenFish> =>
  (await sent<{ fish: SeenFish }>(by, FISH, { id })).fish;

const dueFor = async (by: Pick<Browser, 'send'>, on: string): Promise<string[]> =>
  (await sent<{ handOversDue: Told[] }>(by, DUE, { on })).handOversDue.map(
    ({ tag, state, side }) => `${tag} ${state} ${side}`,
  );

const inDays = (days: number): string => daysAgo(-days);

beforeAll(async () => {
  api = await startApi();
  records = await recordsOf(api);
  owner = api;
  const make = newRecords(api);
  lineId = await make.createLine({ code: 'GO', name: 'Going line' });
  otherLine = await make.createLine({ code: 'STAY', name: 'Staying line' });
  traitId = await make.createTrait({ key: 'length', name: 'Length', kind: 'MEASURED', unit: 'mm' });
  ownerId = ((await records.query('SELECT id FROM person WHERE here')) as { id: string }[])[0]!.id;
  [runa, pelle] = [await joinedAs(api, 'Runa'), await joinedAs(api, 'Pelle')];
});
afterAll(() => api.close());

describe('a fish that is given', () => {
  it('moves once the receiver has accepted, and is their record from then on', async () => {
    const id = await newFish({ tag: 'GIVEN-1' });
    await newRecords(api).recordScores({
      ...{ fishId: id, scoredOn: today() },
      scores: [{ traitId, value: 41 }],
    });
    const [offer] = await offered(owner, [id], runa.id, { healthNote: 'Kept with guppies' });
    expect(offer).toMatchObject({ state: 'OFFERED', side: 'GIVER', toName: 'Runa', to: null });
    // Nothing has moved, and she sees what is offered and not the record.
    expect(await fishAs(owner, id)).toMatchObject({
      place: 'HERE',
      person: { name: 'Test keeper' },
    });
    expect(await refused(runa, FISH, { id })).toContain('NOT_FOUND');
    const { handOver } = await sent<{ handOver: Told }>(runa, ONE, { id: offer!.id });
    expect(handOver).toMatchObject({
      ...{ state: 'OFFERED', side: 'RECEIVER', tag: 'GIVEN-1', healthNote: 'Kept with guppies' },
      ...{ handed: null, from: { name: 'Test keeper' } },
    });
    const [got] = await accepted(runa, [offer!.id], { word: 'Thank you', quarantineDays: 21 });
    expect(got).toMatchObject({ state: 'MOVED', quarantineUntil: inDays(20), movedOn: today() });
    expect(await fishAs(owner, id)).toMatchObject({
      ...{ place: 'PARTNER', person: { name: 'Runa' }, swimsWith: { name: 'Runa' } },
    });
    // She reads the record; scores were not agreed to go along.
    expect(await fishAs(runa, id)).toMatchObject({ tag: 'GIVEN-1', note: SECRET, scores: [] });
  });

  it('takes along what was agreed, and is kept on by the receiver', async () => {
    const id = await newFish();
    await newRecords(api).recordScores({
      ...{ fishId: id, scoredOn: today() },
      scores: [{ traitId, value: 39 }],
    });
    const [offer] = await offered(owner, [id], runa.id, { withScores: true });
    await accepted(runa, [offer!.id]);
    expect((await fishAs(runa, id)).scores).toEqual([{ value: 39 }]);
    const { revision } = await fishAs(runa, id);
    const input = { id, revision, name: 'Rust' };
    await sent(
      runa,
      'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { name } }',
      { input },
    );
    const moved = { id, revision: revision + 1, lineId: otherLine };
    expect(
      await refused(
        runa,
        'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { name } }',
        {
          input: moved,
        },
      ),
    ).not.toBe('');
    const history = (await records.query(
      `SELECT action, by_account_id FROM record_history WHERE record_id = $1 ORDER BY sequence`,
      [id],
    )) as { action: string; by_account_id: string }[];
    expect(history.map(({ action }) => action)).toEqual([
      'recorded',
      'handed over to Runa',
      'corrected',
    ]);
    expect(history.map(({ by_account_id }) => by_account_id)).toEqual([ownerId, runa.id, runa.id]);
  });

  it('goes with several of its line at once: all of them or none', async () => {
    const [first, second] = [await newFish(), await newFish()];
    const stranger = await newFish({ lineId: otherLine });
    expect(
      await refused(owner, OFFER, {
        input: { fishIds: [first, stranger], toId: runa.id, kind: 'GIFT' },
      }),
    ).toContain('different lines');
    const offers = await offered(owner, [first, second], runa.id);
    await sent(owner, 'mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }', {
      input: { id: second, disposition: 'DIED', on: today() },
    });
    const ids = offers.map(({ id }) => id);
    expect(await refused(runa, ACCEPT, { input: { ids } })).toMatch(
      /HO-\d+ cannot be taken: it died/,
    );
    expect((await fishAs(owner, first)).place).toBe('HERE');
    const alive = offers.filter(({ tag }) => tag === `HO-${made - 2}`).map(({ id }) => id);
    await accepted(runa, alive);
    expect((await fishAs(owner, first)).place).toBe('PARTNER');
  });

  it('is declined with a word, and can be offered to somebody else then', async () => {
    const id = await newFish();
    const [offer] = await offered(owner, [id], runa.id);
    const { declineFish } = await sent<{ declineFish: Told[] }>(runa, DECLINE, {
      ...{ ids: [offer!.id], word: 'No tank free' },
    });
    expect(declineFish[0]).toMatchObject({ state: 'DECLINED', answerWord: 'No tank free' });
    expect((await fishAs(owner, id)).place).toBe('HERE');
    await offered(owner, [id], pelle.id);
  });

  it('gets another tag where the receiver uses its own already', async () => {
    const mine = await newFish({ tag: 'TWICE' });
    const [offer] = await offered(owner, [mine], runa.id);
    await accepted(runa, [offer!.id]);
    // A tag is used once in one stock: the owner may use it again once the fish is another's record.
    const again = await newFish({ tag: 'TWICE' });
    const [second] = await offered(owner, [again], runa.id);
    expect(await refused(runa, ACCEPT, { input: { ids: [second!.id] } })).toContain(
      '"TWICE" is on another',
    );
    await accepted(runa, [second!.id], { tags: [{ id: second!.id, tag: 'TWICE-2' }] });
    expect((await fishAs(runa, again)).tag).toBe('TWICE-2');
  });

  it('goes on to a third, who gets it from whoever has it', async () => {
    const id = await newFish({ tag: 'TRAVELS' });
    const [first] = await offered(owner, [id], runa.id);
    await accepted(runa, [first!.id]);
    // By name: whether there is a Pelle is not told before he has answered.
    const input = { fishIds: [id], toName: 'Pelle', kind: 'SALE' };
    const { offerFish } = await sent<{ offerFish: Told[] }>(runa, OFFER, { input });
    expect(offerFish[0]).toMatchObject({ toName: 'Pelle', to: null, state: 'OFFERED' });
    const [taken] = await accepted(pelle, [offerFish[0]!.id]);
    expect(taken).toMatchObject({ from: { name: 'Runa' }, to: { name: 'Pelle' } });
    expect(await refused(runa, FISH, { id })).toContain('NOT_FOUND');
    expect((await fishAs(pelle, id)).person).toEqual({ name: 'Pelle' });
    // What she recorded and that it went stays with her.
    const { handOver } = await sent<{ handOver: Told }>(runa, ONE, { id: first!.id });
    expect(handOver).toMatchObject({ state: 'ENDED', endedAs: 'HANDED_ON', tag: 'TRAVELS' });
  });
});

describe('a fish that is lent', () => {
  it('swims with the borrower, stays the lender’s record, comes up on its day and comes back', async () => {
    const id = await newFish({ tag: 'LENT-1' });
    const backOn = inDays(30);
    const [offer] = await offered(owner, [id], runa.id, { kind: 'LOAN', backOn, withNotes: true });
    await accepted(runa, [offer!.id]);
    const lent = { state: 'MOVED', toName: 'Runa', backOn };
    expect(await fishAs(owner, id)).toMatchObject({
      ...{ place: 'PARTNER', person: { name: 'Test keeper' }, handOvers: [lent] },
    });
    expect(await fishAs(runa, id)).toMatchObject({
      ...{
        person: { name: 'Test keeper' },
        swimsWith: { name: 'Runa' },
        note: SECRET,
        handOvers: [lent],
      },
    });
    expect(await dueFor(owner, inDays(29))).not.toContain('LENT-1 MOVED GIVER');
    for (const [by, side] of [
      [owner, 'GIVER'],
      [runa, 'RECEIVER'],
    ] as const)
      expect(await dueFor(by, backOn)).toContain(`LENT-1 MOVED ${side}`);
    const later = inDays(60);
    await sent(owner, PUT_OFF, { id: offer!.id, on: later });
    expect(await dueFor(owner, backOn)).not.toContain('LENT-1 MOVED GIVER');
    const said = { id: offer!.id, as: 'CAME_BACK', on: today(), word: 'By post' };
    await sent(runa, SAY_BACK, { input: said });
    expect(await dueFor(owner, today())).toContain('LENT-1 RETURNING GIVER');
    expect((await fishAs(owner, id)).place).toBe('PARTNER');
    const ended = await sent<{ endLoan: Told }>(owner, END, {
      input: { id: offer!.id, as: 'CAME_BACK', on: today() },
    });
    expect(ended.endLoan).toMatchObject({ state: 'ENDED', endedAs: 'CAME_BACK' });
    expect(await fishAs(owner, id)).toMatchObject({ place: 'HERE', handOvers: [] });
    expect(await refused(runa, FISH, { id })).toContain('NOT_FOUND');
  });

  it('cannot be handed on by the borrower, nor lent twice, and is made a lasting hand-over', async () => {
    const id = await newFish();
    const [offer] = await offered(owner, [id], runa.id, { kind: 'LOAN', backOn: inDays(5) });
    await accepted(runa, [offer!.id]);
    const on = (toName: string) => ({ input: { fishIds: [id], toName, kind: 'GIFT' } });
    expect(await refused(runa, OFFER, on('Pelle'))).toContain('on loan: only whose record it is');
    const again = { fishIds: [id], toId: pelle.id, kind: 'LOAN', backOn: inDays(9) };
    expect(await refused(owner, OFFER, { input: again })).toContain('on loan already');
    expect(
      await refused(owner, OFFER, { input: { ...again, kind: 'GIFT', backOn: null } }),
    ).toContain('has to come back first');
    const [lasting] = await offered(owner, [id], runa.id);
    await accepted(runa, [lasting!.id]);
    expect((await fishAs(runa, id)).person).toEqual({ name: 'Runa' });
    const { handOver } = await sent<{ handOver: Told }>(owner, ONE, { id: offer!.id });
    expect(handOver).toMatchObject({ state: 'ENDED', endedAs: 'KEPT' });
  });

  it('is on record as dead once the lender confirms that it died', async () => {
    const id = await newFish();
    const [offer] = await offered(owner, [id], runa.id, { kind: 'LOAN', backOn: inDays(5) });
    await accepted(runa, [offer!.id]);
    await sent(runa, SAY_BACK, { input: { id: offer!.id, as: 'DIED', on: today() } });
    await sent(owner, END, { input: { id: offer!.id, as: 'DIED', on: today() } });
    expect((await fishAs(owner, id)).handOvers).toEqual([]);
    const [row] = (await records.query('SELECT disposition FROM fish WHERE id = $1', [
      id,
    ])) as object[];
    expect(row).toEqual({ disposition: 'died' });
  });

  it('is said to be lent, and in quarantine, where it is judged for a pair', async () => {
    const id = await newFish();
    const dam = await newFish({ sex: 'FEMALE' });
    const [offer] = await offered(owner, [id], runa.id, { kind: 'LOAN', backOn: inDays(9) });
    await accepted(runa, [offer!.id], { quarantineDays: 7 });
    const { plannedBrood } = await sent<{
      plannedBrood: { warnings: { code: string; text: string }[] };
    }>(
      owner,
      `query ($sire: ID!, $dam: ID!) { plannedBrood(sireId: $sire, damId: $dam) { warnings { code text } } }`,
      { sire: id, dam },
    );
    const texts = plannedBrood.warnings.map(({ text }) => text).join(' ');
    expect(texts).toContain(`is on loan with Runa until ${inDays(9)}, not here`);
    expect(texts).toContain(`is in quarantine until ${inDays(6)}`);
    expect(await dueFor(runa, today())).toContain(`HO-${made - 1} MOVED RECEIVER`);
  });
});

describe('spawns that follow', () => {
  it('are seen by the giver where that was agreed, by parents, day and counts', async () => {
    const seen = await newFish({ tag: 'SIRE-SEEN' });
    const unseen = await newFish({ tag: 'SIRE-UNSEEN' });
    const [told] = await offered(owner, [seen], runa.id, { laterSpawns: true });
    const [untold] = await offered(owner, [unseen], runa.id);
    await accepted(runa, [told!.id, untold!.id]);
    // On to Pelle: what Runa is told of it is what she agreed on with him.
    const input = { fishIds: [seen], toName: 'Pelle', kind: 'GIFT', laterSpawns: true };
    const { offerFish } = await sent<{ offerFish: Told[] }>(runa, OFFER, { input });
    await accepted(pelle, [offerFish[0]!.id]);
    const damId = await newFish({ sex: 'FEMALE', tag: 'DAM-HERE' });
    for (const sireId of [seen, unseen]) {
      const spawnId = await newRecords(api).createSpawn({
        ...{ tag: `LATER-${sireId.slice(0, 4)}`, sireId, damId, spawnedOn: today(), note: SECRET },
      });
      await newRecords(api).recordSpawnCount({
        spawnId,
        stage: 'EGGS',
        countedOn: today(),
        number: 70,
      });
    }
    const { handOver } = await sent<{ handOver: Told }>(runa, ONE, { id: offerFish[0]!.id });
    expect(handOver.laterSpawns).toEqual([
      {
        ...{ sireTag: 'SIRE-SEEN', damTag: 'DAM-HERE', day: today() },
        counts: [{ stage: 'EGGS', number: 70 }],
      },
    ]);
    const other = await sent<{ handOver: Told }>(owner, ONE, { id: untold!.id });
    expect(other.handOver.laterSpawns).toEqual([]);
  });
});

describe('what is refused, and nothing changed', () => {
  it('a fish that whoever offers it does not have, or that is dead, withdrawn or offered already', async () => {
    const id = await newFish();
    const offer = (fishId: string, more: object = {}) => ({
      input: { fishIds: [fishId], toId: runa.id, kind: 'GIFT', ...more },
    });
    // Hers are neither his to offer nor to know of.
    expect(
      await refused(pelle, OFFER, { input: { fishIds: [id], toName: 'Runa', kind: 'GIFT' } }),
    ).toContain('NOT_FOUND');
    const ended: [object, string][] = [
      [{ disposition: 'DIED' }, 'died'],
      [{ disposition: 'CULLED', reason: 'Bent' }, 'was culled'],
      [{ disposition: 'PLACED' }, 'does not swim with'],
      [{ disposition: 'ELSEWHERE' }, 'ancestor only'],
    ];
    for (const [how, why] of ended) {
      await sent(
        owner,
        'mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }',
        {
          input: { id, on: today(), ...how },
        },
      );
      expect(await refused(owner, OFFER, offer(id))).toContain(why);
    }
    const gone = await newFish();
    await sent(owner, 'mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }', {
      input: { id: gone, reason: 'Recorded twice' },
    });
    expect(await refused(owner, OFFER, offer(gone))).toContain('was withdrawn');
    const twice = await newFish();
    await offered(owner, [twice], runa.id);
    expect(await refused(owner, OFFER, offer(twice, { toId: pelle.id }))).toContain(
      'offered to Runa already',
    );
  });

  it('two offers of one fish at once: one stands', async () => {
    const id = await newFish();
    const both = await Promise.all(
      [runa.id, pelle.id].map((toId) =>
        owner.send(OFFER, { input: { fishIds: [id], toId, kind: 'GIFT' } }),
      ),
    );
    expect(both.map(problem).filter((text) => text === '')).toHaveLength(1);
    expect(both.map(problem).join('')).toContain('already: take that offer back first');
  });

  it('two accepts at once: one wins, the other is told why', async () => {
    const id = await newFish();
    const [offer] = await offered(owner, [id], runa.id);
    const input = { ids: [offer!.id] };
    const both = await Promise.all([runa.send(ACCEPT, { input }), runa.send(ACCEPT, { input })]);
    expect(both.map(problem).filter((text) => text === '')).toHaveLength(1);
    expect(both.map(problem).join('')).toMatch(/was accepted on .* already/);
  });

  it('an answer to what was taken back, by a third, by the giver, or twice', async () => {
    const id = await newFish();
    const [offer] = await offered(owner, [id], runa.id);
    const input = { ids: [offer!.id] };
    for (const by of [pelle, owner])
      expect(await refused(by, ACCEPT, { input })).toContain('NOT_FOUND');
    expect(await refused(pelle, TAKE_BACK, { ids: [offer!.id] })).toContain('NOT_FOUND');
    await sent(owner, TAKE_BACK, { ids: [offer!.id] });
    expect(await refused(runa, ACCEPT, { input })).toContain(
      'is no longer offered: taken back by the giver',
    );
    const [second] = await offered(owner, [id], runa.id);
    await accepted(runa, [second!.id]);
    expect(await refused(owner, TAKE_BACK, { ids: [second!.id] })).toContain(
      'has answered already',
    );
    expect(await refused(runa, DECLINE, { ids: [second!.id] })).toContain('already');
  });

  it('days that cannot be, and somebody who is not there', async () => {
    const id = await newFish();
    const offer = (more: object) => ({
      input: { fishIds: [id], toId: runa.id, kind: 'LOAN', ...more },
    });
    for (const [more, why] of [
      [{}, 'Say when the fish is to be back'],
      [{ backOn: today() }, 'is not after today'],
      [{ backOn: daysAgo(1) }, 'is not after today'],
      [{ backOn: inDays(4000) }, 'more than five years away'],
      [{ kind: 'GIFT', backOn: inDays(4) }, 'Only a loan has a day'],
      [{ backOn: inDays(4), toId: ownerId }, 'You have these fish already'],
      [{ backOn: inDays(4), toId: id }, 'nobody of that id'],
      [{ backOn: inDays(4), toId: null, toName: 'Nobody Known' }, 'invite them first'],
    ] as const)
      expect(await refused(owner, OFFER, offer(more))).toContain(why);
    const [lent] = await offered(owner, [id], runa.id, { kind: 'LOAN', backOn: inDays(4) });
    await accepted(runa, [lent!.id]);
    for (const [on, why] of [
      [daysAgo(1), 'before HO-'],
      [inDays(2), 'in the future'],
    ] as const)
      expect(
        await refused(runa, SAY_BACK, { input: { id: lent!.id, as: 'CAME_BACK', on } }),
      ).toContain(why);
    expect(
      await refused(runa, ACCEPT, { input: { ids: [lent!.id], quarantineDays: 400 } }),
    ).toContain('quarantine');
  });

  it('taking from somebody whose account has ended; a grant withdrawn meanwhile leaves the offer as it was', async () => {
    const gone = await joinedAs(api, 'Gone');
    const grant = { personId: gone.id, lineId, level: 'BREED', scores: false, photos: false };
    await api.graphql('mutation ($input: GrantLineInput!) { grantLine(input: $input) { level } }', {
      input: { ...grant, notes: false, water: false, place: false },
    });
    const make = newRecords({
      graphql: async <Data>(query: string, variables: object) => sent<Data>(gone, query, variables),
    });
    const [first, second] = [
      await make.createFish({ tag: 'OWN-1', sex: 'MALE', lineId }),
      await make.createFish({ tag: 'OWN-2', sex: 'MALE', lineId }),
    ];
    const offer = async (id: string): Promise<string> => {
      const input = { fishIds: [id], toId: ownerId, kind: 'GIFT' };
      return (await sent<{ offerFish: Told[] }>(gone, OFFER, { input })).offerFish[0]!.id;
    };
    const [one, two] = [await offer(first), await offer(second)];
    await api.graphql(
      'mutation ($p: ID!, $l: ID!) { endLineGrant(personId: $p, lineId: $l) { level } }',
      {
        ...{ p: gone.id, l: lineId },
      },
    );
    await accepted(owner, [one]);
    expect((await fishAs(owner, first)).person).toEqual({ name: 'Test keeper' });
    const input = { fishIds: [await newFish()], toId: gone.id, kind: 'GIFT' };
    await api.graphql('mutation ($id: ID!) { endAccount(personId: $id) { role } }', {
      id: gone.id,
    });
    expect(await refused(owner, OFFER, { input })).toContain('nobody of that id');
    expect(await refused(owner, ACCEPT, { input: { ids: [two] } })).toContain(
      'has no account here any more',
    );
  });
});
