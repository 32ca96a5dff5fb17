import { repeatability, scorerDifferences, sheetTotal } from '@linewright/merit';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const seed = 20_251_125;

const scores = fc.array(
  fc.array(fc.integer({ min: 0, max: 240 }), { minLength: 1, maxLength: 5 }),
  {
    minLength: 2,
    maxLength: 12,
  },
);
const usable = (groups: readonly (readonly number[])[]): boolean =>
  groups.some((group) => group.length > 1) && new Set(groups.flat()).size > 1;

describe(`repeatability, seed ${seed}`, () => {
  it('does not change with unit, zero, order of fish or order of scores', () => {
    fc.assert(
      fc.property(scores.filter(usable), fc.integer({ min: 1, max: 9 }), (groups, factor) => {
        const first = repeatability(groups);
        const turned = repeatability(
          [...groups].reverse().map((group) => [...group].reverse().map((v) => v * factor - 50)),
        );
        expect(turned.repeatability).toBeCloseTo(first.repeatability, 8);
        expect(first.repeatability).toBeLessThanOrEqual(1);
        expect(first.interval.low).toBeLessThanOrEqual(first.repeatability + 1e-9);
        expect(first.interval.high).toBeGreaterThanOrEqual(first.repeatability - 1e-9);
      }),
      { seed, numRuns: 200 },
    );
  });

  // Fisher's own definition for pairs: correlation about the common mean and variance; another way to nearly the same number as pairs grow.
  it('of pairs is the product-moment correlation of the doubled table, up to its degrees of freedom', () => {
    fc.assert(
      fc.property(
        fc
          .array(fc.tuple(fc.integer({ min: 0, max: 99 }), fc.integer({ min: 0, max: 99 })), {
            minLength: 3,
            maxLength: 20,
          })
          .filter(usable),
        (pairs) => {
          const n = pairs.length;
          const all = pairs.flat();
          const mean = all.reduce((a, b) => a + b, 0) / (2 * n);
          const variance = all.reduce((a, b) => a + (b - mean) ** 2, 0) / (2 * n);
          const shared = pairs.reduce((a, [x, y]) => a + (x - mean) * (y - mean), 0) / n / variance;
          // Between n(1 + r')v·/(n - 1), within (1 - r')v, with v the variance above.
          const between = (n * (1 + shared) * variance) / (n - 1);
          const within = (1 - shared) * variance;
          const expected = (between - within) / (between + within);
          expect(repeatability(pairs).repeatability).toBeCloseTo(expected, 8);
        },
      ),
      { seed, numRuns: 200 },
    );
  });
});

describe(`differences between scorers, seed ${seed}`, () => {
  it('turn round with the names, and vanish for a scorer who copies', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(50), fc.nat(50)), { minLength: 2, maxLength: 20 }),
        (pairs) => {
          const of = (names: readonly [string, string]) =>
            scorerDifferences(
              pairs.flatMap((values, k) =>
                values.map((value, which) => ({ fish: `${k}`, scorer: names[which] ?? '', value })),
              ),
            )[0];
          const there = of(['a', 'b']);
          const back = of(['b', 'a']);
          expect(there?.difference).toBeCloseTo(-(back?.difference ?? NaN), 12);
          expect(there?.interval?.low).toBeCloseTo(-(back?.interval?.high ?? NaN), 9);
          const copied = scorerDifferences(
            pairs.flatMap(([value], k) =>
              ['a', 'b'].map((scorer) => ({ fish: `${k}`, scorer, value })),
            ),
          )[0];
          expect([copied?.difference, copied?.deviation]).toEqual([0, 0]);
        },
      ),
      { seed, numRuns: 200 },
    );
  });
});

describe(`totals of sheets, seed ${seed}`, () => {
  const line = fc.record({
    weight: fc.integer({ min: 0, max: 20 }),
    noneAt: fc.integer({ min: 0, max: 100 }),
    span: fc.integer({ min: 1, max: 80 }),
    value: fc.integer({ min: -50, max: 250 }),
  });
  it('lie between 0 and 100, scale with no weight, and never fall when a score rises', () => {
    fc.assert(
      fc.property(
        fc.array(line, { minLength: 1, maxLength: 8 }),
        fc.nat(7),
        fc.nat(60),
        (rows, k, more) => {
          const of = (factor: number, raised: number | null) =>
            sheetTotal(
              rows.map(({ weight, noneAt, span }, i) => ({
                trait: `${i}`,
                weight: weight * factor,
                noneAt,
                fullAt: noneAt + span,
              })),
              new Map(rows.map(({ value }, i) => [`${i}`, value + (i === raised ? more : 0)])),
              [],
            ).total;
          const total = of(1, null);
          if (total === null) {
            expect(rows.every(({ weight }) => weight === 0)).toBe(true);
            return;
          }
          expect(total).toBeGreaterThanOrEqual(0);
          expect(total).toBeLessThanOrEqual(100 + 1e-9);
          expect(of(7, null)).toBeCloseTo(total, 9);
          expect(of(1, k)).toBeGreaterThanOrEqual(total - 1e-9);
        },
      ),
      { seed, numRuns: 300 },
    );
  });
});
