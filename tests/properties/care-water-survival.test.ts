import {
  type AmmoniaNitrogen,
  type BroodRecord,
  CareError,
  afterChange,
  ammoniaIn,
  ammoniaNitrogen,
  ammoniaUnits,
  bandOf,
  broodLives,
  compareWithPast,
  kaplanMeier,
  labelPlaces,
  livesForEstimate,
  mix,
  neededChange,
  pageSizes,
  planChange,
  plainGrids,
  pooledSurvival,
  afterRepeatedChanges,
  unionisedShare,
  usualShare,
} from '@linewright/care';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const SEED = 1_764_073;
const check = (property: fc.IProperty<unknown[]>, runs = 300): void => {
  fc.assert(property as fc.IProperty<[unknown]>, { seed: SEED, numRuns: runs });
};

const pH = fc.double({ min: 4.5, max: 10.5, noNaN: true });
const celsius = fc.double({ min: 0, max: 49, noNaN: true });
const amount = fc.double({ min: 0, max: 20, noNaN: true });

describe(`water, seed ${SEED}`, () => {
  it('the un-ionised share lies in 0..1 and rises with pH and temperature', () => {
    check(
      fc.property(pH, celsius, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (p, c, more) => {
        const share = unionisedShare({ pH: p, celsius: c });
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThan(1);
        expect(unionisedShare({ pH: p + more, celsius: c })).toBeGreaterThan(share);
        expect(unionisedShare({ pH: p, celsius: c + more })).toBeGreaterThan(share);
      }),
    );
  });

  it('a unit and back is the same amount', () => {
    check(
      fc.property(amount, fc.constantFrom(...ammoniaUnits), (value, unit) => {
        expect(ammoniaIn(ammoniaNitrogen(value, unit), unit)).toBeCloseTo(value, 9);
      }),
    );
  });

  it('the needed change, made, reaches the target', () => {
    check(
      fc.property(amount, amount, amount, (before, target, source) => {
        const needed = neededChange(before, target, source);
        if (needed.possible) {
          const after = afterChange(before, needed.share, source);
          expect(after).toBeLessThanOrEqual(target + 1e-9);
          if (needed.share > 0) expect(after).toBeCloseTo(target, 6);
        } else {
          // No exchange, however large, gets there.
          expect(Math.min(before, source)).toBeGreaterThanOrEqual(target);
        }
      }),
    );
  });

  it('repeated changes are one change of what they come to', () => {
    check(
      fc.property(
        amount,
        amount,
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.integer({ min: 1, max: 10 }),
        (before, source, each, times) => {
          let tank = before;
          for (let n = 0; n < times; n += 1) tank = afterChange(tank, each, source);
          expect(afterRepeatedChanges(before, each, source, times)).toBeCloseTo(tank, 9);
          expect(afterChange(before, 1 - (1 - each) ** times, source)).toBeCloseTo(tank, 9);
        },
      ),
    );
  });

  /** The bound told anew, from the shares alone: no function of the plan is leaned on. */
  const worst = (tank: Water, source: Water, total: number, warmest: number): number =>
    total * unionisedShare({ pH: Math.max(tank.pH, source.pH), celsius: warmest });

  interface Water {
    readonly total: AmmoniaNitrogen;
    readonly pH: number;
    readonly celsius: number;
  }
  const water = (most: number): fc.Arbitrary<Water> =>
    fc.record({
      total: fc.double({ min: 0, max: most, noNaN: true }).map((n) => ammoniaNitrogen(n, 'N')),
      pH: fc.oneof(fc.double({ min: 6, max: 9, noNaN: true }), pH),
      celsius: fc.oneof(fc.double({ min: 20, max: 32, noNaN: true }), celsius),
    });
  const limitOf = fc.double({ min: 0.001, max: 0.1, noNaN: true });

  it('nothing offered stands above the start after any step, and it ends under the limit', () => {
    const seen = { OFFERED: 0, WORSE_ON_THE_WAY: 0, IMPOSSIBLE: 0, NOT_NEEDED: 0 };
    check(
      fc.property(water(10), water(0.5), limitOf, (tank, source, limit) => {
        const plan = planChange(tank, source, limit as AmmoniaNitrogen);
        const now = tank.total * unionisedShare(tank);
        seen[plan.outcome] += 1;
        expect(plan.outcome === 'NOT_NEEDED').toBe(now <= limit);
        expect(plan.steps === null).toBe(plan.outcome !== 'OFFERED');
        if (plan.steps === null) return;
        const { times, each, after } = plan.steps;
        expect(each).toBeLessThanOrEqual(0.5);
        expect(after).toHaveLength(times);
        let [total, warmth] = [tank.total as number, tank.celsius];
        for (const step of after) {
          total = total * (1 - each) + source.total * each;
          warmth = warmth * (1 - each) + source.celsius * each;
          const bound = worst(tank, source, total, Math.max(tank.celsius, warmth));
          expect(step.unionisedAtMost).toBeCloseTo(bound, 9);
          expect(bound).toBeLessThanOrEqual(now * (1 + 1e-9));
          // While new water goes in, nothing is diluted yet: at most twice the start.
          expect(plan.rise?.atMost ?? now).toBeLessThanOrEqual(2 * now * (1 + 1e-9));
        }
        expect(after.at(-1)!.unionisedAtMost).toBeLessThanOrEqual(limit);
      }),
      3_000,
    );
    // A plan that never offers, or always does, would prove nothing.
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(20);
  });

  it('what is not offered has no equal steps that would do, and a smaller change than offered would not', () => {
    check(
      fc.property(water(10), water(0.5), limitOf, (tank, source, limit) => {
        const plan = planChange(tank, source, limit as AmmoniaNitrogen);
        const now = tank.total * unionisedShare(tank);
        if (plan.outcome === 'NOT_NEEDED') return;
        const does = (times: number, each: number): boolean => {
          const after = Array.from(
            { length: times },
            (_, n) => mix(tank, source, 1 - (1 - each) ** (n + 1)).unionisedAtMost,
          );
          return after.at(-1)! <= limit && Math.max(...after) <= now;
        };
        const most = plan.steps?.times ?? 11;
        for (let times = 1; times < most; times += 1) {
          for (let n = 1; n <= 50; n += 7) expect(does(times, n / 100)).toBe(false);
          expect(does(times, 0.5)).toBe(false);
        }
        if (plan.steps !== null && plan.steps.each > 0.011) {
          expect(does(plan.steps.times, plan.steps.each - 0.01)).toBe(false);
        }
      }),
      400,
    );
  });

  it('tells of every rise that new water can bring, whether or not a change is needed', () => {
    let [without, unneeded] = [0, 0];
    check(
      fc.property(
        water(10),
        water(2),
        limitOf,
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        (tank, source, limit, share) => {
          const plan = planChange(tank, source, limit as AmmoniaNitrogen);
          const now = tank.total * unionisedShare(tank);
          const after = mix(tank, source, share).unionisedAtMost;
          // Shares between the hundredths can pass the highest of them by a hair.
          expect(after).toBeLessThanOrEqual((plan.rise?.atMost ?? now) * 1.001 + 1e-12);
          if (plan.rise === null) without += 1;
          else {
            if (plan.outcome === 'NOT_NEEDED') unneeded += 1;
            expect(plan.rise.atMost).toBeGreaterThan(now);
            expect(plan.rise.afterUsual).toBe(mix(tank, source, usualShare).unionisedAtMost);
          }
        },
      ),
      1_000,
    );
    expect(without).toBeGreaterThan(50);
    expect(unneeded).toBeGreaterThan(50);
  });

  it('charge balance: two waters mixed never stand above the higher pH of the two', () => {
    // Carbonate system at 25 degrees C (pK 6.35, 10.33, water 14.0: usual textbook values, from memory), closed.
    const [k1, k2, kw] = [10 ** -6.35, 10 ** -10.33, 1e-14];
    const charges = (ph: number, carbon: number): number => {
      const h = 10 ** -ph;
      const whole = h * h + k1 * h + k1 * k2;
      return (carbon * (k1 * h + 2 * k1 * k2)) / whole + kw / h - h;
    };
    const phOf = (alkalinity: number, carbon: number): number => {
      let [low, high] = [0, 14];
      for (let turn = 0; turn < 60; turn += 1) {
        const middle = (low + high) / 2;
        if (charges(middle, carbon) < alkalinity) low = middle;
        else high = middle;
      }
      return low;
    };
    const carbon = fc.double({ min: 0, max: 0.01, noNaN: true });
    check(
      fc.property(
        pH,
        carbon,
        pH,
        carbon,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (p1, c1, p2, c2, share) => {
          const alkalinity = charges(p1, c1) * (1 - share) + charges(p2, c2) * share;
          const mixed = phOf(alkalinity, c1 * (1 - share) + c2 * share);
          expect(mixed).toBeLessThanOrEqual(Math.max(p1, p2) + 1e-6);
          expect(mixed).toBeGreaterThanOrEqual(Math.min(p1, p2) - 1e-6);
        },
      ),
    );
  });

  it('refuses what no tank reads, and says what', () => {
    for (const state of [
      { pH: 7, celsius: -1 },
      { pH: 7, celsius: 51 },
      { pH: 3.9, celsius: 25 },
      { pH: 11.1, celsius: 25 },
    ]) {
      expect(() => unionisedShare(state)).toThrow(CareError);
    }
    // 78 degrees F is a tank, 78 degrees C is none; 212 is none in either.
    expect(() => unionisedShare({ pH: 7, celsius: 78 })).toThrow(/°F: that is 25\.6 °C/);
    expect(() => unionisedShare({ pH: 7, celsius: 212 })).toThrow(/give a value from 0 to 50\.$/);
    for (const pH of [0, 14, 15]) {
      expect(() => unionisedShare({ pH, celsius: 25 })).toThrow(/give a value from 4 to 11/);
    }
    expect(() => unionisedShare({ pH: Number.NaN, celsius: 25 })).toThrow(/give a number/);
    expect(() => ammoniaNitrogen(-0.1, 'N')).toThrow(/-0.1/);
  });
});

