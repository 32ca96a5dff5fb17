import { describe, expect, it } from 'vitest';
import { drawnGenerations, type GenerationOfTrend } from './drawn-generations.js';

const generation = (more: Partial<GenerationOfTrend>): GenerationOfTrend => ({
  generation: 0,
  fish: 10,
  scored: 5,
  meanScore: 0.5,
  meanScoreError: 0.1,
  meanValue: 0.2,
  meanValueError: 0.05,
  meanInbreeding: 0,
  meanKinship: 0.1,
  expectedResponse: null,
  realisedResponse: null,
  ...more,
});

describe('drawnGenerations', () => {
  it('begins with the first generation that was scored, and keeps gaps after it', () => {
    const none = generation({ scored: 0, meanScore: null, meanScoreError: null });
    const drawn = drawnGenerations(
      [
        none,
        generation({ generation: 1 }),
        { ...none, generation: 2 },
        generation({ generation: 3 }),
      ],
      1,
    );
    expect(drawn.map((each) => each.generation)).toEqual([1, 2, 3]);
    expect(drawn[1]?.score).toBeNull();
    expect(drawnGenerations([none], 1)).toEqual([]);
  });

  it('turns errors into half bands of 95 %, in the scale that is written', () => {
    const [drawn] = drawnGenerations([generation({ expectedResponse: 0.1 })], 100);
    expect(drawn?.score).toEqual({ mean: 50, half: expect.closeTo(19.6) });
    expect(drawn?.value).toEqual({ mean: 20, half: expect.closeTo(9.8) });
    expect(drawn?.expected).toBeCloseTo(10);
    expect(drawn?.came).toBeNull();
    const [alone] = drawnGenerations([generation({ meanScoreError: null })], 1);
    expect(alone?.score?.half).toBeNull();
  });
});
