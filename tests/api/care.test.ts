import { randomUUID } from 'node:crypto';
import { HOUR, dayIn } from '@linewright/care';
import ICAL from 'ical.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ZONE, hoursAgo, now } from '../clock.js';
import { newRecords } from '../new-records.js';
import { PASSWORD, type RunningApi, startApi, recordsOf } from './harness.js';

interface History {
  edges: { node: { action: string } }[];
}

interface Recorded {
  id: string;
  step: string;
  at: string;
  action: string;
  note: string | null;
  editable: boolean;
}
interface Planned {
  step: { id: string; basis: string; published: { citation: string; conditions: string }[] };
  state: string;
  from: string | null;
  about: string | null;
  reasons: { after: string; certainty: string; moved: number | null; decides: boolean }[];
  noLonger: { because: string; by: string | null } | null;
  records: Recorded[];
}
interface Plan {
  template: { id: string | null; name: string; revision: number };
  steps: Planned[];
  log: Recorded[];
  endedBy: string | null;
}
interface Task {
  id: string;
  spawn: { id: string; tag: string };
  step: { id: string };
  state: string;
  day: string;
  from: string;
  about: string;
}

const dayOf = (at: number): string => dayIn(at, ZONE);

const PLAN = `query ($id: ID!, $at: DateTime) { spawn(id: $id) { spawnedOn hatchDate failed failedReason
  care(at: $at) { endedBy template { id name revision }
    log { id step at action note editable }
    steps { state from about step { id basis published { citation conditions } }
      reasons { after certainty moved decides } noLonger { because by }
      records { id step at action note editable } } } } }`;
const TASKS = `query ($from: Date!, $to: Date!, $zone: String!, $at: DateTime) {
  careTasks(from: $from, to: $to, zone: $zone, at: $at) {
    id spawn { id tag } step { id } state day from about } }`;

