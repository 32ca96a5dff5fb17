/** What inbreeding does to a measure, on simulated broods whose truth is known. */
import { inbreedingOfMeasure, type MeasuredRows } from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import { Chance } from './simulated-line.js';

const seed = 20_261_203;

/** Broods of six; a brood's common deviation is as large as what its fish differ by. */
const simulate = (chance: Chance, broods: number, slope: number): MeasuredRows => {
  const [f, brood, values]: [number[], number[], number[]] = [[], [], []];
  for (let k = 0; k < broods; k++) {
    const inbreeding = 0.3 * chance.next();
    const common = chance.normal();
    for (let young = 0; young < 6; young++) {
      f.push(inbreeding);
      brood.push(k);
      values.push(40 + slope * inbreeding + common + chance.normal());
    }
  }
  return {
    name: 'length',
    values: Float64Array.from(values),
    inbreeding: [{ name: 'F', values: Float64Array.from(f) }],
    random: [
      { name: 'brood', levels: broods, slots: [{ trait: 0, level: Int32Array.from(brood) }] },
    ],
    broods,
  };
};

describe(`inbreeding depression of a measure, seed ${seed}`, () => {
  it('is found where it is, and its interval holds the truth as often as said', () => {
    const chance = new Chance(seed);
    let [sum, held] = [0, 0];
    for (let k = 0; k < 200; k++) {
      const [found] = inbreedingOfMeasure(simulate(chance, 20, -8)).changes;
      sum += found!.slope / 200;
      if (found!.interval.low <= -8 && found!.interval.high >= -8) held++;
    }
    expect(Math.abs(sum + 8)).toBeLessThan(0.6);
    // 95 %, of 200 sets: beyond three standard deviations either way something is wrong.
    expect(held).toBeGreaterThan(180);
    expect(held).toBeLessThan(200);
  });

  it('is found in four of five sets when it is as large as the smallest that can be', () => {
    const chance = new Chance(seed + 1);
    const [plan] = inbreedingOfMeasure(simulate(chance, 60, 0)).changes;
    let shown = 0;
    for (let k = 0; k < 100; k++) {
      const { changes } = inbreedingOfMeasure(simulate(chance, 60, -plan!.smallestDetectable));
      const [found] = changes;
      if (found!.verdict === 'lowers') shown++;
    }
    expect(shown).toBeGreaterThan(65);
    expect(shown).toBeLessThan(95);
  });

  it('is the slope of least squares where rows share nothing', () => {
    const f = Float64Array.of(0, 0.1, 0.2, 0.3, 0.4);
    const values = Float64Array.of(5, 4.9, 4.2, 4.1, 3.6);
    const { changes, level, corrected } = inbreedingOfMeasure({
      ...{ name: 'eggs', values, random: [], broods: 5 },
      inbreeding: [{ name: 'F', values: f }],
    });
    const [found] = changes;
    const mean = (list: Float64Array): number => list.reduce((a, b) => a + b, 0) / list.length;
    const [mf, my] = [mean(f), mean(values)];
    const sxx = f.reduce((sum, x) => sum + (x - mf) ** 2, 0);
    const slope = f.reduce((sum, x, k) => sum + (x - mf) * (values[k]! - my), 0) / sxx;
    const rest = values.reduce((sum, y, k) => sum + (y - my - slope * (f[k]! - mf)) ** 2, 0);
    expect(found!.slope).toBeCloseTo(slope, 9);
    expect(level).toBeCloseTo(my - slope * mf, 9);
    // Nothing else is fitted: there is nothing to take off.
    expect([...corrected]).toEqual([...values].map((value) => expect.closeTo(value, 9) as number));
    expect(found!.standardError).toBeCloseTo(Math.sqrt(rest / 3 / sxx), 9);
  });

  it('parts recent from old inbreeding, and takes off what else is fitted', () => {
    const chance = new Chance(seed + 3);
    const broods = 400;
    const recent = Float64Array.from({ length: broods }, () => 0.2 * chance.next());
    const old = Float64Array.from({ length: broods }, () => 0.2 * chance.next());
    const codes = Int32Array.from(recent, (_, k) => k % 2);
    const values = recent.map(
      (f, k) => 30 - 20 * f + 5 * old[k]! + 7 * codes[k]! + 0.3 * chance.normal(),
    );
    const { changes, level, corrected } = inbreedingOfMeasure({
      ...{ name: 'length', values, random: [], broods },
      fixed: [{ kind: 'classes', name: 'season', levels: ['a', 'b'], codes }],
      inbreeding: [
        { name: 'recent', values: recent },
        { name: 'old', values: old },
      ],
    });
    expect(changes.map(({ name, verdict }) => [name, verdict])).toEqual([
      ['recent', 'lowers'],
      ['old', 'raises'],
    ]);
    for (const [k, truth] of [-20, 5].entries())
      expect(Math.abs(changes[k]!.slope - truth)).toBeLessThan(4 * changes[k]!.standardError);
    // At the mean season and the mean old inbreeding.
    expect(Math.abs(level - (30 + 3.5 + 0.5))).toBeLessThan(0.15);
    const off = corrected.map((value, k) => value - level - changes[0]!.slope * recent[k]!);
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(1.6);
  });

  it('is refused with a code where nothing can be told', () => {
    const rows = simulate(new Chance(seed + 2), 8, 0);
    const all = (of: Float64Array, value: number): Float64Array => of.map(() => value);
    const alike = { name: 'F', values: all(rows.values, 0.1) };
    const coded = (given: Partial<MeasuredRows>) => () =>
      inbreedingOfMeasure({ ...rows, ...given });
    expect(coded({ inbreeding: [alike] })).toThrow(
      expect.objectContaining({ code: 'MERIT_NO_VARIATION' }),
    );
    expect(coded({ broods: 2 })).toThrow(expect.objectContaining({ code: 'MERIT_TOO_FEW' }));
    const [own] = rows.inbreeding;
    expect(
      coded({ inbreeding: [own!, { name: 'twice', values: own!.values.map((x) => 2 * x) }] }),
    ).toThrow(expect.objectContaining({ code: 'MERIT_NOT_SEPARABLE' }));
  });
});
