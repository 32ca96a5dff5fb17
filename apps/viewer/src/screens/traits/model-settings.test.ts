import { describe, expect, it } from 'vitest';
import { isUsual, meritParts, settingsSent, tickedIn } from './model-settings.js';

const settings = (parts: ('SEASON' | 'SEX' | 'BROOD')[]) => ({
  parts,
  prior: 'USUAL' as never,
  usualParts: ['SEX' as const, 'SEASON' as const],
  usualPrior: 'USUAL' as never,
  besideTraitIds: [] as string[],
});

describe('the settings of a trait', () => {
  it('tick each part that is set apart, and no other', () => {
    const ticked = tickedIn(settings(['SEASON', 'BROOD']));
    expect(meritParts.filter((part) => ticked[part]).sort()).toEqual(['BROOD', 'SEASON']);
    expect(ticked.prior).toBe('USUAL');
  });

  it('are usual in any order, and not with a part more or less', () => {
    expect(isUsual(settings(['SEASON', 'SEX']))).toBe(true);
    expect(isUsual(settings(['SEASON']))).toBe(false);
    expect(isUsual(settings(['SEASON', 'SEX', 'BROOD']))).toBe(false);
    expect(isUsual(settings(['SEASON', 'BROOD']))).toBe(false);
    expect(isUsual({ ...settings(['SEASON', 'SEX']), besideTraitIds: ['t'] })).toBe(false);
    expect(isUsual({ ...settings(['SEASON', 'SEX']), prior: 'OTHER' as never })).toBe(false);
  });

  it('name the traits to correct for, as far as they stay ticked', () => {
    const ticked = tickedIn({ ...settings([]), besideTraitIds: ['t', 'u'] });
    expect(ticked.beside).toEqual({ t: true, u: true });
    expect(settingsSent({ ...ticked, beside: { t: true, u: false } }).besideTraitIds).toEqual([
      't',
    ]);
  });

  it('are all sent, each under its name', () => {
    const sent = settingsSent(tickedIn(settings(['SEASON', 'SEX'])));
    expect(Object.entries(sent).filter(([, value]) => value === true)).toEqual([
      ['season', true],
      ['sex', true],
    ]);
    expect(Object.keys(sent)).toHaveLength(2 + meritParts.length);
  });
});
