import { describe, expect, it } from 'vitest';
import { type KnownTag, tagForm, tagsAfter } from './next-tag.js';

const today = '2026-11-28';
const of = (code: string | null, ...tags: string[]): KnownTag[] =>
  tags.map((tag) => ({ tag, day: null, code }));

const next = (known: readonly KnownTag[], code: string | null, count = 1): string[] => {
  const form = tagForm(known, { code, today });
  return form === null ? [] : tagsAfter(form, count);
};

describe('the tag that follows', () => {
  it('counts on from the highest, with as many digits', () => {
    expect(next(of('T', 'T-09', 'T-03'), 'T', 2)).toEqual(['T-10', 'T-11']);
    expect(next(of('T', 'T-009'), 'T')).toEqual(['T-010']);
    expect(next(of('T', 'T9'), 'T')).toEqual(['T10']);
  });

  it('takes the form that most tags have, not the newest alone', () => {
    expect(next(of('T', 'gift 1', 'T-04', 'T-03'), 'T')).toEqual(['T-05']);
  });

  it('of two forms that as many tags have takes that of the newest', () => {
    expect(next(of('T', 'T25-02', 'T24-07'), 'T')).toEqual(['T25-03']);
  });

  it('keeps what stands after the counter', () => {
    expect(next(of('T', '12 T', '11 T'), 'T')).toEqual(['13 T']);
    expect(next(of('T', 'T4b'), 'T')).toEqual(['T5b']);
  });

  it('goes along with the year that stands in the tags', () => {
    const hatched = (tag: string, day: string): KnownTag => ({ tag, day, code: 'T' });
    expect(next([hatched('T24-07', '2024-05-01')], 'T', 2)).toEqual(['T26-01', 'T26-02']);
    expect(next([hatched('T2024-07', '2024-05-01')], 'T')).toEqual(['T2026-01']);
    expect(next([hatched('T26-07', '2026-05-01')], 'T')).toEqual(['T26-08']);
  });

  it('takes a number for a year only where every day says so', () => {
    const hatched = (tag: string, day: string | null): KnownTag => ({ tag, day, code: 'T' });
    expect(next([hatched('T24-07', '2023-05-01')], 'T')).toEqual(['T24-08']);
    expect(next([hatched('T24-07', null)], 'T')).toEqual(['T24-08']);
    expect(next([hatched('T24-07', '2024-05-01'), hatched('T24-06', '2025-01-01')], 'T')).toEqual([
      'T24-08',
    ]);
  });

  it('of a line without tags follows the other lines, from the start', () => {
    expect(next(of('T', 'T-F07', 'T-F06'), 'K', 2)).toEqual(['K-F01', 'K-F02']);
  });

  it('takes nothing from tags of other lines that do not begin with their code', () => {
    expect(next(of('T', 'blue 7'), 'K')).toEqual([]);
  });

  it('offers nothing where no tag has a number, or the number is none to count with', () => {
    expect(next(of('T', 'Blue', 'Old male'), 'T')).toEqual([]);
    expect(next(of('T', 'chip 900123456789012'), 'T')).toEqual([]);
    expect(next([], 'T')).toEqual([]);
  });

  it('of fish without a line looks at those alone', () => {
    expect(next([...of(null, 'x3'), ...of('T', 'T-09', 'T-08')], null)).toEqual(['x4']);
  });
});