describe('care of a spawn', () => {
  let api: RunningApi;
  let lineId: string;
  beforeAll(async () => {
    api = await startApi();
    lineId = await newRecords(api).createLine({ code: 'K', name: 'Kelp' });
  });
  afterAll(() => api.close());

  let count = 0;
  const newSpawn = (more: object = {}): Promise<string> => {
    count += 1;
    return newRecords(api).createSpawn({ tag: `K26-${count}`, lineId, ...more });
  };
  const recordCare = async (input: object, through: RunningApi = api): Promise<string> =>
    (
      await through.graphql<{ recordCare: string }>(
        'mutation ($input: RecordCareInput!) { recordCare(input: $input) }',
        { input },
      )
    ).recordCare;
  const read = async (id: string, at?: string) =>
    (
      await api.graphql<{
        spawn: {
          spawnedOn: string;
          hatchDate: string;
          failed: boolean;
          failedReason: string;
          care: Plan;
        };
      }>(PLAN, { id, at })
    ).spawn;
  const stepOf = (plan: Plan, id: string): Planned => {
    const found = plan.steps.find((planned) => planned.step.id === id);
    if (found === undefined) throw new Error(`no step ${id}`);
    return found;
  };
  const refused = async (query: string, variables: object) => {
    const { errors } = await api.send(query, variables);
    if (errors?.[0] === undefined) throw new Error('nothing was refused');
    return errors[0];
  };

  it('starts with the decision to pair, and follows the events as they come', async () => {
    const spawnId = await newSpawn();
    const fresh = (await read(spawnId)).care;
    expect(fresh.template).toEqual({ id: null, name: 'Common practice', revision: 0 });
    expect(fresh.log.map((record) => record.step)).toEqual(['decided']);
    expect(stepOf(fresh, 'conditioning').state).toBe('DUE');
    expect(stepOf(fresh, 'hatched').step.published).toHaveLength(3);
    const begun = now();
    const ago = (hours: number): string => new Date(begun - hours * HOUR).toISOString();
    await recordCare({ spawnId, step: 'spawned', at: ago(54) });
    const spawned = (await read(spawnId)).care;
    expect(stepOf(spawned, 'conditioning').noLonger).toEqual({ because: 'PAST', by: 'spawned' });
    expect(stepOf(spawned, 'dam_out').state).toBe('OVERDUE');
    expect(stepOf(spawned, 'hatched').state).toBe('DUE');
    await recordCare({ spawnId, step: 'hatched', at: ago(30), zone: ZONE });
    const after = await read(spawnId);
    expect(after.hatchDate).toBe(dayOf(begun - 30 * HOUR));
    const swim = stepOf(after.care, 'free_swimming');
    expect(swim.reasons[0]).toMatchObject({
      after: 'hatched',
      certainty: 'RECORDED',
      decides: true,
    });
    expect(swim.reasons[0]?.moved).toBeCloseTo(-24, 3);
    expect(Date.parse(swim.about ?? '') - begun).toBeCloseTo(-6 * HOUR, -5);
  });

  it('takes the same record twice as one, from two servers on one database at once too', async () => {
    const spawnId = await newSpawn({ spawnedOn: dayOf(now()) });
    const other = await startApi({
      signedIn: false,
      environment: { DATABASE_URL: api.served.databaseUrl },
    });
    try {
      await other.graphql(`mutation { signIn(password: "${PASSWORD}") { signedIn } }`);
      for (const step of ['siphoned', 'dam_out', 'fed', 'topped_up']) {
        const input = { id: randomUUID(), spawnId, step, at: hoursAgo(1) };
        const sent = await Promise.all(
          [api, other, api, other, api, other].map((through) => recordCare(input, through)),
        );
        expect(new Set(sent)).toEqual(new Set([input.id]));
        expect(stepOf((await read(spawnId)).care, step).records).toHaveLength(1);
        const { history } = await api.graphql<{ history: History }>(
          'query ($kind: RecordKind!, $id: ID!) { history(recordKind: $kind, recordId: $id) { edges { node { action } } } }',
          { kind: step === 'dam_out' ? 'SPAWN_EVENT' : 'CARE_RECORD', id: input.id },
        );
        expect(history.edges).toEqual([{ node: { action: 'recorded' } }]);
      }
      // What one server records, the other's plan knows at once.
      await recordCare({ spawnId, step: 'moved', at: hoursAgo(1) }, other);
      expect(stepOf((await read(spawnId)).care, 'moved').state).toBe('DONE');
    } finally {
      await other.close();
    }
  });

  it('takes a record back, and what followed from it', async () => {
    const spawnId = await newSpawn();
    await recordCare({ spawnId, step: 'spawned', at: hoursAgo(40) });
    const recordId = await recordCare({ spawnId, step: 'hatched', at: hoursAgo(2) });
    expect((await read(spawnId)).hatchDate).not.toBeNull();
    const undo = 'mutation ($input: UndoCareInput!) { undoCare(input: $input) { id } }';
    await api.graphql(undo, { input: { spawnId, recordId } });
    await api.graphql(undo, { input: { spawnId, recordId } });
    // A device that sends it once more does not bring it back.
    await recordCare({ id: recordId, spawnId, step: 'hatched', at: hoursAgo(2) });
    const back = await read(spawnId);
    expect(back.hatchDate).toBeNull();
    expect(stepOf(back.care, 'hatched').state).toBe('DUE');
    const care = await recordCare({ spawnId, step: 'topped_up', at: hoursAgo(1) });
    await api.graphql(undo, { input: { spawnId, recordId: care } });
    expect((await read(spawnId)).care.log.map((record) => record.step)).toEqual([
      'decided',
      'spawned',
    ]);
  });

  it('corrects the time of a record, and the plan moves with it', async () => {
    const spawnId = await newSpawn();
    const recordId = await recordCare({ spawnId, step: 'spawned', at: hoursAgo(10) });
    const correct =
      'mutation ($input: CorrectCareInput!) { correctCare(input: $input) { spawnedOn } }';
    const { correctCare } = await api.graphql<{ correctCare: { spawnedOn: string } }>(correct, {
      input: { spawnId, recordId, at: hoursAgo(50), note: 'found in the morning', zone: 'UTC' },
    });
    expect(correctCare.spawnedOn).toBe(hoursAgo(50).slice(0, 10));
    const { care } = await read(spawnId);
    expect(stepOf(care, 'hatched').state).toBe('DUE');
    expect(stepOf(care, 'spawned').records[0]?.note).toBe('found in the morning');
  });

  it('a failed spawn ends its calendar, says why, and goes on when that is taken back', async () => {
    const spawnId = await newSpawn();
    await recordCare({ spawnId, step: 'spawned', at: hoursAgo(40) });
    const recordId = await recordCare({
      spawnId,
      step: 'failed',
      at: hoursAgo(1),
      note: 'eggs went white',
    });
    const failed = await read(spawnId);
    expect(failed).toMatchObject({ failed: true, failedReason: 'eggs went white' });
    expect(failed.care.endedBy).toBe('failed');
    expect(
      failed.care.steps.filter((s) => ['DUE', 'OVERDUE', 'UPCOMING'].includes(s.state)),
    ).toEqual([]);
    await api.graphql('mutation ($input: UndoCareInput!) { undoCare(input: $input) { id } }', {
      input: { spawnId, recordId },
    });
    const back = await read(spawnId);
    expect(back.failed).toBe(false);
    expect(stepOf(back.care, 'hatched').state).toBe('DUE');
  });

  it('leaves a step out with a reason, never without', async () => {
    const spawnId = await newSpawn({ hatchDate: dayOf(now() - 6 * 24 * HOUR) });
    const skip = 'mutation ($input: SkipCareInput!) { skipCare(input: $input) }';
    const input = { spawnId, step: 'helpers', at: hoursAgo(1), reason: ' ' };
    expect((await refused(skip, { input })).message).toContain('why');
    await api.graphql(skip, { input: { ...input, reason: 'snails are not allowed here' } });
    const { care } = await read(spawnId);
    expect(stepOf(care, 'helpers').state).toBe('SKIPPED');
    expect(stepOf(care, 'helpers_out').noLonger?.because).toBe('NOT_NEEDED');
  });

  it('refuses a step that cannot be, a time to come, and a spawn that is not there', async () => {
    const spawnId = await newSpawn();
    const record = 'mutation ($input: RecordCareInput!) { recordCare(input: $input) }';
    const input = { spawnId, step: 'siphoned', at: hoursAgo(1) };
    expect(
      (await refused(record, { input: { ...input, step: 'Drop Table' } })).extensions.code,
    ).toBe('VALIDATION');
    expect((await refused(record, { input: { ...input, at: hoursAgo(-72) } })).message).toContain(
      'future',
    );
    expect(
      (await refused(record, { input: { ...input, spawnId: randomUUID() } })).extensions.code,
    ).toBe('NOT_FOUND');
    const range = { from: '2026-03-10', to: '2026-03-09', zone: 'UTC' };
    expect((await refused(TASKS, range)).extensions.code).toBe('VALIDATION');
    expect(
      (await refused(TASKS, { ...range, to: '2026-03-12', zone: 'Middle/Earth' })).message,
    ).toContain('IANA');
  });

  it('lists the tasks of all live spawns by the days of the zone, over a change of clocks', async () => {
    // Spawned so that the hatch is looked for from 23:30 UTC on the 28th: already the 29th in Berlin, the day of 23 hours.
    const spawnId = await newSpawn();
    await recordCare({ spawnId, step: 'spawned', at: '2026-03-27T23:30:00Z' });
    await recordCare({ spawnId, step: 'dam_out', at: '2026-03-28T00:00:00Z' });
    const at = '2026-03-28T08:00:00Z';
    const of = async (zone: string, from: string, to: string) =>
      (await api.graphql<{ careTasks: Task[] }>(TASKS, { from, to, zone, at })).careTasks.filter(
        (task) => task.spawn.id === spawnId,
      );
    const dayOfHatch = async (zone: string) =>
      (await of(zone, '2026-03-28', '2026-03-31')).find((task) => task.step.id === 'hatched')?.day;
    expect(await dayOfHatch('UTC')).toBe('2026-03-28');
    expect(await dayOfHatch('Europe/Berlin')).toBe('2026-03-29');
    expect(await dayOfHatch('America/New_York')).toBe('2026-03-28');
    const berlin = await of('Europe/Berlin', '2026-03-28', '2026-03-28');
    expect(berlin.map((task) => task.step.id)).toEqual(['eyed']);
    // 21:59 UTC is the last minute of the 29th in Berlin's summer time; what opens at 22:00 belongs to the 30th.
    const late = await newSpawn();
    await recordCare({ spawnId: late, step: 'spawned', at: '2026-03-28T22:00:00Z' });
    const days = (
      await api.graphql<{ careTasks: Task[] }>(TASKS, {
        from: '2026-03-29',
        to: '2026-03-30',
        zone: 'Europe/Berlin',
        at: '2026-03-29T08:00:00Z',
      })
    ).careTasks.filter((task) => task.spawn.id === late && task.step.id === 'hatched');
    expect(days.map((task) => task.day)).toEqual(['2026-03-30']);
  });

  it('asks nothing for an old brood that is written up today without its days', async () => {
    const asked = async () =>
      (
        await api.graphql<{ careTasks: Task[] }>(TASKS, {
          from: dayOf(now()),
          to: dayOf(now() + 2 * 24 * HOUR),
          zone: ZONE,
        })
      ).careTasks;
    const about = async (spawnId: string) =>
      (await asked()).filter((task) => task.spawn.id === spawnId).map((task) => task.step.id);
    const withFish = await newSpawn();
    const counted = await newSpawn();
    const heardOf = await newSpawn();
    const setUp = await newSpawn();
    expect(await about(withFish)).toContain('conditioning');
    const made = newRecords(api);
    await made.addFishToSpawn({ spawnId: withFish, number: 2 });
    const jars = { stage: 'JARRED', countedOn: '2024-05-01', number: 40 } as const;
    await made.recordSpawnCount({ spawnId: counted, ...jars });
    await recordCare({ spawnId: heardOf, step: 'jarred', at: '2024-06-01T10:00:00Z' });
    for (const old of [withFish, counted, heardOf]) expect(await about(old)).toEqual([]);
    expect(await about(setUp)).toContain('conditioning');
    expect((await read(withFish)).care.log).toEqual([]);
    expect(stepOf((await read(withFish)).care, 'conditioning').state).toBe('UPCOMING');
    // A day of its own brings it back.
    await recordCare({ spawnId: withFish, step: 'hatched', at: hoursAgo(30) });
    expect(await about(withFish)).not.toEqual([]);
  });

  it('moves the task list when an event is recorded, under ids that stay', async () => {
    const spawnId = await newSpawn();
    await recordCare({ spawnId, step: 'hatched', at: hoursAgo(80) });
    await recordCare({ spawnId, step: 'free_swimming', at: hoursAgo(50) });
    const tasks = async () =>
      (
        await api.graphql<{ careTasks: Task[] }>(TASKS, {
          from: dayOf(now()),
          to: dayOf(now() + 2 * 24 * HOUR),
          zone: ZONE,
        })
      ).careTasks.filter((task) => task.spawn.id === spawnId);
    const before = await tasks();
    expect(new Set(before.map((task) => task.id)).size).toBe(before.length);
    expect(before.find((task) => task.step.id === 'first_food')?.state).toBe('DUE');
    await recordCare({ spawnId, step: 'first_food', at: hoursAgo(1) });
    const after = await tasks();
    expect(after.some((task) => task.step.id === 'first_food')).toBe(false);
    expect(after.find((task) => task.step.id === 'leftovers_cleared')?.state).toBe('DUE');
    const shrimp = (list: Task[]) =>
      list.filter((t) => t.step.id === 'brine_shrimp_set').map((t) => t.id);
    expect(shrimp(after)).toEqual(shrimp(before));
  });

  it("follows a line's own calendar, in versions, and tells all that is wrong with one at once", async () => {
    const own = await newRecords(api).createLine({ code: 'OWN', name: 'Own' });
    const spawnId = await newSpawn({ lineId: own });
    await recordCare({ spawnId, step: 'spawned', at: hoursAgo(10) });
    const save = `mutation ($input: SaveCareTemplateInput!) { saveCareTemplate(input: $input) {
      id name revision line { code } steps { id title } } }`;
    const step = (id: string, after: string, hours: number) => ({
      id,
      title: `Do ${id}`,
      kind: 'DO',
      basis: 'OWN',
      after: [{ after, hours }],
    });
    const bad = await refused(save, {
      input: {
        lineId: own,
        name: 'Bad',
        steps: [
          step('a', 'b', 1),
          step('b', 'a', 1),
          step('c', 'moonrise', 1),
          step('d', 'spawned', -1),
        ],
      },
    });
    expect(bad.extensions['fields']).toHaveLength(3);
    interface Saved {
      saveCareTemplate: { id: string; revision: number; line: { code: string } };
    }
    const input = { lineId: own, name: 'Short', steps: [step('cover', 'spawned', 6)] };
    const { saveCareTemplate: made } = await api.graphql<Saved>(save, { input });
    expect(made).toMatchObject({ revision: 1, line: { code: 'OWN' } });
    expect((await read(spawnId)).care).toMatchObject({ template: { name: 'Short', revision: 1 } });
    expect((await refused(save, { input })).message).toContain('already');
    const { saveCareTemplate: changed } = await api.graphql<Saved>(save, {
      input: { ...input, id: made.id, revision: 1, steps: [step('cover', 'spawned', 8)] },
    });
    expect(changed.revision).toBe(2);
    expect(
      (await refused(save, { input: { ...input, id: made.id, revision: 1 } })).extensions.code,
    ).toBe('CONFLICT_REVISION');
    const { history } = await api.graphql<{ history: History }>(
      'query ($id: ID!) { history(recordKind: CARE_TEMPLATE, recordId: $id) { edges { node { action } } } }',
      { id: made.id },
    );
    expect(history.edges.map(({ node }) => node.action)).toEqual(['corrected', 'recorded']);
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawCareTemplate(input: $input) }', {
      input: { id: made.id, reason: 'back to practice' },
    });
    expect((await read(spawnId)).care.template.name).toBe('Common practice');
  });

  describe('the calendar address', () => {
    const renew = async (): Promise<string> =>
      (
        await api.graphql<{ renewCalendarAddress: { path: string } }>(
          'mutation { renewCalendarAddress { path } }',
        )
      ).renewCalendarAddress.path;
    const get = (path: string): Promise<Response> => fetch(`${api.url}${path}`);

    it('is off until it is made, told once, and answers no other secret', async () => {
      const { calendarAddress } = await api.graphql<{ calendarAddress: object }>(
        '{ calendarAddress { on since path } }',
      );
      expect(calendarAddress).toEqual({ on: false, since: null, path: null });
      const path = await renew();
      expect(path).toMatch(/^\/calendar\/[\w-]{43}\.ics$/);
      const again = await api.graphql<{ calendarAddress: { on: boolean; path: string | null } }>(
        '{ calendarAddress { on path } }',
      );
      expect(again.calendarAddress).toEqual({ on: true, path: null });
      expect((await get(path)).status).toBe(200);
      const wrong = `${path.slice(0, -5)}${path.at(-5) === 'A' ? 'B' : 'A'}.ics`;
      expect((await get(wrong)).status).toBe(404);
      expect((await get('/calendar/short.ics')).status).toBe(404);
      expect((await get(path.replace('.ics', ''))).status).toBe(404);
      // A browser that opens the address gets the calendar too, not the viewer's page.
      const page = await fetch(`${api.url}${path}`, { headers: { accept: 'text/html' } });
      expect(page.headers.get('content-type')).toContain('text/calendar');
    });

    it('stops answering when it is renewed or turned off', async () => {
      const first = await renew();
      const second = await renew();
      expect((await get(first)).status).toBe(404);
      expect((await get(second)).status).toBe(200);
      await api.graphql('mutation { turnOffCalendarAddress { on } }');
      expect((await get(second)).status).toBe(404);
    });

    it('keeps only a hash of the secret', async () => {
      const secret = /calendar\/(.*)\.ics/.exec(await renew())?.[1] ?? '';
      const rows: unknown = await (await recordsOf(api)).query('SELECT * FROM calendar_address');
      expect(JSON.stringify(rows)).not.toContain(secret);
    });

    // RFC 5545 (read through ical.js, which shares no code with what writes the file): sections 3.1 (lines of at most
    // 75 octets, CRLF), 3.6.1 (a VEVENT needs UID and DTSTAMP), 3.8.4.7 (UID unique and lasting).
    it('is a valid calendar, with events that keep their UID while they move', async () => {
      const spawnId = await newSpawn();
      const begun = now();
      await recordCare({ spawnId, step: 'spawned', at: new Date(begun - 20 * HOUR).toISOString() });
      const path = await renew();
      const events = async () => {
        const text = await (await get(path)).text();
        for (const line of text.split('\r\n'))
          expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
        expect(text.replaceAll('\r\n', '')).not.toContain('\n');
        const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
        expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
        expect(calendar.getFirstPropertyValue('prodid')).toBeTruthy();
        const found = calendar.getAllSubcomponents('vevent').map((component) => {
          expect(component.getFirstPropertyValue('dtstamp')).toBeTruthy();
          return new ICAL.Event(component);
        });
        expect(new Set(found.map((event) => event.uid)).size).toBe(found.length);
        return new Map(
          found
            .filter((event) => event.uid.startsWith(spawnId))
            .map((event) => {
              const [start, end] = [event.startDate.toJSDate(), event.endDate.toJSDate()];
              expect(event.startDate.zone.tzid).toBe('UTC');
              expect(end.getTime()).toBeGreaterThan(start.getTime());
              return [
                event.uid,
                { start: start.getTime(), summary: event.summary, description: event.description },
              ];
            }),
        );
      };
      const before = await events();
      const swim = `${spawnId}.free_swimming.0@linewright`;
      const hatch = `${spawnId}.hatched.0@linewright`;
      expect(before.get(hatch)?.summary).toMatch(/^K26-\d+: Look for hatching$/);
      expect(before.get(hatch)?.description).toContain('Common practice, no source.');
      expect(before.get(swim)?.description).toContain('expected');
      await recordCare({ spawnId, step: 'hatched', at: new Date(begun).toISOString() });
      const after = await events();
      expect(after.has(hatch)).toBe(false);
      // Hatched 28 hours sooner than the middle of its window: the fry are looked for so much sooner.
      const moved = ((before.get(swim)?.start ?? 0) - (after.get(swim)?.start ?? 0)) / HOUR;
      expect(moved).toBeCloseTo(28, 1);
    });

    it('holds back a caller with many wrong addresses', async () => {
      const statuses: number[] = [];
      for (let i = 0; i < 40; i += 1) statuses.push((await get(`/calendar/${i}.ics`)).status);
      expect(statuses).toContain(429);
      expect(statuses.filter((status) => status === 404).length).toBeGreaterThan(10);
    });
  });
});
