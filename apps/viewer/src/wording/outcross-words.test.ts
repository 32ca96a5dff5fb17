import { describe, expect, it } from 'vitest';
import { alleleText, generationName, pointText, returnText } from './outcross-words.js';

describe('words of an outcross', () => {
  it('name its generations', () => {
    expect([1, 2, 3, 4, 5].map((one) => generationName(one, 'back'))).toEqual([
      ...['Cross', '1st backcross', '2nd backcross', '3rd backcross', '4th backcross'],
    ]);
    expect(generationName(2, 'within')).toBe('1st brother × sister');
  });

  it('say what is lost and when it is back', () => {
    const trait = { name: 'Spread', lost: 8, backAfter: 3 };
    expect(returnText(trait, 'back')).toBe(
      'Spread: the cross is expected 8 worse than the line, and back after 3 backcrosses.',
    );
    expect(returnText({ ...trait, backAfter: 1 }, 'back')).toContain('after 1 backcross.');
    expect(returnText({ ...trait, backAfter: null }, 'back')).toContain('not back within 10');
    expect(returnText({ ...trait, backAfter: null }, 'within')).toContain('without choosing');
    expect(returnText({ ...trait, lost: -1, backAfter: 0 }, 'back')).toContain('no worse than');
  });

  it('say what changes, and whether an allele is won or at risk', () => {
    const point = { figure: 'INBREEDING', name: '', without: 0.41, withIt: 0.2 };
    expect(pointText(point)).toBe('mean F 41 % without it, 20 % with it');
    expect(pointText({ ...point, figure: 'ALLELE', name: 'dt' })).toContain('in 41 % of lines');
    expect(alleleText(0, 1)).toMatch(/^won/);
    expect(alleleText(1, 0.5)).toMatch(/^at risk/);
    expect(alleleText(0.5, 0.52)).toMatch(/^as before/);
  });
});
