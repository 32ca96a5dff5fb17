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
  splitChange,
  afterRepeatedChanges,
  unionisedShare,
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

  it('split into steps it ends where one exchange would', () => {
    check(
      fc.property(
        amount,
        amount,
        fc.double({ min: 0, max: 0.99, noNaN: true }),
        fc.double({ min: 0.05, max: 1, noNaN: true }),
        (before, source, share, most) => {
          const { times, each } = splitChange(share, most);
          expect(each).toBeLessThanOrEqual(most + 1e-9);
          expect(afterRepeatedChanges(before, each, source, times)).toBeCloseTo(
            afterChange(before, share, source),
            6,
          );
        },
      ),
    );
  });

  it('a planned change holds the limit in the mix, and a slightly smaller one does not', () => {
    check(
      fc.property(
        amount,
        pH,
        celsius,
        amount,
        pH,
        celsius,
        fc.double({ min: 0.001, max: 0.1, noNaN: true }),
        (t, p, c, st, sp, sc, limit) => {
          const tank = { total: ammoniaNitrogen(t, 'N'), pH: p, celsius: c };
          const source = { total: ammoniaNitrogen(st, 'N'), pH: sp, celsius: sc };
          const plan = planChange(tank, source, limit as AmmoniaNitrogen);
          if (plan.share === null) {
            for (const share of [0, 0.25, 0.5, 0.75, 1]) {
              expect(mix(tank, source, share).unionisedAtMost).toBeGreaterThan(limit);
            }
          } else {
            expect(plan.after!.unionisedAtMost).toBeLessThanOrEqual(limit);
            if (plan.share > 0.01) {
              expect(mix(tank, source, plan.share - 0.002).unionisedAtMost).toBeGreaterThan(limit);
            }
          }
        },
      ),
      200,
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
