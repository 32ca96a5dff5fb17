import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { creation, newRecords, type NewRecords } from '../new-records.js';
import { type RunningApi, startApi, recordsOf } from './harness.js';

const DECIDE =
  'mutation ($input: DecideFishInput!) { decideFish(input: $input) { id disposition revision } }';
const SEX = 'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id revision } }';
const SCORES = creation('recordScores');
const NEW_FISH = creation('createFish', 'id tag');
const LOSS = creation('recordSpawnLoss');
const CLASS = 'mutation ($input: ClassCountInput!) { recordClassCount(input: $input) { id } }';
const SHEET = creation('createScoreSheet', 'id version current { faults { id } }');
const LOOK =
  'mutation ($input: ScoreOnSheetInput!) { scoreOnSheet(input: $input) { id scores { value } faults { name } note } }';
const LOOKS =
  'query ($id: ID!) { fish(id: $id) { sheetScorings { id withdrawn { reason } scores { id } total { total } } } }';
const UNDO =
  'mutation ($input: UndoEntryInput!) { undoEntry(input: $input) { id undoneBy changes { recordId revision } } }';
const FISH =
  'query ($id: ID!) { fish(id: $id) { sex disposition dispositionReason revision withdrawn { reason } history { action } scores { id value withdrawn { reason } } } }';

interface SeenFish {
  fish: {
    sex: string;
    disposition: string;
    dispositionReason: string | null;
    revision: number;
    withdrawn: { reason: string } | null;
    history: { action: string }[];
    scores: { id: string; value: number; withdrawn: { reason: string } | null }[];
  };
}