const brood: fc.Arbitrary<BroodRecord> = fc.record({
  start: fc.record({
    day: fc.constant(100),
    number: fc.integer({ min: 0, max: 300 }),
    label: fc.constant('hatched'),
  }),
  counts: fc.array(
    fc.record({
      day: fc.integer({ min: 90, max: 300 }),
      number: fc.integer({ min: 0, max: 320 }),
      label: fc.constant('counted'),
    }),
    { maxLength: 6 },
  ),
  departures: fc.array(
    fc.record({
      day: fc.integer({ min: 90, max: 300 }),
      number: fc.integer({ min: 0, max: 90 }),
      kind: fc.constantFrom('died' as const, 'culled' as const, 'placed' as const),
    }),
    { maxLength: 10 },
  ),
});

describe(`survival, seed ${SEED}`, () => {
  it('every fish is accounted for once, whatever was written down', () => {
    check(
      fc.property(brood, (record) => {
        const lives = broodLives(record);
        const gone = lives.days.reduce(
          (sum, day) => sum + day.died + day.missing + day.culled + day.placed,
          0,
        );
        expect(gone + lives.left).toBe(record.start.number);
        for (const reading of ['all-losses', 'deaths-only'] as const) {
          const days = livesForEstimate(lives, reading);
          expect(days.reduce((sum, day) => sum + day.deaths + day.withdrawn, 0)).toBe(
            record.start.number,
          );
        }
      }),
    );
  });

  it('never rises, stays in 0..1 and within its interval; culls counted as losses lie at or below', () => {
    check(
      fc.property(brood, (record) => {
        const lives = broodLives(record);
        const all = kaplanMeier(lives.started, livesForEstimate(lives, 'all-losses'));
        const deaths = kaplanMeier(lives.started, livesForEstimate(lives, 'deaths-only'));
        let before = 1;
        for (const step of all) {
          expect(step.survival).toBeLessThanOrEqual(before);
          expect(step.survival).toBeGreaterThanOrEqual(0);
          before = step.survival;
          if (step.interval !== null) {
            expect(step.interval.low).toBeLessThanOrEqual(step.survival + 1e-12);
            expect(step.interval.high).toBeGreaterThanOrEqual(step.survival - 1e-12);
            expect(step.interval.low).toBeGreaterThanOrEqual(0);
            expect(step.interval.high).toBeLessThanOrEqual(1);
          }
        }
        all.forEach((step, i) =>
          expect(step.survival).toBeLessThanOrEqual(deaths[i]!.survival + 1e-12),
        );
      }),
    );
  });

  it('tells of a count that rose, and of nothing in a record that adds up', () => {
    const sound = broodLives({
      start: { day: 0, number: 100, label: 'hatched' },
      counts: [{ day: 14, number: 70, label: 'two weeks' }],
      departures: [{ day: 10, number: 20, kind: 'died' }],
    });
    expect(sound.warnings).toEqual([]);
    expect(sound.days).toContainEqual({
      day: 14,
      died: 0,
      missing: 10,
      culled: 0,
      placed: 0,
      since: 0,
    });
    const rising = broodLives({
      start: { day: 0, number: 100, label: 'eggs' },
      counts: [{ day: 2, number: 120, label: 'hatched' }],
      departures: [{ day: 5, number: 130, kind: 'died' }],
    });
    expect(rising.warnings.map(({ code }) => code)).toEqual(['COUNT_ROSE', 'MORE_LOST_THAN_THERE']);
    expect(rising.left).toBe(0);
  });

  it('pooled past spawns are one large brood, and the band holds the middle', () => {
    check(
      fc.property(fc.array(brood, { minLength: 2, maxLength: 6 }), (records) => {
        const broods = records.map((record) => broodLives(record));
        const pooled = pooledSurvival(broods, 'all-losses');
        expect(pooled[0]?.atRisk ?? 0).toBe(
          pooled.length === 0 ? 0 : broods.reduce((sum, one) => sum + one.started, 0),
        );
        for (const point of bandOf(broods, 'all-losses')) {
          expect(point.low).toBeLessThanOrEqual(point.middle);
          expect(point.middle).toBeLessThanOrEqual(point.high);
          expect(point.spawns).toBeGreaterThanOrEqual(2);
        }
      }),
      150,
    );
  });

  it('places a spawn below, within and above what came before', () => {
    const of = (left: number) =>
      broodLives({
        start: { day: 0, number: 100, label: 'hatched' },
        counts: [{ day: 14, number: left, label: 'two weeks' }],
        departures: [],
      });
    const band = bandOf([of(60), of(65), of(70)], 'all-losses');
    const place = (left: number) => {
      const lives = of(left);
      const steps = kaplanMeier(100, livesForEstimate(lives, 'all-losses'));
      return compareWithPast(steps, lives.lastDay, band)?.place;
    };
    expect([place(20), place(66), place(95)]).toEqual(['below', 'within', 'above']);
  });
});

