import { randomUUID } from 'node:crypto';
import { STARTING_PURPOSE } from '@linewright/mating';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, today } from '../clock.js';
import { type Records, recordsOn } from './carrier-records.js';
import { newRecords } from '../new-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { saidOf } from './said-purpose.js';

const ROUND = `id revision purposeVersion plannedOn kinshipLimit expectedWorth expectedKinship expectedInbreeding
  note learnt withdrawn { reason } line { code } person { name }
  pairs { expectedWorth expectedInbreeding pairing { id state inbreedingCoefficient sire { id } dam { id } } }`;
const ADOPT = `mutation ($input: AdoptRoundInput!) { adoptRound(input: $input) { ${ROUND} } }`;
const WITHDRAW = `mutation ($input: WithdrawInput!) { withdrawRound(input: $input) { ${ROUND} } }`;
const ROUNDS = `query ($lineId: ID!, $first: Int, $after: String) { rounds(lineId: $lineId, first: $first, after: $after) {
  edges { node { ${ROUND} } } pageInfo { hasNextPage endCursor } totalCount } }`;

interface Round {
  id: string;
  revision: number;
  expectedKinship: number;
  expectedInbreeding: number;
  withdrawn: { reason: string } | null;
  pairs: {
    expectedInbreeding: number;
    pairing: {
      id: string;
      state: string;
      inbreedingCoefficient: number;
      sire: { id: string };
      dam: { id: string };
    };
  }[];
}

describe('a round', () => {
  let api: RunningApi;
  let records: Records;
  let lineId = '';
  const ids = new Map<string, string>();
  const of = (tag: string): string => ids.get(tag)!;
  const pair = (sire: string, dam: string) => ({ sireId: of(sire), damId: of(dam) });
  const adopt = (pairs: object[], more: object = {}) =>
    api.send<{ adoptRound: Round }>(ADOPT, {
      input: { lineId, expectedPurposeVersion: 0, plannedOn: today(), pairs, ...more },
    });
  const rounds = async (first = 50, after: string | null = null) =>
    (
      await api.graphql<{
        rounds: {
          edges: { node: Round }[];
          totalCount: number;
          pageInfo: { hasNextPage: boolean; endCursor: string | null };
        };
      }>(ROUNDS, { lineId, first, after })
    ).rounds;

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    lineId = await records.line('R');
    const hatchDate = daysAgo(200);
    const founder = async (tag: string, sex: 'MALE' | 'FEMALE') =>
      ids.set(tag, await records.fish(tag, sex, { lineId, hatchDate: daysAgo(500) }));
    for (const [tag, sex] of [
      ['P1', 'MALE'],
      ['P2', 'FEMALE'],
      ['P3', 'MALE'],
      ['P4', 'FEMALE'],
    ] as const)
      await founder(tag, sex);
    for (const [tag, sire, dam] of [
      ['A', 'P1', 'P2'],
      ['B', 'P3', 'P4'],
    ] as const) {
      const spawnId = await records.spawn(`S${tag}`, of(sire), of(dam), {
        lineId,
        spawnedOn: daysAgo(205),
      });
      for (const [n, sex] of [
        [1, 'MALE'],
        [2, 'FEMALE'],
        [3, 'MALE'],
        [4, 'FEMALE'],
      ] as const)
        ids.set(
          `${tag}${n}`,
          await records.fish(`${tag}${n}`, sex, { spawnId, hatchDate, lineId }),
        );
    }
  });
  afterAll(() => api.close());

  it('plans all its pairs and keeps what is expected of them', async () => {
    const { data, errors } = await adopt([pair('A1', 'B2'), pair('B1', 'B4')], { note: 'first' });
    expect(errors).toBeUndefined();
    const round = data!.adoptRound;
    expect(round).toMatchObject({
      purposeVersion: 0,
      plannedOn: today(),
      kinshipLimit: null,
      note: 'first',
      learnt: null,
      line: { code: 'R' },
    });
    expect(round.pairs.map(({ pairing }) => pairing.state)).toEqual(['PLANNED', 'PLANNED']);
    for (const { expectedInbreeding, pairing } of round.pairs)
      expect(expectedInbreeding).toBe(pairing.inbreedingCoefficient);
    // Unrelated and full sibs: 0 and 1/4. Each of four fish gives a quarter: four selves of 1/2, three pairs of sibs of 1/4.
    expect(round.expectedInbreeding).toBeCloseTo(0.125, 12);
    expect(round.expectedKinship).toBeCloseTo((4 * 0.5 + 2 * 3 * 0.25) / 16, 12);
    expect((await rounds()).edges.map(({ node }) => node)).toEqual([round]);
  });

  it('sent twice is made once', async () => {
    const id = randomUUID();
    const first = await adopt([pair('A3', 'B4')], { id });
    const second = await adopt([pair('A3', 'B4')], { id });
    expect(second.data).toEqual(first.data);
    expect((await rounds()).totalCount).toBe(2);
    const page = await rounds(1);
    expect(page.edges[0]?.node.id).toBe(id);
    expect((await rounds(1, page.pageInfo.endCursor)).edges[0]?.node.id).not.toBe(id);
  });

  it('is all or nothing', async () => {
    const before = await rounds();
    const wrong = await adopt([pair('A3', 'B2'), { sireId: of('A2'), damId: of('B2') }]);
    expect(wrong.errors?.[0]?.extensions.code).toBe('VALIDATION');
    const twice = await adopt([pair('A3', 'B2'), pair('A3', 'B2')]);
    expect(twice.errors?.[0]?.message).toContain('none of them twice');
    const none = await adopt([]);
    expect(none.errors?.[0]?.extensions.code).toBe('VALIDATION');
    const stale = await adopt([pair('A3', 'B2')], { expectedPurposeVersion: 3 });
    expect(stale.errors?.[0]?.extensions.code).toBe('CONFLICT_REVISION');
    expect(await rounds()).toEqual(before);
    const { pairings } = await api.graphql<{ pairings: { dam: { id: string } }[] }>(
      '{ pairings { dam { id } } }',
    );
    expect(pairings).toHaveLength(3);
  });

  it('is taken back with its pairs that are still planned', async () => {
    const [newest] = (await rounds()).edges;
    const { id, revision } = newest!.node;
    const { withdrawRound } = await api.graphql<{ withdrawRound: Round }>(WITHDRAW, {
      input: { id, revision, reason: 'no room' },
    });
    expect(withdrawRound.withdrawn?.reason).toBe('no room');
    expect(withdrawRound.pairs.map(({ pairing }) => pairing.state)).toEqual(['DROPPED']);
    expect((await rounds()).totalCount).toBe(1);
  });
});

