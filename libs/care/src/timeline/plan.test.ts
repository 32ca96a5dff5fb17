import { describe, expect, it } from 'vitest';
import { CareError } from '../care-error.js';
import { checkTemplate } from './check-template.js';
import { electricityCaution, neverAcidCaution, tapWaterCaution } from '../water/cautions.js';
import { defaultTemplate } from './default-template.js';
import { outOfOrder } from './log-order.js';
import { occurrences } from './occurrences.js';
import { HOUR } from '../time-units.js';
import type { CareRecord } from './plan-shapes.js';
import { carePlan } from './plan.js';
import { figuresBeside, publishedFigures } from './published-figures.js';
import type { CareTemplate } from './template.js';

const start = Date.parse('2026-03-10T12:00:00Z');
const at = (hours: number): number => start + hours * HOUR;
const record = (step: string, hours: number, action?: 'skipped'): CareRecord => ({
  id: `${step}@${hours}`,
  step,
  at: at(hours),
  ...(action !== undefined && { action }),
});
const planAt = (hours: number, ...records: CareRecord[]) =>
  carePlan({ template: defaultTemplate, records, now: at(hours) });
const stepOf = (plan: ReturnType<typeof planAt>, id: string) => {
  const found = plan.steps.find((planned) => planned.step.id === id);
  if (found === undefined) throw new Error(`no step ${id}`);
  return found;
};
const hoursOf = (plan: ReturnType<typeof planAt>, id: string): number | undefined => {
  const window = stepOf(plan, id).window;
  return window === null ? undefined : (window.about - start) / HOUR;
};

describe('the default template', () => {
  it('is sound, and every step says that it is practice', () => {
    expect(checkTemplate(defaultTemplate)).toEqual([]);
    expect(new Set(defaultTemplate.steps.map((step) => step.basis.kind))).toEqual(
      new Set(['practice']),
    );
  });

  // Common practice, no source: the offsets that breeders give, counted from spawning at hour 0.
  it('counts from spawning as breeders do', () => {
    const plan = planAt(1, record('spawned', 0));
    expect(hoursOf(plan, 'dam_out')).toBe(0);
    expect(hoursOf(plan, 'eyed')).toBe(24);
    expect(hoursOf(plan, 'hatched')).toBe(48);
    expect(hoursOf(plan, 'free_swimming')).toBe(72);
    expect(hoursOf(plan, 'sire_out')).toBe(72);
    expect(hoursOf(plan, 'brine_shrimp_set')).toBe(96);
    expect(hoursOf(plan, 'first_food')).toBe(120);
    expect(hoursOf(plan, 'moved')).toBe(144);
    expect(hoursOf(plan, 'helpers')).toBe(168);
  });

  // Common practice, no source: the same for the pairing, counted from the decision.
  it('counts the pairing as breeders do', () => {
    const plan = planAt(0, record('decided', 0));
    const from = (id: string, anchor: string) =>
      (hoursOf(plan, id) ?? Number.NaN) - (hoursOf(plan, anchor) ?? Number.NaN);
    // Water has stood about a week when the pair is brought together.
    expect(from('side_by_side', 'water_set')).toBe(7 * 24);
    expect(from('sire_settled', 'side_by_side')).toBe(24);
    expect(from('introduced', 'sire_settled')).toBe(0.5);
    expect(from('released', 'nest')).toBe(0);
    // Let out about the second day after the tanks were stood side by side.
    expect(from('released', 'side_by_side')).toBeCloseTo(48, -1);
    expect(stepOf(plan, 'released').waitsFor).toEqual(['nest']);
    expect(stepOf(plan, 'introduced').step.title).toContain('clear enclosure');
    expect(stepOf(plan, 'dam_out').step.title).toContain('cover the tank');
    for (const id of ['side_by_side', 'introduced', 'released', 'spawned', 'dam_out']) {
      expect(stepOf(plan, id).step.caution).toContain('kept apart');
    }
  });

  it('sets more water aside as soon as fry hatch, and tops up every few days once they are moved', () => {
    const raised = [record('hatched', 0), record('free_swimming', 30), record('moved', 96)];
    expect(hoursOf(planAt(97, ...raised), 'water_set_again')).toBe(0);
    expect(hoursOf(planAt(97, ...raised), 'topped_up')).toBe(96 + 72);
    expect(hoursOf(planAt(200, ...raised, record('topped_up', 170)), 'topped_up')).toBe(170 + 72);
  });

  it('sets brine shrimp to hatch 24 hours before they are due', () => {
    const plan = planAt(50, record('spawned', 0), record('hatched', 40));
    const fed = hoursOf(plan, 'first_food') ?? Number.NaN;
    expect(fed - (hoursOf(plan, 'brine_shrimp_set') ?? Number.NaN)).toBe(24);
  });

  it('has a window for hatching that holds every published figure for it', () => {
    const window = stepOf(planAt(1, record('spawned', 0)), 'hatched').window;
    for (const figure of figuresBeside('hatched')) {
      expect(at(figure.from)).toBeGreaterThanOrEqual(window?.from ?? Infinity);
      expect(at(figure.to)).toBeLessThanOrEqual(window?.to ?? -Infinity);
    }
    for (const figure of publishedFigures) {
      expect(figure.citation).not.toBe('');
      expect(figure.conditions).not.toBe('');
    }
  });
});

