import { describe, expect, it } from 'vitest';
import type { AlleleOfLine, NumberToKeep, YoungToKeep } from '../api/keeping.js';
import {
  becauseText,
  carriesBriefly,
  carriesText,
  keepingMeaning,
  keepText,
  keptText,
  lastCarrierTexts,
  placeText,
  youngText,
} from './keeping-words.js';
import { worthGroups } from './young-worth-groups.js';

const melano: AlleleOfLine = {
  ...{ locusId: 'm', locusName: 'Melano black', alleleId: 'melano', name: 'melano', symbol: 'm' },
  ...{ carriers: 1.4, lastKnown: true },
};
const young = (change: Partial<YoungToKeep> & { last?: number | null } = {}): YoungToKeep => {
  const { last = 0, ...more } = change;
  return {
    fish: { id: 'a', tag: 'T-1', sex: 'MALE', disposition: 'UNSORTED' },
    ...{ worth: 2.25, standardError: 1, place: 2, of: 7, advice: 'CANNOT_TELL' },
    alleles: [{ locusId: 'm', alleleId: 'melano', chance: 2 / 3, others: 2.4, last }],
    ...more,
  };
};
const number = (change: Partial<NumberToKeep> = {}): NumberToKeep => ({
  ...{ males: 2, females: 1, basis: 'ROUND', roundId: 'r', keep: 8, broods: 3, lost: 0 },
  ...change,
});

describe('whom to keep, in words', () => {
  it('tells worth, place and what speaks for a young', () => {
    expect(youngText(young())).toBe(
      'Worth as a parent +2.3 ± 1 points, place 2 of 7 males: as good as others (cannot be told apart).',
    );
    expect(placeText(young({ of: 1, place: 1 }))).toBe('the only male');
  });

  it('tells how many to keep, and names no sex of which none is', () => {
    expect(keepText(number())).toBe('Keep 2 males and 1 female of this brood');
    expect(keepText(number({ males: 0 }))).toBe('Keep 1 female of this brood');
  });

  it('says what the number rests on, a guide as a guide', () => {
    expect(becauseText(number())).toMatch(/^8 are kept of 3 broods.*the round/u);
    expect(becauseText(number({ lost: 1 }))).toMatch(/1 pair of it came to nothing/u);
    expect(becauseText(number({ basis: 'PURPOSE' }))).toMatch(/in no round/u);
    expect(becauseText(number({ basis: 'GUIDE' }))).toMatch(/without a source/u);
  });

  it('counts keepers of the brood', () => {
    expect(keptText({ kept: { males: 0, females: 0, others: 0 } })).toMatch(/^None/u);
    expect(keptText({ kept: { males: 1, females: 2, others: 1 } })).toBe(
      'Keepers so far: 1 male, 2 females, 1 without a known sex.',
    );
  });

  it('warns of a last carrier as surely as is known, and of nothing below one in twenty', () => {
    const told = (last: number | null) => lastCarrierTexts(young({ last }), [melano]);
    expect(told(0.04)).toEqual([]);
    expect(told(null)).toEqual([]);
    expect(told(0.12)[0]).toMatch(/^T-1 may be the last .* carries melano \(m\).*chance 12 %/u);
    expect(told(0.6)[0]).toMatch(/^T-1 is likely the last/u);
    expect(told(1)[0]).toMatch(/^T-1 is the last/u);
  });

  it('tells what it may carry, and who else', () => {
    const [carried] = young().alleles;
    expect(carriesText({ allele: melano, carried: carried! })).toBe(
      'carries melano (m): 66.7 %, beside about 2.4 other living fish of the line',
    );
    expect(carriesBriefly({ allele: melano, carried: carried! })).toBe(
      'melano (m) 66.7 %, about 2.4 others',
    );
    expect(carriesText({ allele: melano, carried: { ...carried!, chance: null } })).toMatch(
      /not known/u,
    );
  });

  it('draws males, females and the unsexed apart, each with its number to keep', () => {
    const of = (id: string, sex: YoungToKeep['fish']['sex']) =>
      young({ fish: { id, tag: id, sex, disposition: 'UNSORTED' } });
    const groups = worthGroups(
      [of('a', 'MALE'), of('b', 'UNCERTAIN'), of('c', 'FEMALE'), of('d', 'UNSEXED')],
      number(),
    );
    expect(groups.map(({ young: list, keep }) => [list.map(({ id }) => id), keep])).toEqual([
      [['a'], 2],
      [['c'], 1],
      [['b', 'd'], 3],
    ]);
    // Four in five lie within 1.28 standard errors.
    const band = groups[0]!.young[0]!.bands.find(({ percent }) => percent === 80)!;
    expect(band.high - band.low).toBeCloseTo(2 * 1.2816, 6);
  });
});

describe('the fish that stand for a line', () => {
  it('are told with how many were left out, and how to have others counted', () => {
    const all = keepingMeaning({ matesAre: 'KEEPERS', mateCount: 3, mateTotal: 3 });
    expect(all).toContain('with each of the 3 keepers of the line from other broods. It');
    const some = keepingMeaning({ matesAre: 'KEEPERS', mateCount: 200, mateTotal: 450 });
    expect(some).toContain('200 youngest of the 450 keepers of the line from other broods (older');
    expect(some).toContain('older ones are not counted: take younger ones');
  });
});
