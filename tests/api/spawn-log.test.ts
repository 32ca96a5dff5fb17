import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo, hoursAgo } from '../clock.js';
import { creation, newRecords } from '../new-records.js';
import { PASSWORD, type RunningApi, startApi, recordsOf } from './harness.js';

interface Facts {
  spawnedOn: string | null;
  hatchDate: string | null;
  failed: boolean;
  failedReason: string | null;
  revision: number;
  care: {
    log: { step: string; at: string; dayOnly: boolean; revision: number }[];
    steps: { step: { id: string }; reasons: { after: string; dayOnly: boolean }[] }[];
  };
}

describe('what a spawn’s log and its own dates tell each other', () => {
  let api: RunningApi;
  let other: RunningApi;
  beforeAll(async () => {
    api = await startApi();
    other = await startApi({
      signedIn: false,
      environment: { DATABASE_URL: api.served.databaseUrl },
    });
  });
  afterAll(async () => {
    await other?.close();
    await api?.close();
  });

  let count = 0;
  const newSpawn = async (more: object = {}): Promise<string> => {
    count += 1;
    return newRecords(api).createSpawn({ tag: `L26-${count}`, ...more });
  };
  const RECORD = 'mutation ($input: RecordCareInput!) { recordCare(input: $input) }';
  const CORRECT = 'mutation ($input: CorrectCareInput!) { correctCare(input: $input) { id } }';
  const COUNT = creation('recordSpawnCount');
  const LOSS = creation('recordSpawnLoss');
  const record = async (spawnId: string, step: string, at: string, more: object = {}) =>
    (
      await api.graphql<{ recordCare: string }>(RECORD, {
        input: { spawnId, step, at, zone: 'UTC', ...more },
      })
    ).recordCare;
  const undo = (spawnId: string, recordId: string) =>
    api.graphql('mutation ($input: UndoCareInput!) { undoCare(input: $input) { id } }', {
      input: { spawnId, recordId, zone: 'UTC' },
    });
  const correctSpawn = async (id: string, changes: object) => {
    const { revision } = await facts(id);
    await api.graphql(
      'mutation ($input: CorrectSpawnInput!) { correctSpawn(input: $input) { id } }',
      { input: { id, revision, ...changes } },
    );
  };
  const facts = async (id: string): Promise<Facts> =>
    (
      await api.graphql<{ spawn: Facts }>(
        `query ($id: ID!) { spawn(id: $id) { spawnedOn hatchDate failed failedReason revision
          care { log { step at dayOnly revision } steps { step { id } reasons { after dayOnly } } } } }`,
        { id },
      )
    ).spawn;
  const refusal = async (query: string, input: object) => {
    const { errors } = await api.send(query, { input });
    if (errors?.[0] === undefined) throw new Error('nothing was refused');
    return errors[0];
  };

  it('taking an event back leaves a day that was typed by hand, however near it lies', async () => {
    const typed = await newSpawn({ spawnedOn: daysAgo(3) });
    await undo(typed, await record(typed, 'spawned', hoursAgo(72)));
    expect((await facts(typed)).spawnedOn).toBe(daysAgo(3));
    // Read off an event first, then corrected by hand: from then on it is the person's.
    const corrected = await newSpawn();
    const recordId = await record(corrected, 'spawned', hoursAgo(72));
    expect((await facts(corrected)).spawnedOn).toBe(hoursAgo(72).slice(0, 10));
    // Another day than the event's, which was read in UTC.
    const byHand = hoursAgo(96).slice(0, 10);
    await correctSpawn(corrected, { spawnedOn: byHand });
    await api.graphql(CORRECT, {
      input: { spawnId: corrected, recordId, at: hoursAgo(48), zone: 'UTC' },
    });
    expect((await facts(corrected)).spawnedOn).toBe(byHand);
    await undo(corrected, recordId);
    expect((await facts(corrected)).spawnedOn).toBe(byHand);
    // Nothing typed: the day goes with its event.
    const read = await newSpawn();
    await undo(read, await record(read, 'spawned', hoursAgo(72)));
    expect((await facts(read)).spawnedOn).toBeNull();
  });

  it('the day is that of the earliest event in force, in whatever order they came', async () => {
    const id = await newSpawn();
    const late = await record(id, 'spawned', hoursAgo(24));
    const early = await record(id, 'spawned', hoursAgo(96));
    expect((await facts(id)).spawnedOn).toBe(hoursAgo(96).slice(0, 10));
    await undo(id, early);
    expect((await facts(id)).spawnedOn).toBe(hoursAgo(24).slice(0, 10));
    await undo(id, late);
    expect((await facts(id)).spawnedOn).toBeNull();
    // The day was read where it was recorded; another note on the event does not read it again elsewhere.
    const abroad = await record(id, 'spawned', `${daysAgo(3)}T23:30:00.000Z`, {
      zone: 'Asia/Tokyo',
    });
    expect((await facts(id)).spawnedOn).toBe(daysAgo(2));
    await api.graphql(CORRECT, {
      input: { spawnId: id, recordId: abroad, note: 'at dawn', zone: 'UTC' },
    });
    expect((await facts(id)).spawnedOn).toBe(daysAgo(2));
  });

  it('two who record the spawning at once leave the earlier day', async () => {
    await other.graphql(`mutation { signIn(password: "${PASSWORD}") { signedIn } }`);
    for (let turn = 0; turn < 5; turn += 1) {
      const spawnId = await newSpawn();
      await Promise.all(
        [hoursAgo(100), hoursAgo(30)].map((at, i) =>
          (i === 0 ? api : other).graphql(RECORD, {
            input: { spawnId, step: 'spawned', at, zone: 'UTC' },
          }),
        ),
      );
      expect((await facts(spawnId)).spawnedOn).toBe(hoursAgo(100).slice(0, 10));
    }
  });

  it('a failure recorded by hand outlives an event that said the same', async () => {
    const id = await newSpawn();
    await correctSpawn(id, { failed: true, failedReason: 'eaten' });
    await undo(id, await record(id, 'failed', hoursAgo(1), { note: 'eggs gone' }));
    expect(await facts(id)).toMatchObject({ failed: true, failedReason: 'eaten' });
    const other_ = await newSpawn();
    const recordId = await record(other_, 'failed', hoursAgo(1), { note: 'eggs gone' });
    await api.graphql(CORRECT, {
      input: { spawnId: other_, recordId, note: 'eggs white', zone: 'UTC' },
    });
    expect((await facts(other_)).failedReason).toBe('eggs white');
    await undo(other_, recordId);
    expect(await facts(other_)).toMatchObject({ failed: false, failedReason: null });
  });

  it('a pair whose spawn failed is tried again in a spawn of its own, with a calendar from the start', async () => {
    const fish = (tag: string, sex: 'MALE' | 'FEMALE') => newRecords(api).createFish({ tag, sex });
    const [sireId, damId] = [await fish('S1', 'MALE'), await fish('D1', 'FEMALE')];
    const pairingId = await newRecords(api).planPairing({ sireId, damId, plannedOn: daysAgo(20) });
    const START =
      'mutation ($input: PairingSpawnInput!) { recordPairingSpawn(input: $input) { id } }';
    const start = async (tag: string) =>
      (
        await api.graphql<{ recordPairingSpawn: { id: string } }>(START, {
          input: { pairingId, tag },
        })
      ).recordPairingSpawn.id;
    const first = await start('P26-01');
    await record(first, 'failed', hoursAgo(2), { note: 'no eggs' });
    const second = await start('P26-02');
    const decided = (of: Facts) => of.care.log.find((record) => record.step === 'decided');
    expect((await facts(first)).failed).toBe(true);
    const again = await facts(second);
    expect(again.failed).toBe(false);
    expect(decided(again)).toMatchObject({ at: `${daysAgo(20)}T12:00:00.000Z`, dayOnly: true });
    // Correcting days of the spawn does not move the day of the plan.
    await correctSpawn(second, { spawnedOn: daysAgo(30) });
    const moved = await facts(second);
    expect(decided(moved)?.at).toBe(`${daysAgo(20)}T12:00:00.000Z`);
    const hatch = moved.care.steps.find(({ step }) => step.id === 'hatched');
    expect(hatch?.reasons).toEqual([{ after: 'spawned', dayOnly: true }]);
  });

  it('refuses a hatch before the spawning, young older than their parents, and times that cannot be', async () => {
    const id = await newSpawn({ spawnedOn: daysAgo(5) });
    const input = { spawnId: id, zone: 'UTC' };
    const early = await refusal(RECORD, { ...input, step: 'hatched', at: hoursAgo(24 * 8) });
    expect(early.message).toBe(
      `Hatched on ${hoursAgo(24 * 8).slice(0, 10)}, before the spawning on ${daysAgo(5)}: correct one of the dates.`,
    );
    expect((await facts(id)).care.log.map(({ step }) => step)).not.toContain('hatched');
    const fishId = await newRecords(api).createFish({
      tag: 'YOUNG',
      sex: 'MALE',
      hatchDate: daysAgo(10),
    });
    const ofYoung = await newSpawn({ sireId: fishId });
    const tooOld = { spawnId: ofYoung, zone: 'UTC', step: 'spawned', at: hoursAgo(24 * 20) };
    expect((await refusal(RECORD, tooOld)).message).toContain('YOUNG hatched on');
    const record_ = creation('recordSpawnEvent');
    for (const [at, word] of [
      [hoursAgo(-2), 'in the future'],
      ['0202-11-20T08:00:00Z', 'all four digits'],
    ] as const) {
      expect((await refusal(RECORD, { ...input, step: 'nest', at })).message).toContain(word);
      expect((await refusal(RECORD, { ...input, step: 'fed', at })).message).toContain(word);
      expect((await refusal(record_, { spawnId: id, kind: 'NEST', at })).message).toContain(word);
    }
    const recordId = await record(id, 'nest', hoursAgo(24 * 6));
    expect((await refusal(CORRECT, { ...input, recordId, at: hoursAgo(-3) })).message).toContain(
      'in the future',
    );
  });

  it('refuses events nearer together or further apart than any brood’s', async () => {
    const id = await newSpawn();
    const input = { spawnId: id, zone: 'UTC' };
    const EVENT = creation('recordSpawnEvent');
    const spawnedId = await record(id, 'spawned', hoursAgo(72));
    const early = await refusal(RECORD, { ...input, step: 'hatched', at: hoursAgo(72) });
    expect(early.extensions.code).toBe('VALIDATION');
    expect(early.message).toBe(
      '“hatched” stands 0 min after “spawned”, and it takes at least 18 h: give the time it happened, or correct the time of “spawned” first.',
    );
    const swim = { spawnId: id, kind: 'FREE_SWIMMING', at: hoursAgo(71.5) };
    expect((await refusal(EVENT, swim)).message).toContain('“free-swimming” stands 30 min after');
    expect((await facts(id)).hatchDate).toBeNull();

    const hatched = { ...input, id: crypto.randomUUID(), step: 'hatched', at: hoursAgo(40) };
    await api.graphql(RECORD, { input: hatched });
    const nearer = { ...input, recordId: spawnedId, at: hoursAgo(41) };
    expect((await refusal(CORRECT, nearer)).message).toContain('“hatched” stands 1 h after');
    const soon = { ...input, step: 'jarred', at: hoursAgo(1) };
    expect((await refusal(RECORD, soon)).message).toContain('it takes at least 11 d');
    // What is known is known: sent again it is not judged anew, and a note can be mended.
    await api.graphql(RECORD, { input: hatched });
    await api.graphql(CORRECT, { input: { ...input, recordId: hatched.id, note: 'at dusk' } });

    const byDay = await newSpawn({ spawnedOn: daysAgo(30) });
    const late = { spawnId: byDay, zone: 'UTC', step: 'hatched', at: hoursAgo(1) };
    expect((await refusal(RECORD, late)).message).toContain('and it comes within 7 d');
    const CREATE = creation('createSpawn');
    const dates = { tag: 'L26-FAR', spawnedOn: daysAgo(300), hatchDate: daysAgo(30) };
    expect((await refusal(CREATE, dates)).message).toContain('“hatched” stands 270 d after');
  });

  it('two who correct one record: the second is told, and nothing is lost', async () => {
    const spawnId = await newSpawn();
    for (const step of ['nest', 'topped_up']) {
      const recordId = await record(spawnId, step, hoursAgo(4));
      const revision = (await facts(spawnId)).care.log.find((e) => e.step === step)?.revision;
      expect(revision).toBe(1);
      const input = { spawnId, recordId, revision, zone: 'UTC' };
      await api.graphql(CORRECT, { input: { ...input, note: 'large' } });
      const second = await refusal(CORRECT, { ...input, at: hoursAgo(5) });
      expect(second.extensions.code).toBe('CONFLICT_REVISION');
    }
  });

  it('counts and losses that cannot be are named with the remedy', async () => {
    const spawnId = await newSpawn({ spawnedOn: daysAgo(5) });
    const aCount = { spawnId, stage: 'FREE_SWIMMING', countedOn: daysAgo(1), number: 80 };
    const aLoss = {
      spawnId,
      kind: 'DIED',
      on: daysAgo(1),
      number: 5,
      reason: 'fungus',
      heritable: false,
    };
    const cases: [string, object, string][] = [
      [COUNT, { ...aCount, number: -3 }, '-3 free swimming cannot be: give a whole number from 0'],
      [
        COUNT,
        { ...aCount, number: 200_000 },
        '200000 free swimming cannot be: give a whole number from 0 to 100000',
      ],
      [
        COUNT,
        { ...aCount, countedOn: daysAgo(-9) },
        `Counted free swimming on ${daysAgo(-9)}, which is in the future`,
      ],
      [
        COUNT,
        { ...aCount, stage: 'EGGS', countedOn: daysAgo(7) },
        `Counted eggs on ${daysAgo(7)}, before the spawning on ${daysAgo(5)}: correct one`,
      ],
      [LOSS, { ...aLoss, number: 0 }, '0 died cannot be: give a whole number from 1'],
      [LOSS, { ...aLoss, reason: ' ' }, 'Say why 5 died'],
      [
        LOSS,
        { ...aLoss, on: daysAgo(-9) },
        `5 died on ${daysAgo(-9)}, which is in the future: give the day`,
      ],
      [
        LOSS,
        { ...aLoss, on: daysAgo(6) },
        `5 died on ${daysAgo(6)}, before the spawning on ${daysAgo(5)}`,
      ],
    ];
    for (const [query, input, message] of cases) {
      const { message: said, extensions } = await refusal(query, input);
      expect(said).toContain(message);
      expect(extensions.code).toBe('VALIDATION');
    }
  });

  describe('wrong attempts from one address', () => {
    const guess = (through: RunningApi) =>
      through.send(
        'mutation { setPassword(current: "not the one", password: "another-long-one") { signedIn } }',
      );
    const codes = (answers: Awaited<ReturnType<typeof guess>>[]) =>
      answers.map(({ errors }) => errors?.[0]?.extensions.code);

    it('count in common for all servers on one database: calendar addresses', async () => {
      const statuses: number[] = [];
      for (let i = 0; i < 36; i += 1) {
        const { url } = i % 2 === 0 ? api : other;
        statuses.push((await fetch(`${url}/calendar/${i}.ics`)).status);
      }
      expect(statuses).toEqual([...Array<number>(30).fill(404), ...Array<number>(6).fill(429)]);
      const held = await fetch(`${other.url}/calendar/x.ics`);
      expect(held.headers.get('retry-after')).toBe('600');
    });

    it('count in common for all servers on one database: passwords, sent all at once too', async () => {
      const answers = await Promise.all(
        Array.from({ length: 40 }, (_, i) => guess(i % 2 === 0 ? api : other)),
      );
      const wrong = codes(answers).filter((code) => code === 'PASSWORD_WRONG').length;
      expect(wrong).toBeLessThanOrEqual(10);
      expect(new Set(codes(answers))).toEqual(new Set(['PASSWORD_WRONG', 'TOO_MANY_ATTEMPTS']));
      // What was refused only for its number is not held against the caller: the wait is not drawn out.
      const rows: { count: number }[] = await (
        await recordsOf(api)
      ).query(`SELECT count(*)::int AS count FROM refused_attempt WHERE what = 'sign-in'`);
      expect(rows[0]?.count).toBe(wrong);
    });
  });
});
