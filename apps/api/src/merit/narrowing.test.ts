import { describe, expect, it } from 'vitest';
import type { MeritTask } from './merit-task.js';
import { answerOf, runMerit } from './run-merit.js';

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
    ...{ fixed: [], shared: [], lines: [] },
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

describe('a stock whose equations would not fit', () => {
  it('is refused with a code before anything is tried, and one that fits is not', () => {
    const told: number[] = [];
    const answer = runMerit(twoLines(), (share) => told.push(share), 10);
    expect(answer.linear).toBeNull();
    expect(answer.linearRefusal).toMatchObject({
      code: 'MERIT_TOO_LARGE',
      message: expect.stringMatching(/128 fish.*116 scores/) as string,
    });
    expect(answer.remlRefusal?.code).toBe('MERIT_TOO_LARGE');
    expect(told).toEqual([]);
    expect(runMerit(twoLines()).linearRefusal).toBeNull();
  });
});
