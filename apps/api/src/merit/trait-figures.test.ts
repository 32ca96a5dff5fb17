import { describe, expect, it } from 'vitest';
import type { ModelAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { answerOf } from './run-merit.js';
import { beliefOf } from './trait-belief.js';
import { fishOfLevel, traitFigures } from './trait-figures.js';
import type { TraitStock } from './trait-records.service.js';

/** Four pairs with a brood of eight each, two broods at each of two people; every third fish is looked at twice. */
const shared = (): MeritTask => {
  const sire = new Array<number>(8).fill(-1);
  const dam = [...sire];
  const fish: number[] = [];
  for (let brood = 0; brood < 4; brood++)
    for (let k = 0; k < 8; k++) {
      for (let look = 0; look < (k % 3 === 0 ? 2 : 1); look++) fish.push(sire.length);
      sire.push(2 * brood);
      dam.push(2 * brood + 1);
    }
  const broodOf = (i: number): number => (i - 8) >> 3;
  return {
    ...{ trait: 'spread', kind: 'measured', prior: 'flat', looks: true, age: null },
    ...{ fixed: [], numbers: [], lines: [], groups: null, unscored: new Int32Array(0) },
    sire: Int32Array.from(sire),
    dam: Int32Array.from(dam),
    fish: Int32Array.from(fish),
    values: Float64Array.from(
      fish,
      (i, row) => 150 + 4 * (i % 5) + 9 * (broodOf(i) >> 1) + (row % 2),
    ),
    shared: [
      {
        ...{ name: 'brood', levels: ['a', 'b', 'c', 'd'] },
        codes: Int32Array.from(fish, broodOf),
      },
      {
        ...{ name: 'place', levels: ['x', 'y'] },
        codes: Int32Array.from(fish, (i) => broodOf(i) >> 1),
      },
    ],
  };
};

const linear = (task: MeritTask): ModelAnswer => {
  const model = answerOf(task).linear;
  if (model === null) throw new Error('The scores of the case say nothing.');
  return model;
};

describe('how a trait is inherited, for what foretells young', () => {
  const task = shared();
  const model = linear(task);
  const scored = [...new Set(task.fish)];
  const figures = traitFigures(task, model, (i) => model.values.value[i]!, scored);

  it('counts brood and place as shared by a brood, and all else as the rest', () => {
    const share = (name: string): number =>
      model.shares.others.find((other) => other.name === name)!.share;
    expect(share('place')).toBeGreaterThan(0.01);
    expect(figures.commonBrood).toBeCloseTo(model.variance * (share('brood') + share('place')), 9);
    expect(figures.residual).toBeCloseTo(
      model.variance * (share('looks') + model.shares.residual),
      9,
    );
    const { additive, commonBrood, residual } = figures;
    expect(additive + commonBrood + residual).toBeCloseTo(model.variance, 9);
  });

  it('is the same for what simulates lines as for what judges pairs', () => {
    const belief = beliefOf(task, model, [8, 9, 16], scored);
    expect(belief.additive).toBe(figures.additive);
    expect(belief.commonBrood).toBe(figures.commonBrood);
    expect(belief.residual).toBe(figures.residual);
    // Values at the mean shares lie near those over all shares, so the levels do.
    expect(Math.abs(belief.level - figures.level)).toBeLessThan(0.1 * Math.sqrt(model.variance));
  });

  it('counts a fish once for the level, however often it was looked at', () => {
    const twice: MeritTask = {
      ...task,
      fish: Int32Array.from([...task.fish, ...task.fish.filter((i) => i === 8)]),
      values: Float64Array.from([
        ...task.values,
        ...task.values.filter((_, k) => task.fish[k] === 8),
      ]),
    };
    const level = (of: MeritTask): number =>
      traitFigures(of, model, (i) => model.values.value[i]!, scored).level;
    expect(level(twice)).toBeCloseTo(level(task), 9);
  });

  it('takes the scored fish of the line when they are five or more, else all', () => {
    const ids = [...task.sire.keys()].map((i) => `f${i}`);
    const stock = {
      task,
      pedigree: { ids },
      facts: new Map(ids.map((id, i) => [id, { lineId: i < 16 ? 'one' : i < 20 ? 'few' : null }])),
    } as unknown as TraitStock;
    expect(fishOfLevel(stock, 'one')).toEqual([8, 9, 10, 11, 12, 13, 14, 15]);
    expect(fishOfLevel(stock, 'few')).toEqual(scored);
    expect(fishOfLevel(stock, 'none')).toEqual(scored);
  });
});
