import {
  type AdoptedPlan,
  backToParentRoute,
  LATE_AFTER_DAYS,
  outcrossRoute,
  planCourse,
  plannedBroods,
  type PlanEvents,
  LEAST_YOUNG_LOOKED_AT,
  passesStandard,
  type PlanSpawn,
  type Route,
  siblingRoute,
  twoSubLinesRoute,
} from '@linewright/mating';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const lengths = { generations: 5, parentGenerations: 5 };
const unrelated = (a: number, b: number): number => (a === b ? 1 / 2 : 0);
const idOf = (place: number): string => `fish${place}`;
const inbreedingOf = (route: Route, coancestry = unrelated): number[] =>
  plannedBroods(route, idOf, coancestry).map(({ inbreeding }) => inbreeding);

describe('F that a plan will have', () => {
  // Wright S (1921) Genetics 6:111-178, systems of mating; the fractions from memory, and the same that the simulated routes have.
  it('brother to sister: 0, 1/4, 3/8, 1/2, 19/32', () => {
    expect(inbreedingOf(siblingRoute(0, 1, lengths))).toEqual([0, 1 / 4, 3 / 8, 1 / 2, 19 / 32]);
  });

  it.each(['sire', 'dam'] as const)('back to the %s: 0, 1/4, 3/8, 7/16, 15/32', (parent) => {
    expect(inbreedingOf(backToParentRoute(0, 1, parent, lengths))).toEqual([
      0,
      1 / 4,
      3 / 8,
      7 / 16,
      15 / 32,
    ]);
  });

  it('is 0 again where two unrelated sub-lines meet', () => {
    const four = { ...lengths, generations: 4 };
    const route = twoSubLinesRoute([[0, 1], [2, 3]], 2, four); // prettier-ignore
    // Sibs of two unrelated parents with F 1/4 each: a quarter of twice (1 + 1/4)/2.
    expect(inbreedingOf(route)).toEqual([0, 0, 1 / 4, 1 / 4, 0, 5 / 16]);
  });

  it('counts what the actual fish have in common', () => {
    const sibs = (a: number, b: number): number => (a === b ? 1 / 2 : 1 / 4);
    expect(inbreedingOf(siblingRoute(0, 1, { ...lengths, generations: 2 }), sibs)).toEqual([
      1 / 4,
      3 / 8,
    ]);
  });

  it('names the broods that parents are chosen from', () => {
    const [first, second] = plannedBroods(
      outcrossRoute({ line: 1, other: 2, back: 1 }, (at) => at === 1, lengths),
      idOf,
      unrelated,
    );
    expect(first).toMatchObject({
      generation: 1,
      sire: { kind: 'fish', id: 'fish1' },
      dam: { kind: 'fish', id: 'fish2' },
    });
    expect(second).toMatchObject({ generation: 2, dam: { kind: 'best', brood: 0 } });
  });
});

const plan = (route: Route, more: Partial<AdoptedPlan> = {}): AdoptedPlan => ({
  ...{ adoptedOn: '2026-01-01', purposeVersion: 1, daysToFirst: 14, daysPerGeneration: 150 },
  ...{
    share: 0.9,
    ceiling: 0.5,
    byGeneration: [0, 0.2, 0.6],
    broods: plannedBroods(route, idOf, unrelated),
  },
  ...more,
});
const three = plan(siblingRoute(0, 1, { generations: 3, parentGenerations: 3 }));
const spawn = (id: string, more: Partial<PlanSpawn> = {}): PlanSpawn => ({
  ...{ id, sireId: 'fish0', damId: 'fish1', sireSpawnId: null, damSpawnId: null },
  ...{ on: '2026-01-20', failed: false, inbreeding: 0, recorded: 10, unsorted: 0 },
  ...{ males: 3, females: 3, passed: 0, carried: [] },
  ...more,
});
const sibs = (id: string, of: string, more: Partial<PlanSpawn> = {}): PlanSpawn =>
  spawn(id, {
    ...{ sireId: `${of}-m`, damId: `${of}-f`, sireSpawnId: of, damSpawnId: of },
    ...{ on: '2026-07-01', inbreeding: 1 / 4 },
    ...more,
  });
const events = (spawns: readonly PlanSpawn[], more: Partial<PlanEvents> = {}): PlanEvents => ({
  ...{ spawns, gone: new Set<string>(), chosen: new Map<number, string | null>() },
  ...{ purposeVersion: 1, today: '2026-01-10' },
  ...more,
});
const kinds = (course: ReturnType<typeof planCourse>): string[] =>
  course.problems.map(({ kind }) => kind);

