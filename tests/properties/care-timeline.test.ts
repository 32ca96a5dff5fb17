import {
  HOUR,
  carePlan,
  checkTemplate,
  defaultTemplate,
  occurrences,
  spawnEvents,
  type CareRecord,
  type CarePlan,
  type CareStep,
  type CareTemplate,
  type PlannedStep,
} from '@linewright/care';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const SEED = 20261125;
const runs = (numRuns: number): fc.Parameters<unknown> => ({ seed: SEED, numRuns });
const START = Date.parse('2026-03-01T00:00:00Z');

/** Any template that follows the rules: each step hangs on earlier ones or on events, in shuffled order. */
const anyTemplate: fc.Arbitrary<CareTemplate> = fc
  .array(
    fc.record({
      anchors: fc.array(fc.nat(), { minLength: 1, maxLength: 3 }),
      onEvent: fc.boolean(),
      asEvent: fc.boolean(),
      hours: fc.tuple(fc.nat(100), fc.nat(100), fc.nat(100)),
      every: fc.option(fc.integer({ min: 1, max: 72 }), { nil: undefined, freq: 3 }),
      eachTime: fc.boolean(),
      until: fc.option(fc.nat(), { nil: undefined, freq: 3 }),
      lapse: fc.option(fc.nat(200), { nil: undefined, freq: 3 }),
    }),
    { minLength: 1, maxLength: 14 },
  )
  .chain((rows) => {
    const usable = spawnEvents.filter((event) => event !== 'failed' && event !== 'decided');
    const ids = rows.map((row, i) => (row.asEvent ? (usable[i] ?? `step_${i}`) : `step_${i}`));
    const steps = rows.map((row, i): CareStep => {
      const [earliest = 0, hours = 0, latest = 0] = [...row.hours].sort((a, b) => a - b);
      const anchor = (n: number): string =>
        i === 0 || row.onEvent ? (n % 2 === 0 ? 'decided' : 'failed') : (ids[n % i] ?? 'decided');
      return {
        id: ids[i] ?? '',
        title: `Step ${i}`,
        kind: 'do',
        after: [...new Set(row.anchors.map(anchor))].map((after) => ({
          after: after === 'failed' ? 'decided' : after,
          earliest,
          hours,
          latest,
        })),
        ...(row.every !== undefined && { repeat: { everyHours: row.every } }),
        ...(row.every === undefined &&
          row.eachTime &&
          row.anchors.length > 2 && { eachTime: true }),
        ...(row.until !== undefined && { until: [ids[row.until % ids.length] ?? ''] }),
        ...(row.lapse !== undefined && { lapseHours: row.lapse }),
        why: '',
        basis: { kind: 'own' },
      };
    });
    return fc
      .shuffledSubarray(steps, { minLength: steps.length, maxLength: steps.length })
      .map((shuffled) => ({ name: 'any', steps: shuffled }));
  });

interface Case {
  readonly template: CareTemplate;
  readonly records: readonly CareRecord[];
  readonly now: number;
}

const recordsFor = (template: CareTemplate, noEnd: boolean): fc.Arbitrary<CareRecord[]> =>
  fc
    .array(
      fc.record({
        step: fc.constantFrom(
          ...new Set([
            ...template.steps.map((step) => step.id),
            'decided',
            'failed',
            'finished',
            'unknown',
          ]),
        ),
        at: fc.integer({ min: 0, max: 2000 }),
        skipped: fc.nat(7),
      }),
      { maxLength: 25 },
    )
    .map((rows) =>
      rows
        .map((row, i): CareRecord => ({
          id: `e${i}`,
          step: row.step,
          at: START + row.at * HOUR,
          ...(row.skipped === 0 && { action: 'skipped' as const }),
        }))
        .filter(({ step }) => !noEnd || (step !== 'failed' && step !== 'finished')),
    );

const anyCase = (noEnd = false): fc.Arbitrary<Case> =>
  fc.oneof(anyTemplate, fc.constant(defaultTemplate)).chain((template) =>
    fc.record({
      template: fc.constant(template),
      records: recordsFor(template, noEnd),
      now: fc.integer({ min: 0, max: 2200 }).map((hours) => START + hours * HOUR),
    }),
  );

const open = (plan: CarePlan): PlannedStep[] =>
  plan.steps.filter(({ state }) => ['due', 'overdue', 'upcoming'].includes(state));