describe('a plan follows the events', () => {
  it('moves what hangs on an early hatch, and says by how much', () => {
    const plan = planAt(40, record('spawned', 0), record('hatched', 30));
    const swim = stepOf(plan, 'free_swimming');
    expect(hoursOf(plan, 'free_swimming')).toBe(54);
    expect(swim.reasons).toEqual([
      {
        after: 'hatched',
        at: at(30),
        certainty: 'recorded',
        dayOnly: false,
        hours: 24,
        decides: true,
        moved: -18,
      },
    ]);
  });

  it('calls nothing sooner or later than expected where the expectation is a guess', () => {
    // Only the spawning was written down: what led to it was never expected at any hour.
    const plan = planAt(10, record('decided', 0), record('spawned', 0));
    expect(stepOf(plan, 'hatched').reasons[0]).toMatchObject({ after: 'spawned', moved: null });
  });

  it('a missed event moves the rest on with the time that goes by, and calls nothing due', () => {
    const plan = planAt(100, record('spawned', 0));
    expect(stepOf(plan, 'hatched').state).toBe('overdue');
    expect(hoursOf(plan, 'free_swimming')).toBe(124);
    expect(stepOf(plan, 'free_swimming').state).toBe('upcoming');
    expect(stepOf(plan, 'free_swimming').waitsFor).toEqual(['hatched']);
  });

  it('takes an event that a later one shows to be past as gone by, no later than that', () => {
    const plan = planAt(90, record('spawned', 0), record('free_swimming', 40));
    expect(stepOf(plan, 'hatched')).toMatchObject({
      state: 'no-longer',
      noLonger: { because: 'past', by: 'free_swimming' },
    });
    // The hatch was expected at hour 48, but the fry swam at hour 40.
    expect(hoursOf(plan, 'first_food')).toBe(40 + 72);
    expect(stepOf(plan, 'first_food').reasons[0]).toMatchObject({ certainty: 'estimated' });
    // Nobody said that she was taken out: that stays.
    expect(stepOf(plan, 'dam_out').state).toBe('overdue');
  });

  it('gives no food before the fry swim', () => {
    const late = planAt(150, record('spawned', 0), record('hatched', 48));
    expect(stepOf(late, 'first_food')).toMatchObject({
      state: 'upcoming',
      waitsFor: ['free_swimming'],
    });
  });

  it('asks again for what is repeated, from the time it was last done, and stops at jarring', () => {
    const raised = [record('hatched', 0), record('free_swimming', 30), record('first_food', 72)];
    expect(hoursOf(planAt(90, ...raised), 'siphoned')).toBe(96);
    const done = planAt(100, ...raised, record('siphoned', 97));
    expect(stepOf(done, 'siphoned')).toMatchObject({ state: 'upcoming', index: 1 });
    expect(hoursOf(done, 'siphoned')).toBe(121);
    const jarred = planAt(1300, ...raised, record('jarred', 1200));
    expect(stepOf(jarred, 'siphoned').state).toBe('no-longer');
  });

  it('stops asking for a daily step that nobody writes down, until it is written down again', () => {
    const raised = [record('hatched', 0), record('free_swimming', 30), record('first_food', 72)];
    expect(stepOf(planAt(24 * 7, ...raised), 'siphoned').state).toBe('overdue');
    expect(stepOf(planAt(24 * 9, ...raised), 'siphoned').noLonger?.because).toBe('lapsed');
    const again = planAt(24 * 9 + 1, ...raised, record('siphoned', 24 * 9));
    expect(stepOf(again, 'siphoned').state).toBe('upcoming');
  });

  it('clears leftovers about an hour after each feed, once', () => {
    const raised = [record('hatched', 0), record('free_swimming', 30), record('first_food', 72)];
    expect(hoursOf(planAt(73, ...raised), 'leftovers_cleared')).toBe(73);
    const cleared = [...raised, record('leftovers_cleared', 73.5)];
    expect(stepOf(planAt(74, ...cleared), 'leftovers_cleared').window).toBeNull();
    const again = planAt(97.5, ...cleared, record('fed', 96));
    expect(stepOf(again, 'leftovers_cleared')).toMatchObject({ state: 'due', index: 2 });
    expect(hoursOf(again, 'leftovers_cleared')).toBe(97);
    expect(
      stepOf(planAt(120, ...cleared, record('fed', 96)), 'leftovers_cleared').window,
    ).toBeNull();
  });

  it('ends with a failed spawn, and goes on when that is taken back', () => {
    const spawned = [record('spawned', 0), record('dam_out', 2)];
    const failed = planAt(60, ...spawned, record('failed', 50));
    expect(failed.ended).toEqual({ by: 'failed', at: at(50) });
    expect(new Set(failed.steps.map((planned) => planned.state))).toEqual(
      new Set(['done', 'no-longer']),
    );
    expect(stepOf(planAt(60, ...spawned), 'hatched').state).toBe('due');
  });

  it('a step left out with a reason lets the next go on', () => {
    const plan = planAt(30, record('decided', 0), record('conditioning', 1, 'skipped'));
    expect(stepOf(plan, 'conditioning').state).toBe('skipped');
    expect(stepOf(plan, 'side_by_side').waitsFor).toEqual(['water_set']);
  });

  it('keeps asking for food, water, warmth and room once the young are in jars', () => {
    const raised = [record('hatched', 0), record('jarred', 1200)];
    const jars = ['jars_fed', 'jars_warm', 'jars_changed', 'jars_roomy'];
    const states = (hours: number, ...more: CareRecord[]) =>
      jars.map((id) => stepOf(planAt(hours, ...raised, ...more), id).state);
    expect(states(1214)).toEqual(['due', 'due', 'upcoming', 'upcoming']);
    expect(states(1200 + 24 * 2.5)).toEqual(['overdue', 'overdue', 'due', 'upcoming']);
    expect(states(1200 + 24 * 14)[3]).toBe('due');
    // The last sorting ends none of it: the fish still live in jars.
    expect(states(1214, record('sorted', 1210))).toEqual(['due', 'due', 'upcoming', 'upcoming']);
    expect(states(1214, record('finished', 1212))).toEqual(Array(4).fill('no-longer'));
    expect(jars.map((id) => stepOf(planAt(100, record('hatched', 0)), id).state)).toEqual(
      Array(4).fill('upcoming'),
    );
  });

  it('asks for treated water wherever it asks for new water, and for care with electricity', () => {
    const cautionOf = (id: string) => defaultTemplate.steps.find((step) => step.id === id)?.caution;
    const asksForWater = ['water_set', 'water_set_again', 'topped_up', 'siphoned', 'moved'];
    for (const id of [...asksForWater, 'jars_changed']) {
      expect(cautionOf(id), id).toContain(tapWaterCaution);
    }
    for (const id of [
      'sire_settled',
      'siphoned',
      'moved',
      'dam_out',
      'sire_out',
      'leftovers_cleared',
      'brine_shrimp_set',
      'jars_warm',
      'jars_changed',
    ]) {
      expect(cautionOf(id), id).toContain(electricityCaution);
    }
    // A jar has no filter: what new water does to its ammonia is told there as in the tank.
    for (const id of ['topped_up', 'jars_changed', 'siphoned', 'moved']) {
      expect(cautionOf(id), id).toContain('higher pH makes ammonia more poisonous');
      expect(cautionOf(id), id).toContain(neverAcidCaution);
    }
    for (const { id, title, caution } of defaultTemplate.steps) {
      if (/\bwater\b/i.test(title)) expect(caution, id).toContain('chloramine');
    }
  });

  it('says that snails come out only where they went in', () => {
    const raised = [record('hatched', 0), record('jarred', 1200)];
    expect(stepOf(planAt(1250, ...raised), 'helpers_out').noLonger).toEqual({
      because: 'not-needed',
      without: 'helpers',
    });
    expect(stepOf(planAt(1250, ...raised, record('helpers', 130)), 'helpers_out').state).toBe(
      'due',
    );
  });

  it('lists the coming days, repeated steps each day, under keys that stay', () => {
    const raised = [record('hatched', 0), record('free_swimming', 30), record('first_food', 72)];
    const keys = (plan: ReturnType<typeof planAt>) =>
      occurrences(plan, at(72 + 75)).flatMap(({ key }) =>
        key.startsWith('siphoned') ? [key] : [],
      );
    expect(keys(planAt(80, ...raised))).toEqual(['siphoned.0', 'siphoned.1', 'siphoned.2']);
    expect(keys(planAt(97, ...raised, record('siphoned', 96)))).toEqual([
      'siphoned.1',
      'siphoned.2',
    ]);
  });
});

