import { describe, expect, it } from 'vitest';
import { MatingError } from '../mating-error.js';
import { fitAnswers, type Answer, type Expected } from './fit-answers.js';

const nothing = (things: number): Expected => ({
  means: Array.from({ length: things }, () => 0),
  spread: Infinity,
});

const refused = (answers: readonly Answer[], expected: Expected): string => {
  try {
    fitAnswers(answers, expected);
  } catch (error) {
    if (error instanceof MatingError) return error.code;
    throw error;
  }
  return 'taken';
};

describe('answers to which of the two', () => {
  it('give the log-odds where there is one thing and nothing is expected', () => {
    // 30 of 40 chose more of it: ln 3, with error 1 / sqrt(40 x 3/4 x 1/4).
    const fit = fitAnswers(
      [
        { difference: [1], times: 30 },
        { difference: [-1], times: 10 },
      ],
      nothing(1),
    );
    expect(fit.estimates[0]).toBeCloseTo(Math.log(3), 9);
    expect(fit.errors[0]).toBeCloseTo(1 / Math.sqrt(7.5), 9);
  });

  it('stay at what was expected without any, and move away from it with the answers', () => {
    const expected = { means: [1, 0.5], spread: 0.8 };
    const none = fitAnswers([], expected);
    expect(none.estimates).toEqual([1, 0.5]);
    expect(none.errors[0]).toBeCloseTo(0.8, 12);
    const against = fitAnswers([{ difference: [-1, 0], times: 5 }], expected);
    expect(against.estimates[0]).toBeLessThan(0.5);
    expect(against.estimates[1]).toBeCloseTo(0.5, 12);
    expect(against.errors[0]).toBeLessThan(0.8);
  });

  it('lie where the answers and what was expected are in balance', () => {
    const answers = [
      { difference: [1, -2], times: 3 },
      { difference: [0.5, 1] },
      { difference: [-1, 0.2], times: 2 },
    ];
    const expected = { means: [0.3, 0.1], spread: 1.5 };
    const { estimates } = fitAnswers(answers, expected);
    for (const j of [0, 1]) {
      const pull = answers.reduce((sum, { difference, times = 1 }) => {
        const odds = difference[0]! * estimates[0]! + difference[1]! * estimates[1]!;
        return sum + (times * difference[j]!) / (1 + Math.exp(odds));
      }, 0);
      expect(pull + (expected.means[j]! - estimates[j]!) / 1.5 ** 2).toBeCloseTo(0, 9);
    }
  });

  it('hold under differences so large that an exponential of them is no number', () => {
    const fit = fitAnswers([{ difference: [5000] }, { difference: [-4000] }], {
      means: [2],
      spread: 1,
    });
    expect(Number.isFinite(fit.estimates[0])).toBe(true);
  });

  it('are refused where nothing bounds an estimate', () => {
    expect(refused([{ difference: [1], times: 4 }], nothing(1))).toBe('MATING_BAD_ANSWERS');
    expect(refused([{ difference: [1, 0] }], nothing(2))).toBe('MATING_BAD_ANSWERS');
  });

  it.each([
    ['a figure that is none', [{ difference: [Number.NaN] }], nothing(1)],
    ['a figure too few', [{ difference: [] }], nothing(1)],
    ['fewer than no times', [{ difference: [1], times: -1 }], nothing(1)],
    ['no spread', [], { means: [0], spread: 0 }],
  ])('refuse %s', (_, answers, expected) => {
    expect(refused(answers, expected)).toBe('MATING_BAD_ANSWERS');
  });
});