describe(`care plans (seed ${SEED})`, () => {
  it('the templates drawn are sound, so that the properties are about plans', () => {
    fc.assert(
      fc.property(anyTemplate, (template) => {
        expect(checkTemplate(template)).toEqual([]);
      }),
      runs(300),
    );
  });

  it('are the same whatever order the records came in, and however often each came', () => {
    fc.assert(
      fc.property(
        anyCase().chain((one) =>
          fc.tuple(
            fc.constant(one),
            fc.shuffledSubarray([...one.records, ...one.records], {
              minLength: one.records.length * 2,
              maxLength: one.records.length * 2,
            }),
          ),
        ),
        ([{ template, records, now }, shuffled]) => {
          expect(carePlan({ template, records: shuffled, now })).toEqual(
            carePlan({ template, records, now }),
          );
        },
      ),
      runs(400),
    );
  });

  it('call nothing due before what it follows, nor before it has happened', () => {
    fc.assert(
      fc.property(anyCase(), (one) => {
        for (const { window, reasons, state, waitsFor } of carePlan(one).steps) {
          if (window === null) continue;
          expect(window.from).toBeLessThanOrEqual(window.about);
          expect(window.about).toBeLessThanOrEqual(window.to);
          for (const reason of reasons) expect(window.from).toBeGreaterThanOrEqual(reason.at);
          expect(reasons.filter((reason) => reason.decides)).toHaveLength(1);
          if (state === 'due' || state === 'overdue') {
            expect(waitsFor).toEqual([]);
            expect(window.from).toBeLessThanOrEqual(one.now);
          }
        }
      }),
      runs(500),
    );
  });

  it('keep the order of steps that wait for one another', () => {
    fc.assert(
      fc.property(anyCase(), (one) => {
        const plan = carePlan(one);
        const byId = new Map(plan.steps.map((planned) => [planned.step.id, planned]));
        for (const planned of open(plan)) {
          for (const waited of planned.waitsFor) {
            const before = byId.get(waited);
            if (before === undefined || planned.step.eachTime === true) continue;
            // A step that has yet to happen is never planned behind one that waits for it.
            if (
              before.window !== null &&
              planned.window !== null &&
              before.step.repeat === undefined
            ) {
              expect(planned.window.about).toBeGreaterThanOrEqual(before.window.about);
            }
          }
        }
      }),
      runs(400),
    );
  });

  it('mark a step done when it is recorded, ask for it no more, and never double it', () => {
    fc.assert(
      fc.property(anyCase(true), fc.nat(), (one, pick) => {
        const before = carePlan(one);
        const open_ = open(before);
        const chosen = open_[pick % Math.max(1, open_.length)];
        if (chosen === undefined) return;
        const record = { id: 'new', step: chosen.step.id, at: one.now };
        const after = carePlan({ ...one, records: [...one.records, record] });
        expect(after.steps.map(({ step }) => step.id)).toEqual(
          before.steps.map(({ step }) => step.id),
        );
        const then = after.steps.find(({ step }) => step.id === chosen.step.id);
        expect(then?.records).toContainEqual(record);
        if (chosen.step.repeat === undefined && chosen.step.eachTime !== true) {
          expect(then?.state).toBe('done');
          expect(
            occurrences(after, one.now + 9000 * HOUR).map(({ planned }) => planned.step.id),
          ).not.toContain(chosen.step.id);
        } else if (chosen.step.repeat !== undefined) {
          expect(then?.index).toBe(chosen.index + 1);
        }
        const keys = occurrences(after, one.now + 500 * HOUR).map(({ key }) => key);
        expect(new Set(keys).size).toBe(keys.length);
      }),
      runs(500),
    );
  });

  it('move with the events: all later by d, the plan later by d', () => {
    const shifted = (value: unknown, by: number): unknown =>
      JSON.parse(
        JSON.stringify(value, (key, each: unknown) =>
          ['at', 'from', 'about', 'to'].includes(key) && typeof each === 'number'
            ? each + by
            : each,
        ),
      );
    fc.assert(
      fc.property(anyCase(), fc.integer({ min: -5000, max: 5000 }), (one, hours) => {
        const d = hours * HOUR;
        const moved = carePlan({
          template: one.template,
          records: one.records.map((record) => ({ ...record, at: record.at + d })),
          now: one.now + d,
        });
        expect(shifted(moved, 0)).toEqual(shifted(carePlan(one), d));
      }),
      runs(300),
    );
  });

  it('are left alone by records that nothing knows', () => {
    fc.assert(
      fc.property(anyCase(), fc.integer({ min: 0, max: 3000 }), (one, hours) => {
        const stray = { id: 'stray', step: 'rained_outside', at: START + hours * HOUR };
        expect(carePlan({ ...one, records: [stray, ...one.records] })).toEqual(carePlan(one));
      }),
      runs(200),
    );
  });

  it('end with a failed spawn: done stays done, the rest is asked for no more', () => {
    fc.assert(
      fc.property(anyCase(), fc.integer({ min: 0, max: 2000 }), (one, hours) => {
        const failed = { id: 'failed', step: 'failed', at: START + hours * HOUR };
        const plan = carePlan({ ...one, records: [...one.records, failed] });
        expect(open(plan)).toEqual([]);
        expect(occurrences(plan, Infinity)).toEqual([]);
        const once = (state: string) =>
          plan.steps
            .filter((planned) => planned.state === state)
            .map((planned) => planned.step.id)
            .sort();
        const before = carePlan({
          ...one,
          records: one.records.filter((e) => e.step !== 'failed'),
        });
        expect(once('done')).toEqual(
          before.steps
            .filter(({ state }) => state === 'done')
            .map(({ step }) => step.id)
            .sort(),
        );
      }),
      runs(300),
    );
  });

  it('an event that comes later never makes what waits for it sooner', () => {
    fc.assert(
      fc.property(fc.integer({ min: 20, max: 200 }), fc.nat(200), (hatched, later) => {
        const planWith = (hours: number) =>
          carePlan({
            template: defaultTemplate,
            records: [
              { id: '1', step: 'spawned', at: START },
              { id: '2', step: 'hatched', at: START + hours * HOUR },
            ],
            now: START + 500 * HOUR,
          });
        const [a, b] = [planWith(hatched), planWith(hatched + later)];
        a.steps.forEach(({ window, step }, i) => {
          const other = b.steps[i]?.window ?? null;
          if (window === null || other === null || step.id === 'hatched') return;
          expect(other.about).toBeGreaterThanOrEqual(window.about);
        });
      }),
      runs(200),
    );
  });
});
