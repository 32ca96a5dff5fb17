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
    const trait = { name: 'Spread', lineMean: 170, partner: 154, lost: 8, backAfter: 3 };
    const told = (more: object, after: 'back' | 'within' = 'back') =>
      returnText({ ...trait, ...more }, after);
    expect(told({})).toBe(
      'Spread: line 170, partner 154; the cross is expected 8 worse than the line, and it is back after 3 backcrosses.',
    );
    expect(told({ backAfter: 1 })).toContain('after 1 backcross.');
    expect(told({ backAfter: 2 }, 'within')).toContain('after 2 generations.');
    expect(told({ backAfter: null })).toContain('not back within 10');
    expect(told({ backAfter: null }, 'within')).toContain('unless you choose for it');
    expect(told({ lost: 0.1, backAfter: 0 })).toContain(
      '0.1 worse than the line, less than a tenth',
    );
    expect(told({ lost: -1, backAfter: 0 })).toContain('no worse than the line.');
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