/** Broods of a line of which nobody has said what it is for. */
const ROOM = 3;

const PROPOSAL = `query ($input: PairProposalInput!) { pairProposal(input: $input) {
  purposeVersion hasAims problem day lastDay maleCount femaleCount possibleCount broods broodsPerFish ceiling raisedCeiling kinshipLimit unreachableLimit
  presentKinship worth worthBound kinship inbreeding frontier { worth kinship inbreeding }
  standing { rounds { id } waitingCount byHandCount spawnedCount passing { wanted } }
  price { lost instead { sire { id } dam { id } } }
  pairs { sire { id tag } dam { id tag } worth inbreedingCoefficient need place without { lost instead { sire { id } } } } } }`;

interface Proposal {
  hasAims: boolean;
  standing: {
    rounds: { id: string }[];
    waitingCount: number;
    byHandCount: number;
    spawnedCount: number;
  } | null;
  problem: string | null;
  day: string;
  lastDay: string | null;
  possibleCount: number;
  broods: number;
  kinshipLimit: number | null;
  ceiling: number;
  raisedCeiling: number | null;
  unreachableLimit: number | null;
  presentKinship: number;
  worth: number;
  worthBound: number;
  kinship: number;
  inbreeding: number;
  frontier: { worth: number; kinship: number }[];
  price: { lost: number; instead: { sire: { id: string }; dam: { id: string } }[] } | null;
  pairs: {
    sire: { id: string; tag: string };
    dam: { id: string; tag: string };
    need: string;
    inbreedingCoefficient: number;
    without: { lost: number } | null;
  }[];
}

