import { describe, expect, it } from 'vitest';
import type { ScannedCode } from '../../api/vessels.js';
import { fishAtHand, fishScanned } from './scanned-fish.js';

const fish = ['T24-01-04', 'T24-01-14', 'T24-01-104'].map((tag) => ({ id: `id-${tag}`, tag }));
const nothing = { vessel: null, fish: null, ofAnotherHouse: false, houseName: null };
const found = (given: object) => ({ ...nothing, unknownCode: null, ...given }) as ScannedCode;
const jar = (...ids: string[]) => ({
  vessel: { code: 'B 1', stays: ids.map((id) => ({ fish: { id } })) },
});

describe('a code at the bench', () => {
  it('is the label of a fish, its tag, or the last part of it', () => {
    expect(fishAtHand(fish, 'https://a:1/fish/id-T24-01-14')?.tag).toBe('T24-01-14');
    expect(fishAtHand(fish, ' t24-01-104 ')?.tag).toBe('T24-01-104');
    expect(fishAtHand(fish, '4')?.tag).toBe('T24-01-04');
    expect(fishAtHand(fish, '104')?.tag).toBe('T24-01-104');
  });

  it('is none of those when it is of several, of another fish, or of a jar', () => {
    const twice = [...fish, { id: 'x', tag: 'U24-01-04' }];
    expect(fishAtHand(twice, '4')).toBeNull();
    for (const text of ['', 'https://a:1/fish/other', 'B 1', '5'])
      expect(fishAtHand(fish, text)).toBeNull();
  });

  it('of a jar leads to the one fish of this spawn that is in it', () => {
    expect(fishScanned(fish, found(jar('id-T24-01-04')))).toEqual({ goTo: fish[0] });
    expect(fishScanned(fish, found(jar('id-T24-01-04', 'other')))).toEqual({ goTo: fish[0] });
  });

  it('says why it leads to none', () => {
    const words = (given: object) => fishScanned(fish, found(given));
    expect(words(jar('id-T24-01-04', 'id-T24-01-14'))).toMatchObject({
      words: expect.stringMatching(/Several.*T24-01-04, T24-01-14/) as unknown,
    });
    expect(words(jar())).toEqual({ words: 'B 1 is empty on record.' });
    expect(words(jar('other'))).toEqual({ words: 'No fish of this spawn is in B 1.' });
    expect(words({ fish: { id: 'o', tag: 'O-1' } })).toEqual({ words: 'O-1 is of another spawn.' });
    expect(words({ unknownCode: 'Z' })).toEqual({ words: 'Nothing here has the code Z.' });
  });
});
