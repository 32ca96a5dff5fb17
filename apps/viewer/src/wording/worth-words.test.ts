import { describe, expect, it } from 'vitest';
import type { PairBasis, PairWorth } from '../api/judgement.js';
import {
  broodFiguresText,
  inbreedingCostText,
  orderText,
  pointsText,
  errorsText,
  worthText,
} from './worth-words.js';

const basis = {
  ...{
    lineId: 'a',
    version: 2,
    inbreedingCost: 1.234,
    costBasis: 'PERSON',
    errorsTogether: true,
    keep: 4,
  },
  ...{ fry: 60, survival: 0.5, load: 0, countedBroods: 0, notCounted: [] },
} as PairBasis;
const worth = { points: -1.26, standardError: 0.31 } as PairWorth;

describe('worth in words', () => {
  it('says whether what is not known of relatives counts together in the error', () => {
    expect(errorsText(basis)).toMatch(/goes together/);
    expect(errorsText({ ...basis, errorsTogether: false })).toMatch(/too small/);
  });

  it('signs points, and never writes a nought with a sign', () => {
    expect([4.25, -1, 0, -0.02].map(pointsText)).toEqual(['+4.3', '−1', '0', '0']);
    expect(worthText(worth)).toBe('−1.3 ± 0.3');
    expect(worthText({ ...worth, points: 0, standardError: 0 })).toBe('0');
  });

  it('says what orders the list', () => {
    expect(orderText(basis)).toMatch(/order of their worth/);
    expect(orderText({ ...basis, version: 0 })).toMatch(/order of F.*nobody has said/);
    expect(orderText({ ...basis, lineId: null })).toMatch(
      /order of F.*one line.*its own line.*lower guide/,
    );
  });

  it('says whose figures they are', () => {
    expect(broodFiguresText(basis)).toMatch(/best 4 .* 60 swimming fry .* 50 % .*without a source/);
    expect(broodFiguresText({ ...basis, countedBroods: 7, load: 1 })).toMatch(
      /7 counted broods.*inbred/,
    );
    expect(inbreedingCostText(basis)).toBe(
      'Each 0.1 of F takes 1.23 points off a young, as you said.',
    );
    expect(inbreedingCostText({ ...basis, costBasis: 'STATED_RATE' })).toMatch(/Doekes/);
  });
});
