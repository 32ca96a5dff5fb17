import { describe, expect, it } from 'vitest';
import { asksOfSeen, filterFrom, isFiltered, sortFrom, withParts } from './fish-filter.js';

const address = (text: string) => new URLSearchParams(text);
const alive = ['UNSORTED', 'KEEPER', 'HOLD', 'PLACED'];

describe('the filter in the address', () => {
  it('shows by itself the fish that are alive and here, which is no filter', () => {
    expect(filterFrom(address(''))).toEqual({ dispositions: alive, place: 'HERE' });
    // To a partner the place may not be told.
    expect(filterFrom(address(''), true)).toEqual({ dispositions: alive });
    expect(isFiltered(address(''))).toBe(false);
    expect(isFiltered(address('sex=MALE'))).toBe(true);
  });

  it('takes each part of it by its word, and passes over what is none', () => {
    expect(filterFrom(address('text=x&line=l1&sex=MALE&use=no&withdrawn=yes'))).toEqual({
      ...{ text: 'x', lineIds: ['l1'], sexes: ['MALE'], inUse: false, includeWithdrawn: true },
    });
    expect(filterFrom(address('use=all&sex=STRANGE&place=MOON&disposition=GONE'))).toEqual({});
  });

  it('a place alone asks for living fish; a decision or a use asks for all of that kind', () => {
    expect(filterFrom(address('place=PARTNER'))).toEqual({ dispositions: alive, place: 'PARTNER' });
    expect(filterFrom(address('disposition=CULLED'))).toEqual({ dispositions: ['CULLED'] });
    expect(filterFrom(address('use=yes&place=PARTNER'))).toEqual({ place: 'PARTNER', inUse: true });
  });

  it('asks for ages in weeks, counted back from today', () => {
    expect(filterFrom(address('use=all&older=10&younger=52'), false, '2026-11-28')).toEqual({
      ...{ hatchedTo: '2026-09-19', hatchedFrom: '2025-11-29' },
    });
    expect(filterFrom(address('use=all&older=soon&younger=-2'))).toEqual({});
  });

  it('asks for what was seen, scored and photographed', () => {
    expect(
      filterFrom(
        address('use=all&look=dt:double&allele=dt:double:dt&trait=t1&least=160,5&photo=no'),
      ),
    ).toEqual({
      look: { locusId: 'dt', look: 'double' },
      allele: { locusId: 'dt', writtenAs: ['double', 'dt'] },
      score: { traitId: 't1', least: 160.5, most: null },
      hasPhoto: false,
    });
    expect(filterFrom(address('use=all&look=dt&allele=dt&least=5&photo=maybe'))).toEqual({});
    expect(asksOfSeen(address('photo=no'))).toBe(true);
    expect(asksOfSeen(address('sex=MALE&look='))).toBe(false);
  });

  it('is written part by part, keeping the others', () => {
    expect(withParts(address('sex=MALE&line=l1'), { sex: '', use: 'all' }).toString()).toBe(
      'line=l1&use=all',
    );
  });

  it('newest first, unless the address asks for another order', () => {
    expect(sortFrom(address(''))).toEqual({ field: 'HATCH_DATE', direction: 'DESC' });
    expect(sortFrom(address('sort=LINE&order=down')).direction).toBe('DESC');
    expect(sortFrom(address('sort=STRANGE'))).toEqual({ field: 'TAG', direction: 'ASC' });
  });
});