describe('a proposal', () => {
  let api: RunningApi;
  let lineId = '';
  const ids = new Map<string, string>();
  const propose = (more: object = {}) =>
    api.send<{ pairProposal: Proposal }>(PROPOSAL, { input: { lineId, ...more } });
  const proposed = async (more: object = {}): Promise<Proposal> => {
    const { data, errors } = await propose(more);
    expect(errors).toBeUndefined();
    return data!.pairProposal;
  };
  const adopt = async ({ kinshipLimit, pairs }: Proposal): Promise<Round> => {
    const { adoptRound } = await api.graphql<{ adoptRound: Round }>(ADOPT, {
      input: {
        ...{ lineId, expectedPurposeVersion: 0, plannedOn: today(), kinshipLimit },
        pairs: pairs.map(({ sire, dam }) => ({ sireId: sire.id, damId: dam.id })),
      },
    });
    return adoptRound;
  };
  const takeBack = ({ id, revision }: Round): Promise<object> =>
    api.graphql(WITHDRAW, { input: { id, revision, reason: 'taken back' } });
  const pairsOf = ({ pairs }: Proposal) => pairs.map(({ sire, dam }) => `${sire.tag} ${dam.tag}`);

  beforeAll(async () => {
    api = await startApi();
    const records = recordsOn(api);
    lineId = await records.line('R');
    const founders: string[] = [];
    for (let k = 0; k < 6; k++)
      founders.push(
        await records.fish(`P${k}`, k % 2 === 0 ? 'MALE' : 'FEMALE', {
          hatchDate: daysAgo(500),
        }),
      );
    for (const family of [0, 1, 2]) {
      const spawnId = await records.spawn(
        `S${family}`,
        founders[2 * family]!,
        founders[2 * family + 1]!,
        {
          spawnedOn: daysAgo(205),
        },
      );
      for (const sex of ['MALE', 'FEMALE'] as const) {
        const tag = `${sex[0]!}${family}`;
        const more = { spawnId, hatchDate: daysAgo(200), lineId };
        ids.set(tag, await records.fish(tag, sex, more));
      }
    }
  });
  afterAll(() => api.close());

  it('is by kinship alone where nothing is wanted, and no brother meets his sister', async () => {
    const proposal = await proposed({ broods: 3 });
    expect(proposal).toMatchObject({ hasAims: false, problem: null, broods: 3, worth: 0 });
    // Six fish of three families, one each: every self is 1/2, every pair of sibs 1/4.
    expect(proposal.kinship).toBeCloseTo((6 * 0.5 + 3 * 2 * 0.25) / 36, 12);
    expect(proposal.presentKinship).toBeCloseTo(proposal.kinship, 12);
    expect(proposal.inbreeding).toBe(0);
    expect(proposal.pairs.map(({ need }) => need)).toEqual(['KINSHIP', 'KINSHIP', 'KINSHIP']);
    for (const pair of pairsOf(proposal)) expect(pair).not.toMatch(/M(\d) F\1/);
  });

  it('keeps to what is insisted on', async () => {
    const [m0, f0, f1] = ['M0', 'F0', 'F1'].map((tag) => ids.get(tag)!);
    const mustPairs = [{ sireId: m0, damId: f1 }];
    const must = await proposed({ broods: 2, mustPairs, mustNotFishIds: [f0] });
    expect(pairsOf(must)).toContain('M0 F1');
    expect(pairsOf(must).join()).not.toContain('F0');
    expect(must.price).not.toBeNull();
    const without = await proposed({ broods: 2, mustNotPairs: mustPairs, mustFishIds: [m0] });
    expect(pairsOf(without)).not.toContain('M0 F1');
    expect(pairsOf(without).join()).toContain('M0');
    // The pair that the fish is in says so, and no other.
    expect(without.pairs.map(({ sire, need }) => [sire.id === m0, need === 'WISH'])).toEqual(
      without.pairs.map(({ sire }) => [sire.id === m0, sire.id === m0]),
    );
  });

  it('says when no broods keep to the ceiling on F, and keeps to the lowest that can be', async () => {
    const [m0, f0] = [ids.get('M0')!, ids.get('F0')!];
    const others = ['M1', 'M2', 'F1', 'F2'].map((tag) => ids.get(tag)!);
    const sibs = await proposed({ broods: 1, mustNotFishIds: others });
    expect(sibs.pairs.map(({ sire, dam }) => [sire.id, dam.id])).toEqual([[m0, f0]]);
    expect(sibs).toMatchObject({ ceiling: 0.125, raisedCeiling: 0.25, inbreeding: 0.25 });
    expect((await proposed({ broods: 1 })).raisedCeiling).toBeNull();
  });

  it('says what cannot be, and what is asked wrongly', async () => {
    const many = await proposed({ broods: 20 });
    expect(many.problem).toContain('20 broods cannot be made');
    expect(many.pairs).toEqual([]);
    const low = await proposed({ broods: 2, kinshipLimit: 0.01 });
    expect(low.unreachableLimit).toBe(0.01);
    expect(low.kinship).toBeCloseTo(low.kinshipLimit ?? 0, 6);
    expect(low.pairs).toHaveLength(2);
    const strange = await propose({ mustFishIds: [randomUUID()] });
    expect(strange.errors?.[0]?.extensions.code).toBe('VALIDATION');
    const turned = await propose({ mustPairs: [{ sireId: ids.get('F0'), damId: ids.get('M0') }] });
    expect(turned.errors?.[0]?.extensions.code).toBe('VALIDATION');
    const none = await propose({ broods: 0 });
    expect(none.errors?.[0]?.extensions.code).toBe('VALIDATION');
  });

  it('is adopted with the figures that it told', async () => {
    const proposal = await proposed({ broods: 3 });
    const adopted = await adopt(proposal);
    expect(adopted.expectedKinship).toBe(proposal.kinship);
    expect(adopted.expectedInbreeding).toBe(proposal.inbreeding);
    await takeBack(adopted);
  });

  it('comes beside the pairs that are planned: what they take of fish, room and kinship is taken off', async () => {
    const first = await proposed({ broods: 1 });
    const round = await adopt(first);
    expect(await proposed()).toMatchObject({
      standing: { rounds: [{ id: round.id }], waitingCount: 1, spawnedCount: 0 },
      broods: ROOM - 1,
    });
    const second = await proposed({ broods: 1 });
    // Four other fish; the kinship is that of all four together.
    const both = [...first.pairs, ...second.pairs].flatMap(({ sire, dam }) => [sire.tag, dam.tag]);
    const isSib = (a: string, b: string): boolean => a.slice(1) === b.slice(1);
    const of = (a: string, b: string): number => (a === b ? 0.5 : isSib(a, b) ? 0.25 : 0);
    expect(new Set(both).size).toBe(4);
    expect(second.kinship).toBeCloseTo(
      both.reduce((sum, a) => sum + both.reduce((part, b) => part + of(a, b), 0), 0) / 16,
      12,
    );
    const beside = await adopt(second);
    expect(beside.expectedKinship).toBe(second.kinship);
    for (const one of [beside, round]) await takeBack(one);
  });

  it('says when there is room for no further pair', async () => {
    const full = await adopt(await proposed({ broods: ROOM }));
    const none = await proposed();
    expect(none).toMatchObject({ broods: 0, pairs: [], standing: { waitingCount: ROOM } });
    expect(none.problem).toContain('room for no further pair');
    await takeBack(full);
    expect((await proposed()).broods).toBe(ROOM);
  });

  it('is kept, and worked out again only when something changed that it rests on', async () => {
    const db = await recordsOf(api);
    const before = await proposed({ broods: 2 });
    // Marked, so that it can be known from one that is worked out anew.
    await db.query(
      `UPDATE computation SET result = jsonb_set(result, '{present}', '0.4375') WHERE kind = 'proposal'`,
    );
    expect(await proposed({ broods: 2 })).toEqual({ ...before, presentKinship: 0.4375 });
    const round = await adopt(await proposed({ broods: 1 }));
    expect((await proposed({ broods: 2 })).presentKinship).toBe(before.presentKinship);
    await takeBack(round);
  });

  it('comes beside a pair planned by hand as beside one of a round, until that is dropped', async () => {
    const [free] = (await proposed({ broods: 1 })).pairs;
    const planned = await newRecords(api).planPairing({
      sireId: free!.sire.id,
      damId: free!.dam.id,
      plannedOn: today(),
    });
    const beside = await proposed({ broods: 1 });
    expect(beside.standing).toMatchObject({ rounds: [], waitingCount: 1, byHandCount: 1 });
    expect(await proposed()).toMatchObject({ broods: ROOM - 1 });
    const taken = [free!.sire.id, free!.dam.id];
    expect(beside.pairs.flatMap(({ sire, dam }) => [sire.id, dam.id])).not.toContain(taken[0]);
    // As a round it is no pair by hand any more.
    const round = await adopt({ ...beside, pairs: [free!] });
    expect((await proposed()).standing).toMatchObject({ waitingCount: 1, byHandCount: 0 });
    await takeBack(round);
    expect((await proposed()).standing).toBeNull();
    expect(round.pairs[0]!.pairing.id).toBe(planned);
  });

  it('counts a pair of a round that goes on as long as not all of its spawns failed', async () => {
    const round = await adopt(await proposed({ broods: 2 }));
    const { recordPairingSpawn } = await api.graphql<{ recordPairingSpawn: { id: string } }>(
      'mutation ($input: PairingSpawnInput!) { recordPairingSpawn(input: $input) { id } }',
      { input: { pairingId: round.pairs[0]!.pairing.id, tag: 'S-round', spawnedOn: today() } },
    );
    expect(await proposed()).toMatchObject({
      standing: { waitingCount: 1, spawnedCount: 1 },
      broods: ROOM - 2,
    });
    await api.graphql(
      'mutation ($input: CorrectSpawnInput!) { correctSpawn(input: $input) { id } }',
      {
        input: { id: recordPairingSpawn.id, revision: 1, failed: true, failedReason: 'eaten' },
      },
    );
    expect(await proposed()).toMatchObject({
      standing: { waitingCount: 1, spawnedCount: 0 },
      broods: ROOM - 1,
    });
    // With none that waits the round is over.
    await takeBack(round);
    expect((await proposed()).standing).toBeNull();
  });

  it('is over when all of its pairs have spawned: the room is that of the next one', async () => {
    const round = await adopt(await proposed({ broods: 1 }));
    await api.graphql(
      'mutation ($input: PairingSpawnInput!) { recordPairingSpawn(input: $input) { id } }',
      { input: { pairingId: round.pairs[0]!.pairing.id, tag: 'S-over', spawnedOn: today() } },
    );
    expect(await proposed()).toMatchObject({ standing: null, broods: ROOM });
    await takeBack(round);
  });

  it('is made for the days on which the line makes pairs, and is adopted for one of them', async () => {
    const say = (expectedVersion: number, content: object) =>
      api.graphql(
        'mutation ($input: SayWhatLineIsForInput!) { sayWhatLineIsFor(input: $input) { version } }',
        { input: { lineId, expectedVersion, content } },
      );
    // The fish, of 200 days, are too young now and old enough on the first day for pairs.
    const { ages, ...rest } = STARTING_PURPOSE.rules;
    const rules = { ...rest, ages: { ...ages, capableFrom: 205, preferredFrom: 205 } };
    await say(0, saidOf({ rules }));
    expect((await proposed()).pairs).toEqual([]);
    const [first, last] = [daysAgo(-10), daysAgo(-20)];
    await say(1, saidOf({ rules, earliest: first, latest: last }));
    const then = await proposed({ broods: 1 });
    expect(then).toMatchObject({ day: first, lastDay: last, problem: null });
    expect(then.pairs).toHaveLength(1);
    const [{ sire, dam }] = then.pairs as [Proposal['pairs'][number]];
    const adoptOn = (plannedOn: string) =>
      api.send<{ adoptRound: Round }>(ADOPT, {
        input: {
          ...{ lineId, expectedPurposeVersion: 2, plannedOn },
          pairs: [{ sireId: sire.id, damId: dam.id }],
        },
      });
    for (const day of [today(), daysAgo(-21)])
      expect((await adoptOn(day)).errors?.[0]).toMatchObject({
        message: expect.stringContaining(`from ${first} until ${last}`) as string,
        extensions: { code: 'VALIDATION' },
      });
    const { data } = await adoptOn(first);
    expect(data?.adoptRound.pairs).toHaveLength(1);
    await takeBack(data!.adoptRound);
    await say(2, saidOf({ latest: daysAgo(1) }));
    const over = await proposed();
    expect(over).toMatchObject({ pairs: [], day: today(), lastDay: daysAgo(1) });
    expect(over.problem).toContain(`The last day for pairs of this round was ${daysAgo(1)}`);
  });
});
