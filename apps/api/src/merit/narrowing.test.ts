import { writtenModel } from '@linewright/merit';
import { describe, expect, it } from 'vitest';
import type { MeritTask } from './merit-task.js';
import { solvedAtShares } from './linear-model.js';
import { fishWorthScoring, notForeseen } from './narrowing.js';
import { answerOf } from './run-merit.js';
import { scoresOfTask } from './scores-of-task.js';

/** Two lines of two founders, each with two broods of thirty, all but the last of each brood scored. */
const twoLines = (): MeritTask => {
  const sire = [-1, -1, -1, -1, -1, -1, -1, -1];
  const dam = [...sire];
  const groupOf = [0, 0, 0, 0, 1, 1, 1, 1];
  const unscored: number[] = [];
  const fish: number[] = [];
  for (let brood = 0; brood < 4; brood++)
    for (let k = 0; k < 30; k++) {
      (k === 29 ? unscored : fish).push(sire.length);
      sire.push(2 * brood);
      dam.push(2 * brood + 1);
      groupOf.push(2);
    }
  return {
    ...{ trait: 'spread', kind: 'measured', prior: 'flat', looks: false, age: null },
    ...{ fixed: [], shared: [], numbers: [], lines: [] },
    sire: Int32Array.from(sire),
    dam: Int32Array.from(dam),
    fish: Int32Array.from(fish),
    values: Float64Array.from(fish, (i) => 150 + 9 * (i % 4) + 20 * (sire[i]! < 4 ? 0 : 1)),
    groups: { names: ['one', 'two'], groupOf: Int32Array.from(groupOf) },
    unscored: Int32Array.from(unscored),
  };
};

describe('what would narrow it', () => {
  it('no scores more make anything less sure, with lines apart as well', () => {
    const { narrowing, worth } = answerOf(twoLines());
    expect(narrowing.map(({ plan }) => plan)).toEqual(['next_fish', 'one_brood', 'five_broods']);
    for (const plan of narrowing) {
      expect(plan.heritabilityThen).toBeLessThan(plan.heritabilityNow);
      expect(plan.valuesThen).toBeLessThan(plan.valuesNow);
    }
    expect(new Set(worth.map(({ fish }) => fish))).toEqual(new Set(twoLines().unscored));
    for (const { errorBefore, errorAfter } of worth) expect(errorAfter).toBeLessThan(errorBefore);
  });
});

describe('fish that are worth scoring next', () => {
  it('are compared all, or it is told how many were not', () => {
    const task = { ...twoLines(), unscored: Int32Array.from({ length: 60 }, (_, k) => 8 + k) };
    const solved = solvedAtShares(writtenModel(scoresOfTask(task)), {
      ...{ heritability: 0.4, residual: 0.6, others: [] },
    });
    const all = fishWorthScoring(task, solved);
    expect([all.worth.length, all.leftOut]).toEqual([12, []]);
    const some = fishWorthScoring(task, solved, 20 * solved.equations.size);
    expect(some.leftOut).toEqual([expect.stringMatching(/^60 fish.*Only 20 of them/)]);
    expect(some.worth.every(({ fish }) => fish < 28)).toBe(true);
  });

  it('are all gone over in the answer for a stock of hundreds', () => {
    const { leftOut } = answerOf({
      ...twoLines(),
      unscored: Int32Array.from({ length: 120 }, (_, k) => 8 + k),
    });
    expect(leftOut).toEqual([]);
    expect(notForeseen({ sire: new Int32Array(20_001) })).toEqual([
      expect.stringContaining('20,000 fish'),
    ]);
  });
});
