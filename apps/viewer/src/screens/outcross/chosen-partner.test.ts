import { describe, expect, it } from 'vitest';
import {
  addressOf,
  askedOf,
  branchIn,
  branchPath,
  oneLookPerLocus,
  outcrossPath,
  partnerOf,
} from './chosen-partner.js';

const at = (text: string) => partnerOf(new URLSearchParams(text));

describe('the partner in the address of an outcross', () => {
  it.each([
    'partner=x',
    'partner=x&mate=m&back=b',
    'sex=male&look=dt%3Adouble&look=bl%3Asteel',
    'sex=female',
    '',
  ])('is the same after a way there and back: "%s"', (text) => {
    expect(addressOf(at(text)).toString()).toBe(text);
  });

  it('leads to the page, and to the branch in a pedigree', () => {
    expect(outcrossPath('l', { partnerId: 'x' })).toBe('/lines/l/outcross?partner=x');
    const branch = { lineId: 'l', partnerId: 'x', backId: 'b' };
    expect(outcrossPath('l', { ...branch, mateId: 'm' })).toBe(
      '/lines/l/outcross?partner=x&mate=m&back=b',
    );
    const [path, search] = branchPath('m', branch).split('?');
    expect(path).toBe('/fish/m/pedigree');
    expect(branchIn(new URLSearchParams(search))).toEqual(branch);
    expect(branchIn(new URLSearchParams('outcross=x&line=l'))).toBeNull();
  });

  it('is asked for by id, or by what is seen of it', () => {
    expect(askedOf('l', at(''))).toBeNull();
    expect(askedOf('l', at('partner=x&back=b'))).toEqual({
      lineId: 'l',
      partnerId: 'x',
      backId: 'b',
    });
    expect(askedOf('l', at('sex=male&look=dt%3Adouble'))).toEqual({
      lineId: 'l',
      described: { sex: 'MALE', shows: [{ locusId: 'dt', phenotype: 'double' }] },
    });
  });

  it('shows one look at a locus, the one chosen last', () => {
    expect(oneLookPerLocus(['dt:single', 'bl:steel', 'dt:double'])).toEqual([
      'dt:double',
      'bl:steel',
    ]);
  });
});