describe('entries made on a device', () => {
  let api: RunningApi;
  let spawnId: string;
  let traitId: string;
  let made: NewRecords;
  let tagNumber = 0;

  beforeAll(async () => {
    api = await startApi();
    made = newRecords(api);
    spawnId = await made.createSpawn({ tag: 'E26-01', hatchDate: '2026-05-01' });
    const spread = { key: 'spread', name: 'Spread', kind: 'MEASURED', minimum: 0 } as const;
    traitId = await made.createTrait(spread);
  });
  afterAll(() => api.close());

  const newFish = async (): Promise<string> => {
    const id = randomUUID();
    tagNumber += 1;
    await api.graphql(NEW_FISH, {
      input: { id, tag: `E-${tagNumber}`, sex: 'UNSEXED', spawnId, disposition: 'UNSORTED' },
    });
    return id;
  };
  const look = async (id: string) => (await api.graphql<SeenFish>(FISH, { id })).fish;
  const spawnFacts = async () =>
    (
      await api.graphql<{
        spawn: {
          losses: { number: number; withdrawn?: unknown }[];
          classCounts: { number: number }[];
        };
      }>('query ($id: ID!) { spawn(id: $id) { losses { number } classCounts { number } } }', {
        id: spawnId,
      })
    ).spawn;

  /** Five senders at once, then one late one: a lost answer in its worst form. */
  const sendOften = async (query: string, input: object) => {
    const answers = await Promise.all(Array.from({ length: 5 }, () => api.send(query, { input })));
    answers.push(await api.send(query, { input }));
    expect(answers.flatMap((answer) => answer.errors ?? [])).toEqual([]);
    return answers.map((answer) => answer.data);
  };

  it('applies a decision once, however often it is sent', async () => {
    const id = await newFish();
    const input = { entryId: randomUUID(), id, disposition: 'KEEPER', on: '2026-09-01' };
    const answers = await sendOften(DECIDE, { ...input, revision: 1 });
    expect(new Set(answers.map((each) => JSON.stringify(each))).size).toBe(1);
    const fish = await look(id);
    expect(fish.revision).toBe(2);
    expect(fish.history.filter((each) => each.action === 'decided')).toHaveLength(1);
  });

  it('does not decide again when the answer was lost and another decision came after', async () => {
    const id = await newFish();
    const first = { entryId: randomUUID(), id, disposition: 'HOLD', on: '2026-09-01', revision: 1 };
    await api.graphql(DECIDE, { input: first });
    await api.graphql(DECIDE, {
      input: { id, disposition: 'PLACED', on: '2026-09-02', revision: 2 },
    });
    const { errors } = await api.send(DECIDE, { input: first });
    expect(errors).toBeUndefined();
    expect((await look(id)).disposition).toBe('PLACED');
  });

  it('refuses a decision made on an older state of the fish, and takes it after a fresh look', async () => {
    const id = await newFish();
    await api.graphql(DECIDE, {
      input: { id, disposition: 'KEEPER', on: '2026-09-01', revision: 1 },
    });
    const stale = { entryId: randomUUID(), id, disposition: 'HOLD', on: '2026-09-01', revision: 1 };
    const { errors } = await api.send(DECIDE, { input: stale });
    expect(errors?.[0]?.extensions.code).toBe('CONFLICT_REVISION');
    await api.graphql(DECIDE, { input: { ...stale, revision: 2 } });
    expect((await look(id)).disposition).toBe('HOLD');
  });

  it('applies sexes, score sheets, new fish, losses and class counts once', async () => {
    const id = await newFish();
    await sendOften(SEX, { entryId: randomUUID(), id, revision: 1, sex: 'MALE' });
    await sendOften(SCORES, {
      entryId: randomUUID(),
      fishId: id,
      scoredOn: '2026-09-01',
      scores: [{ traitId, value: 170 }],
    });
    const fish = await look(id);
    expect([fish.sex, fish.revision, fish.scores.length]).toEqual(['MALE', 2, 1]);

    const made = randomUUID();
    await sendOften(NEW_FISH, {
      entryId: randomUUID(),
      id: made,
      tag: 'E-new',
      sex: 'UNSEXED',
      spawnId,
      disposition: 'UNSORTED',
    });
    expect((await look(made)).history).toHaveLength(1);

    const before = await spawnFacts();
    const count = { spawnId, number: 7 };
    await sendOften(LOSS, {
      ...count,
      entryId: randomUUID(),
      kind: 'CULLED',
      on: '2026-09-01',
      reason: 'bent spine',
    });
    await sendOften(CLASS, {
      ...count,
      entryId: randomUUID(),
      locusIds: ['dt'],
      phenotype: 'double tail',
      countedOn: '2026-09-01',
    });
    const after = await spawnFacts();
    expect(after.losses.length - before.losses.length).toBe(1);
    expect(after.classCounts.length - before.classCounts.length).toBe(1);
  });

  const newSheet = async () => {
    const { createScoreSheet } = await api.graphql<{
      createScoreSheet: { id: string; version: number; current: { faults: { id: string }[] } };
    }>(SHEET, {
      input: {
        name: 'Grown',
        content: {
          lines: [{ traitId, noneAt: 100, fullAt: 180 }],
          faults: [{ name: 'Torn fin', severity: 'SLIGHT' }],
          deductions: [{ severity: 'SLIGHT', points: 5 }],
        },
      },
    });
    return createScoreSheet;
  };
  const looksAt = async (id: string) =>
    (
      await api.graphql<{
        fish: {
          sheetScorings: {
            id: string;
            withdrawn: { reason: string } | null;
            scores: { id: string }[];
            total: { total: number | null };
          }[];
        };
      }>(LOOKS, { id })
    ).fish.sheetScorings;
  /** A look with a value and a fault, as the bench sends it. */
  const lookOf = async (fishId: string, more: object = {}) => {
    const { id: sheetId, version: sheetVersion, current } = await newSheet();
    const look = { id: randomUUID(), fishId, sheetId, sheetVersion, scoredOn: '2026-09-01' };
    const scores = [{ id: randomUUID(), traitId, value: 160 }];
    const faultIds = current.faults.map((fault) => fault.id);
    return { ...look, entryId: randomUUID(), note: 'left side', scores, faultIds, ...more };
  };

  it('records a look on a sheet once, sent five times at once and once later', async () => {
    const id = await newFish();
    const input = await lookOf(id);
    const answers = await sendOften(LOOK, input);
    expect(new Set(answers.map((each) => JSON.stringify(each))).size).toBe(1);
    expect(answers[0]).toEqual({
      scoreOnSheet: {
        id: input.id,
        scores: [{ value: 160 }],
        faults: [{ name: 'Torn fin' }],
        note: 'left side',
      },
    });
    const looks = await looksAt(id);
    expect(looks.map((each) => [each.id, each.scores.length])).toEqual([[input.id, 1]]);
    // (160 - 100) / (180 - 100) of 100, less 5.
    expect(looks[0]?.total.total).toBeCloseTo(70, 9);
    expect((await look(id)).scores).toHaveLength(1);
    // The entry's id holds even when the look is sent under another id of its own.
    await api.graphql(LOOK, { input: { ...input, id: randomUUID(), scores: [] } });
    expect(await looksAt(id)).toHaveLength(1);
  });

  it('undoes a look with its values and faults, once, and leaves other looks', async () => {
    const id = await newFish();
    const [first, second] = [await lookOf(id), await lookOf(id)];
    for (const input of [first, second]) await api.graphql(LOOK, { input });
    await sendOften(UNDO, { entryId: randomUUID(), undoes: second.entryId });
    const looks = await looksAt(id);
    const of = (input: { id: string }) => looks.find((each) => each.id === input.id);
    expect(of(first)?.withdrawn).toBeNull();
    expect(of(second)?.withdrawn).not.toBeNull();
    const { scores } = await look(id);
    expect(scores.filter((score) => score.withdrawn === null).map((score) => score.id)).toEqual(
      first.scores.map((each) => each.id),
    );
  });

  it('does not undo a look of which a value was corrected after', async () => {
    const id = await newFish();
    const input = await lookOf(id);
    await api.graphql(LOOK, { input });
    await api.graphql(
      'mutation ($input: CorrectScoreInput!) { correctScore(input: $input) { id } }',
      { input: { scoreId: input.scores[0]?.id, value: 170, reason: 'misread' } },
    );
    const { errors } = await api.send(UNDO, {
      input: { entryId: randomUUID(), undoes: input.entryId },
    });
    expect(errors?.[0]?.extensions.code).toBe('CONFLICT_REVISION');
    expect((await looksAt(id))[0]?.withdrawn).toBeNull();
  });

  it('refuses a look at a withdrawn fish without a trace, values or only faults', async () => {
    const id = await newFish();
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }', {
      input: { id, reason: 'entered twice', revision: 1 },
    });
    for (const more of [{}, { scores: [] }]) {
      const { errors } = await api.send(LOOK, { input: await lookOf(id, more) });
      expect(errors?.[0]?.extensions.code).toBe('VALIDATION');
    }
    expect(await looksAt(id)).toEqual([]);
  });

  it('makes a record once when only the record has an id and five senders race', async () => {
    const id = randomUUID();
    const input = { id, spawnId, kind: 'DIED', on: '2026-09-02', number: 2, reason: 'unknown' };
    const before = await spawnFacts();
    await sendOften(LOSS, input);
    expect((await spawnFacts()).losses.length - before.losses.length).toBe(1);
  });

  it('keeps all of 200 score entries sent at once to one fish', async () => {
    const id = await newFish();
    const values = Array.from({ length: 200 }, (_, index) => index);
    const answers = await Promise.all(
      values.map((value) =>
        api.send(SCORES, {
          input: {
            entryId: randomUUID(),
            fishId: id,
            scoredOn: '2026-09-01',
            scores: [{ id: randomUUID(), traitId, value }],
          },
        }),
      ),
    );
    expect(answers.flatMap((answer) => answer.errors ?? [])).toEqual([]);
    const kept = (await look(id)).scores.map((score) => score.value).sort((a, b) => a - b);
    expect(kept).toEqual(values);
  });

  it('undoes a decision to what was before, once', async () => {
    const id = await newFish();
    await api.graphql(DECIDE, {
      input: { id, disposition: 'HOLD', on: '2026-09-01', reason: 'young', revision: 1 },
    });
    const entryId = randomUUID();
    const cull = { entryId, id, disposition: 'CULLED', on: '2026-09-02', reason: 'bent spine' };
    await api.graphql(DECIDE, { input: { ...cull, revision: 2 } });
    await sendOften(UNDO, { entryId: randomUUID(), undoes: entryId });
    const fish = await look(id);
    expect([fish.disposition, fish.dispositionReason, fish.revision]).toEqual(['HOLD', 'young', 4]);
    expect(fish.history[0]?.action).toBe('undone');
  });

  it('undoes a score sheet by withdrawing it, and a new fish likewise', async () => {
    const id = randomUUID();
    const [madeBy, scoredBy] = [randomUUID(), randomUUID()];
    await api.graphql(NEW_FISH, {
      input: { entryId: madeBy, id, tag: 'E-undo', sex: 'UNSEXED', spawnId },
    });
    await api.graphql(SCORES, {
      input: {
        entryId: scoredBy,
        fishId: id,
        scoredOn: '2026-09-01',
        scores: [{ traitId, value: 150 }],
      },
    });
    await api.graphql(UNDO, { input: { entryId: randomUUID(), undoes: scoredBy } });
    expect((await look(id)).scores[0]?.withdrawn).not.toBeNull();
    await api.graphql(UNDO, { input: { entryId: randomUUID(), undoes: madeBy } });
    expect((await look(id)).withdrawn).not.toBeNull();
    const late = await api.send(SCORES, {
      input: { fishId: id, scoredOn: '2026-09-01', scores: [{ traitId, value: 1 }] },
    });
    expect(late.errors?.[0]?.extensions.code).toBe('VALIDATION');
  });

  it('does not undo over a later change', async () => {
    const id = await newFish();
    const entryId = randomUUID();
    await api.graphql(DECIDE, {
      input: { entryId, id, disposition: 'KEEPER', on: '2026-09-01', revision: 1 },
    });
    await api.graphql(DECIDE, { input: { id, disposition: 'PLACED', on: '2026-09-02' } });
    const { errors } = await api.send(UNDO, { input: { entryId: randomUUID(), undoes: entryId } });
    expect(errors?.[0]?.extensions.code).toBe('CONFLICT_REVISION');
    expect((await look(id)).disposition).toBe('PLACED');
  });

  it('leaves an earlier change alone when the undone entry had changed nothing', async () => {
    const id = await newFish();
    const decision = { id, disposition: 'KEEPER', on: '2026-09-01' };
    await api.graphql(DECIDE, { input: { ...decision, revision: 1 } });
    const entryId = randomUUID();
    await api.graphql(DECIDE, { input: { ...decision, entryId, revision: 2 } });
    await api.graphql(UNDO, { input: { entryId: randomUUID(), undoes: entryId } });
    expect((await look(id)).disposition).toBe('KEEPER');
  });

  it('takes no entry under the id of another kind of entry', async () => {
    const id = await newFish();
    const entryId = randomUUID();
    await api.graphql(DECIDE, {
      input: { entryId, id, disposition: 'KEEPER', on: '2026-09-01', revision: 1 },
    });
    const { errors } = await api.send(SEX, { input: { entryId, id, revision: 2, sex: 'MALE' } });
    expect(errors?.[0]?.extensions.code).toBe('VALIDATION');
  });

  const later = async (days: number) => {
    await (
      await recordsOf(api)
    ).query('UPDATE received_entry SET at = at - make_interval(days => $1)', [days]);
  };
  const kept = async (id: string): Promise<boolean> => {
    const rows: unknown[] = await (
      await recordsOf(api)
    ).query('SELECT 1 FROM received_entry WHERE id = $1', [id]);
    return rows.length > 0;
  };

  it('lets go of entries that are old, and still records nothing twice for a device that was away', async () => {
    const id = await newFish();
    const made = randomUUID();
    const newFishInput = { entryId: randomUUID(), id: made, tag: 'E-away', sex: 'MALE', spawnId };
    const decision = { entryId: randomUUID(), id, disposition: 'HOLD', on: '2026-09-01' };
    const scores = {
      entryId: randomUUID(),
      fishId: id,
      scoredOn: '2026-09-01',
      scores: [{ id: randomUUID(), traitId, value: 160 }],
    };
    const loss = {
      entryId: randomUUID(),
      ...{ id: randomUUID(), spawnId, kind: 'CULLED', on: '2026-09-01', number: 9, reason: 'thin' },
    };
    const seen = await lookOf(id);
    const sendAll = async () => [
      await api.send(NEW_FISH, { input: newFishInput }),
      await api.send(DECIDE, { input: { ...decision, revision: 1 } }),
      await api.send(SCORES, { input: scores }),
      await api.send(LOSS, { input: loss }),
      await api.send(LOOK, { input: seen }),
    ];
    expect((await sendAll()).flatMap(({ errors }) => errors ?? [])).toEqual([]);
    const before = [await look(id), await looksAt(id), await spawnFacts()];
    await later(399);
    await newFishWith(randomUUID());
    expect(await kept(decision.entryId)).toBe(true);

    await later(2);
    const young = randomUUID();
    for (let n = 0; n < 25; n += 1) await newFishWith(n === 0 ? young : randomUUID());
    const old = [newFishInput, decision, scores, loss, seen].map((each) => each.entryId);
    for (const entryId of old) expect(await kept(entryId)).toBe(false);
    expect(await kept(young)).toBe(true);

    const again = await sendAll();
    expect(again.map(({ errors }) => errors?.[0]?.extensions.code)).toEqual([
      undefined,
      'CONFLICT_REVISION',
      undefined,
      undefined,
      undefined,
    ]);
    expect([await look(id), await looksAt(id), await spawnFacts()]).toEqual(before);
    await later(401);
    for (let n = 0; n < 25; n += 1) await newFishWith(randomUUID());
    const undo = await api.send(UNDO, {
      input: { entryId: randomUUID(), undoes: scores.entryId },
    });
    expect(undo.errors?.[0]?.extensions.code).toBe('NOT_FOUND');
    expect(undo.errors?.[0]?.message).toMatch(/more than 400 days ago/);
  });

  const newFishWith = async (entryId: string) => {
    tagNumber += 1;
    await api.graphql(NEW_FISH, {
      input: { entryId, id: randomUUID(), tag: `E-${tagNumber}`, sex: 'UNSEXED', spawnId },
    });
  };

  it('finds a count applied, sent again after its locus was withdrawn, and refuses a new one', async () => {
    const { defineLocus: locus } = await api.graphql<{
      defineLocus: { recordId: string; revision: number };
    }>(creation('defineLocus', 'recordId revision'), {
      input: {
        locusId: 'crook',
        name: 'Crook',
        alleles: [
          { symbol: 'Cr', name: 'straight' },
          { symbol: 'cr', name: 'crooked' },
        ],
        looks: [
          { genotype: 'Cr/-', phenotype: 'straight' },
          { genotype: 'cr/cr', phenotype: 'crooked' },
        ],
      },
    });
    const day = '2026-09-01';
    const loss = {
      ...{ entryId: randomUUID(), id: randomUUID(), spawnId, kind: 'CULLED', on: day, number: 3 },
      ...{ reason: 'crooked', heritable: true, locusId: 'crook', phenotype: 'crooked' },
    };
    const count = {
      ...{ entryId: randomUUID(), id: randomUUID(), spawnId, locusIds: ['crook'], number: 3 },
      ...{ phenotype: 'crooked', countedOn: day },
    };
    await api.graphql(LOSS, { input: loss });
    await api.graphql(CLASS, { input: count });
    const before = await spawnFacts();
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawLocus(input: $input) { id } }', {
      input: { id: locus.recordId, reason: 'never true', revision: locus.revision },
    });
    // The answers were lost: both are found applied.
    expect((await api.send(LOSS, { input: loss })).errors).toBeUndefined();
    expect((await api.send(CLASS, { input: count })).errors).toBeUndefined();
    expect(await spawnFacts()).toEqual(before);
    const late = { ...loss, entryId: randomUUID(), id: randomUUID() };
    const refused = await api.send(LOSS, { input: late });
    expect(refused.errors?.[0]?.extensions.code).toBe('LOCUS_WITHDRAWN');
    // The same entry without the locus.
    await api.graphql(LOSS, { input: { ...late, locusId: null, phenotype: null } });
    expect((await spawnFacts()).losses.length - before.losses.length).toBe(1);
  });

  it('keeps the version of a trait that was seen, and takes its value without the present range', async () => {
    const body = { key: 'body', name: 'Body', kind: 'MEASURED', unit: 'mm', maximum: 80 } as const;
    const id = await made.createTrait(body);
    await api.graphql(
      'mutation ($input: CorrectTraitInput!) { correctTrait(input: $input) { id } }',
      { input: { id, revision: 1, unit: 'cm', maximum: 8 } },
    );
    const fishId = await newFish();
    const score = (value: number, traitVersion: number | null) =>
      api.send<{ recordScores: { traitVersion: number; value: number }[] }>(
        creation('recordScores', 'traitVersion value'),
        {
          input: {
            fishId,
            scoredOn: '2026-09-01',
            scores: [{ traitId: id, value, traitVersion }],
          },
        },
      );
    expect((await score(42, 1)).data?.recordScores).toEqual([{ traitVersion: 1, value: 42 }]);
    expect((await score(4.2, null)).data?.recordScores).toEqual([{ traitVersion: 2, value: 4.2 }]);
    for (const [value, version] of [
      [42, 2],
      [4, 3],
    ] as const)
      expect((await score(value, version)).errors?.[0]?.extensions.code).toBe('VALIDATION');
  });

  it('tells every field that is wrong at once, once each', async () => {
    const fieldsOf = async (query: string, input: object) => {
      const { errors } = await api.send(query, { input });
      expect(errors?.[0]?.extensions.code).toBe('VALIDATION');
      const fields = errors?.[0]?.extensions['fields'] as { field: string; message: string }[];
      expect(errors?.[0]?.message).toBe(fields.map((each) => each.message).join(' '));
      return fields.map((each) => each.field);
    };
    const fishId = await newFish();
    const rays = { key: 'rays', name: 'Rays', kind: 'COUNT', minimum: 2 } as const;
    const length = await made.createTrait(rays);
    expect(
      await fieldsOf(SCORES, {
        fishId,
        scoredOn: '2199-01-01',
        scores: [
          { traitId, value: -4 },
          { traitId: length, value: 2.5 },
        ],
      }),
    ).toEqual(['scoredOn', `scores.${traitId}`, `scores.${length}`]);
    expect(await fieldsOf(DECIDE, { id: fishId, disposition: 'CULLED', on: '2199-01-01' })).toEqual(
      ['reason', 'on'],
    );
    expect(
      await fieldsOf(LOSS, { spawnId, kind: 'CULLED', on: '2026-09-01', number: 0, reason: ' ' }),
    ).toEqual(['number', 'reason']);
    expect(await fieldsOf(NEW_FISH, { tag: ' ', sex: 'MALE', hatchDate: '2199-01-01' })).toEqual([
      'tag',
      'hatchDate',
    ]);
    expect(
      await fieldsOf(creation('createSpawn'), {
        tag: '',
        spawnedOn: '2199-01-01',
        hatchDate: '2199-01-03',
        sireId: fishId,
        damId: fishId,
      }),
    ).toEqual(['tag', 'spawnedOn', 'hatchDate', 'damId']);
    expect(
      await fieldsOf(creation('createTrait'), {
        ...{ key: 'No', name: '', kind: 'MEASURED', minimum: 5, maximum: 5 },
        ...{ fromAgeDays: 60, toAgeDays: 30 },
      }),
    ).toEqual(['key', 'name', 'maximum', 'toAgeDays']);
    expect(
      await fieldsOf(creation('createLine'), {
        code: 'a b',
        name: '',
      }),
    ).toEqual(['code', 'name']);
    expect(
      await fieldsOf(SHEET, {
        name: ' ',
        content: {
          fromAgeDays: 60,
          toAgeDays: 30,
          lines: [
            { traitId, noneAt: 100, fullAt: 100, weight: -1 },
            { traitId: length, noneAt: 2 },
          ],
          faults: [{ name: '', severity: 'SLIGHT' }],
          deductions: [{ severity: 'MAJOR', points: 101 }],
        },
      }),
    ).toEqual([
      ...['name', 'faults.0.name', 'points.MAJOR', 'toAgeDays', 'lines.0.fullAt'],
      ...['lines.0.weight', 'lines.1.fullAt', 'lines'],
    ]);
  });

  it('takes no decision on a day before the fish hatched', async () => {
    const id = await newFish();
    const { errors } = await api.send(DECIDE, {
      input: { id, disposition: 'HOLD', on: '2026-04-30' },
    });
    expect(errors?.[0]?.extensions['fields']).toMatchObject([{ field: 'on' }]);
    expect((await look(id)).disposition).toBe('UNSORTED');
  });

  it("refuses another person's entries before anything is applied", async () => {
    const id = await newFish();
    const input = { entryId: randomUUID(), id, disposition: 'KEEPER', on: '2026-09-01' };
    const sendAs = async (personId: string, header = 'linewright-person') => {
      const response = await api.http('/graphql', {
        method: 'POST',
        headers: { 'content-type': 'application/json', [header]: personId },
        body: JSON.stringify({ query: DECIDE, variables: { input } }),
      });
      return (await response.json()) as { errors?: { extensions: { code: string } }[] };
    };
    for (const header of ['linewright-person', 'linewright-keeper'])
      expect((await sendAs(randomUUID(), header)).errors?.[0]?.extensions.code).toBe(
        'OTHER_PERSON',
      );
    expect((await look(id)).disposition).toBe('UNSORTED');
    const { session } = await api.graphql<{ session: { person: { id: string } } }>(
      '{ session { person { id } } }',
    );
    expect((await sendAs(session.person.id)).errors).toBeUndefined();
    expect((await look(id)).disposition).toBe('KEEPER');
  });
});