describe('what only a day is known of', () => {
  it('is told in the reasons that hang on it', () => {
    const spawned = { ...record('spawned', 0), dayOnly: true };
    const reason = (id: string, ...records: CareRecord[]) =>
      stepOf(planAt(10, ...records), id).reasons[0]?.dayOnly;
    expect(reason('hatched', spawned)).toBe(true);
    expect(reason('hatched', record('spawned', 0))).toBe(false);
    // What is expected of a guess is not itself a day that was written down.
    expect(reason('free_swimming', spawned)).toBe(false);
  });
});

describe('events out of order', () => {
  const pairs = (...records: CareRecord[]) =>
    outOfOrder(records).map(({ earlier, later }) => [later.step, earlier.step]);
  it('are told in pairs, whatever order they came in, and a brood in order tells nothing', () => {
    const log = [record('spawned', 0), record('hatched', 30), record('free_swimming', 60)];
    expect(pairs(...log)).toEqual([]);
    expect(pairs(...[...log, record('jarred', 50)].reverse())).toEqual([
      ['jarred', 'free_swimming'],
    ]);
    expect(pairs(record('hatched', 30), record('spawned', 40), record('spawned', 20))).toEqual([]);
    expect(pairs(record('hatched', 30), record('spawned', 40))).toEqual([['hatched', 'spawned']]);
  });
});