describe('the target of a plan', () => {
  const reached = (more: Partial<PlanSpawn>) => planCourse(three, events([spawn('a', more)]));

  it('is reached by the first brood of which enough on record passed, whatever else came otherwise', () => {
    expect(reached({ passed: 9 })).toMatchObject({ state: 'reached', reachedBy: 0 });
    const off = planCourse(three, events([spawn('a', { passed: 10 })], { purposeVersion: 2 }));
    expect(off).toMatchObject({ state: 'reached', problems: [{ kind: 'purpose-changed' }] });
    const second = sibs('b', 'a', { passed: 10 });
    expect(planCourse(three, events([spawn('a'), second])).reachedBy).toBe(1);
  });

  it('is not reached by too few that passed, by few young at all, or above the ceiling on F', () => {
    for (const more of [
      { passed: 8 },
      { recorded: LEAST_YOUNG_LOOKED_AT - 1, passed: LEAST_YOUNG_LOOKED_AT - 1 },
      { passed: 10, inbreeding: 0.51 },
    ])
      expect(reached(more).reachedBy).toBeNull();
  });
});

describe('the standard of a line', () => {
  const purpose = {
    traits: [
      { traitId: 'a', better: 'higher', low: 10, high: null, worth: 1 },
      { traitId: 'b', better: 'higher', low: null, high: null, worth: 1 },
    ],
    looks: [
      { look: { show: { bl: 'steel' } }, wanted: true, required: true, worth: 1 },
      { look: { show: { dt: 'double' } }, wanted: false, required: true, worth: 1 },
      { look: { show: { m: 'melano' } }, wanted: true, required: false, worth: 1 },
    ],
  } as const;
  const passes = (score: number | null, looks: Record<string, string>) =>
    passesStandard(
      {
        scores: new Map(score === null ? [] : [['a', score]]),
        looks: new Map(Object.entries(looks)),
      },
      purpose,
    );

  it('is passed with every limit and required look, and failed by one that speaks against it', () => {
    const good = { bl: 'steel', dt: 'single' };
    expect(passes(10, good)).toBe(true);
    expect(passes(9, good)).toBe(false);
    expect(passes(12, { ...good, bl: 'royal' })).toBe(false);
    expect(passes(12, { ...good, dt: 'double' })).toBe(false);
  });

  it('is not known as long as something that counts was not looked at', () => {
    expect(passes(null, { bl: 'steel', dt: 'single' })).toBeNull();
    expect(passes(12, { bl: 'steel' })).toBeNull();
    expect(passes(9, {})).toBe(false);
  });
});

