import { describe, expect, it } from 'vitest';
import { completeSettings, DEFAULT_SETTINGS, type PairingSettingsInput } from './settings.js';

describe('completeSettings', () => {
  it('keeps what is not given, inside the groups too', () => {
    const settings = completeSettings({
      ages: { bestUntil: 400 },
      inbreedingCeiling: 0.25,
    });
    expect(settings.ages).toEqual({ ...DEFAULT_SETTINGS.ages, bestUntil: 400 });
    expect(settings.rest).toEqual(DEFAULT_SETTINGS.rest);
    expect(settings.inbreedingCeiling).toBe(0.25);
  });

  it.each<[string, PairingSettingsInput]>([
    ['inbreedingCeiling', { inbreedingCeiling: 12.5 }],
    ['knownAncestryFrom', { knownAncestryFrom: NaN }],
    ['ages', { ages: { preferredFrom: 20 } }],
    ['rest.male', { rest: { male: { least: 30 } } }],
    ['ancestryGenerations', { ancestryGenerations: 0 }],
    ['bodyLengthRatio', { bodyLengthRatio: { least: 1.2, most: 0.8 } }],
  ])('refuses a bad %s and names it', (subject, input) => {
    expect(() => completeSettings(input)).toThrow(
      expect.objectContaining({ code: 'MATING_BAD_SETTING', subject }) as Error,
    );
  });
});