describe(`label sheets, seed ${SEED}`, () => {
  const sheet = fc
    .record({
      page: fc.constantFrom('A4' as const, 'LETTER' as const),
      rows: fc.integer({ min: 1, max: 20 }),
      columns: fc.integer({ min: 1, max: 8 }),
      labelWidth: fc.double({ min: 15, max: 120, noNaN: true }),
      labelHeight: fc.double({ min: 10, max: 120, noNaN: true }),
      marginTop: fc.double({ min: 0, max: 20, noNaN: true }),
      marginLeft: fc.double({ min: 0, max: 20, noNaN: true }),
      gapX: fc.double({ min: 0, max: 5, noNaN: true }),
      gapY: fc.double({ min: 0, max: 5, noNaN: true }),
    })
    .chain((one) => fc.tuple(fc.constant(one), fc.nat(one.rows * one.columns - 1)));

  it('labels lie on the page and apart, or the sheet is refused', () => {
    let fitted = 0;
    check(
      fc.property(sheet, ([one, skip]) => {
        let places;
        try {
          places = labelPlaces(one, 30, skip);
        } catch (error) {
          expect(error).toBeInstanceOf(CareError);
          return;
        }
        fitted += 1;
        const page = pageSizes[one.page];
        places.forEach((a, i) => {
          expect(a.x + a.width).toBeLessThanOrEqual(page.width + 0.051);
          expect(a.y + a.height).toBeLessThanOrEqual(page.height + 0.051);
          for (const b of places.slice(i + 1)) {
            const apart =
              a.page !== b.page ||
              a.x + a.width <= b.x + 1e-9 ||
              b.x + b.width <= a.x + 1e-9 ||
              a.y + a.height <= b.y + 1e-9 ||
              b.y + b.height <= a.y + 1e-9;
            expect(apart).toBe(true);
          }
        });
      }),
      600,
    );
    expect(fitted).toBeGreaterThan(20);
  });

  it('the grids to start from all fit', () => {
    for (const { id, sheet: grid } of plainGrids) {
      expect(labelPlaces(grid, 1), id).toHaveLength(1);
    }
  });
});