describe('the course of a plan', () => {
  it('begins with its first brood, on course', () => {
    const course = planCourse(three, events([]));
    expect(course).toMatchObject({ state: 'on-course', problems: [], generationsDone: 0 });
    expect(course.steps.map(({ state, due }) => [state, due])).toEqual([
      ['now', '2026-01-15'],
      ['later', '2026-06-14'],
      ['later', '2026-11-11'],
    ]);
    expect(course.chanceLeft).toBe(0.6);
  });

  it('finds its spawns by parents and time, and tells what is left of the chance', () => {
    const found = planCourse(
      three,
      events([
        sibs('b', 'a'),
        spawn('a'),
        spawn('old', { on: '2025-12-31' }),
        spawn('other', { damId: 'fish9' }),
        spawn('again', { on: '2026-02-01' }),
      ]),
    );
    expect(found.steps.map(({ spawnId }) => spawnId)).toEqual(['a', 'b', null]);
    expect(found.steps.map(({ daysLate }) => daysLate)).toEqual([5, 17, -305]);
    expect(found.generationsDone).toBe(2);
    expect(found.chanceLeft).toBeCloseTo((0.6 - 0.2) / 0.8, 12);
  });

  it('takes what the keeper says of a brood, and none where that is said', () => {
    const spawns = [spawn('a'), spawn('again', { on: '2026-02-01' })];
    const said = (id: string | null) =>
      planCourse(three, events(spawns, { chosen: new Map([[0, id]]) })).steps[0];
    expect(said('again')).toMatchObject({ spawnId: 'again', chosen: true, state: 'done' });
    expect(said(null)).toMatchObject({ spawnId: null, chosen: true, state: 'now' });
  });

  it('tells failed tries and is not done by them', () => {
    const [first] = planCourse(three, events([spawn('a', { failed: true })])).steps;
    expect(first).toMatchObject({ state: 'now', spawnId: null, failed: ['a'] });
  });

  it('is off course when a step is late, and only then', () => {
    const on = (today: string): string[] => kinds(planCourse(three, events([], { today })));
    expect(on('2026-02-14')).toEqual([]);
    expect(on('2026-02-15')).toEqual(['late']);
    expect(LATE_AFTER_DAYS).toBe(30);
  });

  it('is off course when a parent that is still needed is gone', () => {
    const gone = new Set(['fish1']);
    expect(planCourse(three, events([], { gone })).problems).toEqual([
      { kind: 'parent-gone', brood: 0, fishId: 'fish1' },
    ]);
    expect(kinds(planCourse(three, events([spawn('a')], { gone })))).toEqual([]);
    const back = plan(backToParentRoute(0, 1, 'dam', { generations: 2, parentGenerations: 2 }));
    expect(planCourse(back, events([spawn('a')], { gone })).problems).toEqual([
      { kind: 'parent-gone', brood: 1, fishId: 'fish1' },
    ]);
  });

  it('is off course when a sorted brood has no young of a sex, or none with the allele', () => {
    const of = (more: Partial<PlanSpawn>) => kinds(planCourse(three, events([spawn('a', more)])));
    expect(of({ females: 0 })).toEqual(['no-young']);
    expect(of({ females: 0, unsorted: 1 })).toEqual([]);
    expect(of({ females: 0, recorded: 0 })).toEqual([]);
    expect(of({ carried: [{ allele: 'st', chance: 0.01 }] })).toEqual(['allele-not-found']);
    expect(of({ carried: [{ allele: 'st', chance: 0.5 }] })).toEqual([]);
    const gone = spawn('a', { females: 0 });
    expect(kinds(planCourse(three, events([gone, sibs('b', 'a')])))).toEqual([]);
  });

  it('is off course when F is above what was planned, or above the ceiling', () => {
    const of = (inbreeding: number, ceiling = 0.5) =>
      kinds(planCourse({ ...three, ceiling }, events([spawn('a', { inbreeding })])));
    expect(of(0)).toEqual([]);
    expect(of(0.1)).toEqual(['inbreeding']);
    expect(of(0.004, 0)).toEqual(['inbreeding']);
  });

  it('is off course when the line is for something else, and finished after its last brood', () => {
    const all = [
      spawn('a'),
      sibs('b', 'a'),
      sibs('c', 'b', { on: '2026-12-01', inbreeding: 3 / 8 }),
    ];
    const course = planCourse(three, events(all));
    expect(course).toMatchObject({ state: 'finished', generationsDone: 3, chanceLeft: 0 });
    expect(kinds(planCourse(three, events(all, { purposeVersion: 2 })))).toEqual([
      'purpose-changed',
    ]);
  });

  const someSpawn = fc.record({
    number: fc.nat(5),
    of: fc.option(fc.nat(5), { nil: null }),
    day: fc.integer({ min: 1, max: 28 }),
    month: fc.integer({ min: 1, max: 9 }),
    failed: fc.boolean(),
  });
  const someSpawns = fc
    .uniqueArray(someSpawn, { selector: ({ number }) => number, maxLength: 6 })
    .map((all) =>
      all.map(({ number, of, day, month, failed }) => {
        const on = `2026-0${month}-${String(day).padStart(2, '0')}`;
        const more = { on, failed };
        return of === null ? spawn(`s${number}`, more) : sibs(`s${number}`, `s${of}`, more);
      }),
    );
  const apart = plan(twoSubLinesRoute([[0, 1], [2, 3]], 2, { generations: 4, parentGenerations: 4 })); // prettier-ignore

  it('never depends on the order of spawns, and never uses one twice', () => {
    fc.assert(
      fc.property(someSpawns, fc.constantFrom(three, apart), (spawns, of) => {
        const course = planCourse(of, events(spawns));
        expect(planCourse(of, events(spawns.toReversed()))).toEqual(course);
        const used = course.steps.flatMap(({ spawnId }) => spawnId ?? []);
        expect(new Set(used).size).toBe(used.length);
      }),
    );
  });

  it('goes through a brood only after those that its parents come from', () => {
    fc.assert(
      fc.property(someSpawns, fc.constantFrom(three, apart), (spawns, of) => {
        const { steps } = planCourse(of, events(spawns));
        for (const { state, brood } of steps) {
          const parents = [of.broods[brood]!.sire, of.broods[brood]!.dam];
          const ready = parents.every(
            (one) => one.kind === 'fish' || steps[one.brood]!.state === 'done',
          );
          expect(state === 'later').toBe(!ready);
        }
      }),
    );
  });

  it('only gets later as time goes on', () => {
    fc.assert(
      fc.property(someSpawns, fc.nat(400), fc.nat(400), (spawns, a, b) => {
        const late = (days: number): number => {
          const today = new Date(Date.UTC(2026, 0, 1 + days)).toISOString().slice(0, 10);
          return kinds(planCourse(three, events(spawns, { today }))).filter((one) => one === 'late')
            .length;
        };
        expect(late(Math.min(a, b))).toBeLessThanOrEqual(late(Math.max(a, b)));
      }),
    );
  });
});
