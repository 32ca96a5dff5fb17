import { describe, expect, it } from 'vitest';
import { partsSeen } from './grant-words.js';

const nothing = {
  ...{ scores: false, photos: false, notes: false, water: false, place: false, prices: false },
  ancestors: false,
};

describe('what a partner sees beside fish and spawns', () => {
  it.each([
    [{}, 'nothing more'],
    [{ notes: true }, 'notes'],
    [{ ancestors: true }, 'names of ancestors outside the line'],
    [{ place: true, scores: true, water: true }, 'scores, care and water, where fish swim'],
  ])('%j: %s', (parts, words) => {
    expect(partsSeen({ ...nothing, ...parts })).toBe(words);
  });
});
