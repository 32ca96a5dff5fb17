/**
 * Worths from choices between two, against printed figures.
 */
import { type Answer, fitAnswers } from '@linewright/mating';
import { describe, expect, it } from 'vitest';

// Agresti A (2002) Categorical Data Analysis, 2nd ed., section 10.6, tables 10.10 and 10.11: games won of seven baseball teams, each pair 13
// times, and the estimates of the model of Bradley & Terry, the last team at 0. The games are from memory (each pair sums to 13); the printed
// estimates and "standard errors of about 0.3" were read in the tests of R's package BradleyTerry2, test-baseball.R.
const TEAMS = ['Milwaukee', 'Detroit', 'Toronto', 'New York', 'Boston', 'Cleveland', 'Baltimore'];
const WON = [
  [0, 7, 9, 7, 7, 9, 11],
  [6, 0, 7, 5, 11, 9, 9],
  [4, 6, 0, 7, 7, 8, 12],
  [6, 8, 6, 0, 6, 7, 10],
  [6, 2, 6, 7, 0, 7, 12],
  [4, 4, 5, 6, 6, 0, 6],
  [2, 4, 1, 3, 1, 7, 0],
];
const PRINTED = [1.58, 1.44, 1.29, 1.25, 1.11, 0.68];

describe('choices between two', () => {
  const answers = WON.flatMap((row, winner) =>
    row.map((times, loser): Answer => ({
      difference: PRINTED.map((_, j) => Number(j === winner) - Number(j === loser)),
      times,
    })),
  );
  const fit = fitAnswers(answers, { means: PRINTED.map(() => 0), spread: Infinity });

  it('give the strengths that are printed, with their errors', () => {
    for (const [i, row] of WON.entries())
      for (const [j, times] of row.entries()) if (i !== j) expect(times + WON[j]![i]!).toBe(13);
    PRINTED.forEach((printed, j) => {
      expect(fit.estimates[j], TEAMS[j]).toBeCloseTo(printed, 2);
      expect(Math.round((fit.errors[j] ?? 0) * 10) / 10, TEAMS[j]).toBe(0.3);
    });
  });
});
