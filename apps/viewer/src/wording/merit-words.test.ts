import { describe, expect, it } from 'vitest';
import {
  againstText,
  costAt,
  costText,
  decimalsFor,
  atEdgeText,
  fromPriorText,
  heritabilityText,
  movedBetween,
  movedText,
  partText,
  passesOnText,
  shareChange,
  signedText,
  sizeChangeText,
  smallestChangeText,
  smallestText,
  trustText,
} from './merit-words.js';

describe('figures of merit', () => {
  it('are written as finely as they are known', () => {
    expect([9.4, 5, 2.4, 0.6, 0.31, 0.042].map(decimalsFor)).toEqual([0, 0, 1, 1, 2, 3]);
    expect([0, Infinity, NaN].map(decimalsFor)).toEqual([2, 2, 2]);
  });

  it('carry their sign and unit, and 0 has none', () => {
    expect(signedText(6.2, 'degrees', 9)).toBe('+6 degrees');
    expect(signedText(-0.36, 'mm', 0.4)).toBe('-0.36 mm');
    expect(signedText(-0.2, 'degrees', 9)).toBe('0 degrees');
    expect(signedText(1.25, null, 2)).toBe('+1.3');
  });

  it('stand above, below or at a mean', () => {
    expect(againstText(6.2, 'degrees', 9, 'the mean')).toBe('6 degrees above the mean');
    expect(againstText(-6.2, null, 9, 'the mean')).toBe('6 below the mean');
    expect(againstText(0.3, 'degrees', 9, 'the mean')).toBe('at the mean');
  });

  it('are never 0 or 100 % unless they are', () => {
    expect([0, 0.001, 0.33, 0.999, 1].map(partText)).toEqual([
      '0 %',
      'under 1 %',
      '33 %',
      'over 99 %',
      '100 %',
    ]);
  });
});

describe('what a fish passes on', () => {
  const passed = { expected: 6.2, giveOrTake: 9.1, unit: 'degrees', ownScores: 0, relatives: 14 };

  it('is one sentence: how much, how sure, and on what it rests', () => {
    expect(passesOnText(passed)).toBe(
      'Its young are expected 6 degrees above the line’s mean, give or take 9; this rests on scores of 14 relatives.',
    );
    expect(passesOnText({ ...passed, ownScores: 2, relatives: 1 })).toContain(
      'this rests on its own 2 scores and scores of 1 relative.',
    );
    expect(passesOnText({ ...passed, relatives: 0 })).toContain(
      'no score of it or a relative says anything yet',
    );
  });

  it('warns of trust in one good fish only where it stands high on a score of its own', () => {
    const fish = {
      inLine: { place: 2, of: 40 },
      ownScore: '182 degrees',
      expected: '3 degrees above the line’s mean',
    };
    const said = trustText(fish);
    expect(said).toContain('It stands 2 of 40 in its line and scored 182 degrees');
    expect(said).toContain('they are expected 3 degrees above the line’s mean');
    expect(trustText({ ...fish, inLine: { place: 11, of: 40 } })).toBeNull();
    expect(trustText({ ...fish, inLine: null })).toBeNull();
    expect(trustText({ ...fish, ownScore: null })).toBeNull();
  });
});

describe('heritability in words', () => {
  it('says how wide it is, and what came with the prior', () => {
    expect(heritabilityText(0.334, { low: 0.1, high: 0.6 })).toBe(
      'About 33 % of the differences between your fish is inherited. In 95 of 100 cases like this it lies between 10 % and 60 %.',
    );
    expect(fromPriorText(1)).toContain('almost nothing');
    expect(fromPriorText(0.7)).toContain('Most of this was assumed');
    expect(fromPriorText(0.5)).toContain('About half');
    expect(fromPriorText(0.1)).toContain('comes from your scores');
    expect(atEdgeText(0)).toContain('show none');
    expect(atEdgeText(1)).toContain('show nothing else');
  });
});

describe('whether a line moves', () => {
  it('is held against what is unknown of both ends', () => {
    const means = [
      { mean: 1, half: 3 },
      { mean: 5, half: null },
      { mean: 9, half: 4 },
    ];
    expect(movedBetween(means)).toEqual({ change: 8, giveOrTake: 5, generations: 2 });
    expect(movedBetween(means.slice(0, 1))).toBeNull();
    expect(movedBetween([])).toBeNull();
  });

  it('cannot be said while the change lies within its band', () => {
    const moved = { change: 8, giveOrTake: 5, generations: 2 };
    expect(movedText(moved, 'mm', true)).toBe(
      'The line is moving, the way you want: what its fish pass on changed by +8 mm in 2 generations, give or take 5.',
    );
    expect(movedText(moved, 'mm', false)).toContain('away from what you want');
    expect(movedText({ ...moved, change: -8 }, 'mm', false)).toContain('the way you want');
    expect(movedText(moved, 'mm', null)).toContain('is moving: ');
    expect(movedText({ ...moved, change: 5 }, 'mm', true)).toContain('Cannot tell yet');
  });
});

describe('what inbreeding costs', () => {
  const cost = {
    verdict: 'COSTS' as const,
    perGamete: 1.57,
    low: 0.4,
    high: 2.8,
    smallest: 1.2,
  };

  it('is told for a brood of full sibs', () => {
    // Morton, Crow & Muller 1956: 1 - exp(-B F).
    expect(costAt(1.57, 0.25)).toBeCloseTo(0.3246, 4);
    expect(costText(cost, 'survival to free-swimming')).toBe(
      'Inbreeding costs survival to free-swimming: about 32 % in a brood of full sibs (F 25 %), between 10 % and 50 % of the young in 95 of 100 cases.',
    );
  });

  it('is never said to be nothing', () => {
    const unseen = costText({ ...cost, verdict: 'CANNOT_TELL_YET', low: -0.5 }, 'survival');
    expect(unseen).toContain('Cannot tell yet');
    expect(unseen).toContain('between 0 % and 50 %');
    expect(unseen).toContain('not a sign that it costs nothing');
    expect(unseen).not.toMatch(/no effect/i);
    expect(costText({ ...cost, verdict: 'HELPS' }, 'survival')).toContain('hardly does that');
  });

  it('stands beside the smallest that could have been seen', () => {
    expect(smallestText(1.2)).toContain('is 26 % in a brood of full sibs');
    expect(smallestText(null)).toContain('differ too little in F');
  });
});

describe('what inbreeding does to a size', () => {
  const change = { atSibMating: -0.2, low: -0.35, high: -0.02, smallest: 0.25 };

  it('is told with its interval, and never as no effect', () => {
    expect(
      sizeChangeText({ ...change, verdict: 'LOWERS' }, 'the number of eggs', shareChange),
    ).toBe(
      'Inbreeding lowers the number of eggs: by about -20 % at an F of 25 %, as in young of full sibs; between -35 % and -2 % in 95 of 100 cases.',
    );
    const open = { ...change, high: 0.1, verdict: 'CANNOT_TELL_YET' as const };
    const said = sizeChangeText(open, 'the number of eggs', shareChange);
    expect(said).toContain('between -35 % and +10 %');
    expect(said).toContain('not a sign that it does nothing');
    expect(sizeChangeText({ ...change, verdict: 'RAISES' }, 'length', shareChange)).toContain(
      'hardly does that by itself',
    );
    expect(smallestChangeText(0.25, shareChange)).toContain('is 25 % at an F of 25 %');
  });
});