describe('bad input', () => {
  const bad: CareTemplate = {
    name: ' ',
    steps: [
      { ...base('a'), after: [{ after: 'b', hours: 1 }] },
      { ...base('b'), after: [{ after: 'a', hours: 1 }] },
      { ...base('b'), after: [{ after: 'moonrise', hours: -3 }] },
      { ...base('Not an id'), title: '', after: [] },
      { ...base('c'), after: [{ after: 'spawned', hours: 5, earliest: 6 }] },
      { ...base('d'), after: [{ after: 'spawned', hours: Number.NaN }] },
      { ...base('e'), after: [{ after: 'spawned', hours: 1 }], repeat: { everyHours: 0 } },
    ],
  };
  function base(id: string) {
    return { id, title: id, kind: 'do' as const, why: '', basis: { kind: 'own' as const } };
  }

  it('tells every problem of a template at once, a cycle spelled out', () => {
    const problems = checkTemplate(bad);
    expect(problems.map((p) => p.code).sort()).toEqual(
      [
        'NO_NAME',
        'ID_TWICE',
        'UNKNOWN_ANCHOR',
        'BAD_OFFSET',
        'BAD_ID',
        'NO_TITLE',
        'NO_START',
        'BAD_OFFSET',
        'BAD_OFFSET',
        'BAD_REPEAT',
      ].sort(),
    );
    const circle = checkTemplate({ ...bad, name: 'x', steps: bad.steps.slice(0, 2) });
    expect(circle.map((p) => p.message).join()).toContain('a → b → a');
  });

  it('refuses to plan by it, with the problems in the error', () => {
    const planning = () => carePlan({ template: bad, records: [], now: start });
    expect(planning).toThrow(CareError);
    expect(() =>
      carePlan({
        template: defaultTemplate,
        records: [{ id: '1', step: 'spawned', at: NaN }],
        now: start,
      }),
    ).toThrow(/milliseconds/);
  });
});
