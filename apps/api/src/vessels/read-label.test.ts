import { describe, expect, it } from 'vitest';
import { readLabel } from './read-label.js';

describe('a label', () => {
  it('names a vessel, and the house it was printed in', () => {
    expect(readLabel(' http://fishroom.local:4700/vessels/7a?house=9b\n')).toEqual({
      kind: 'vessel',
      id: '7a',
      house: '9b',
    });
    expect(readLabel('https://10.0.0.4/vessels/7a')).toEqual({
      kind: 'vessel',
      id: '7a',
      house: null,
    });
  });

  it('names a fish', () => {
    expect(readLabel('https://10.0.0.4:4700/fish/7a')).toEqual({
      kind: 'fish',
      id: '7a',
      house: null,
    });
  });

  it('is else a code, whatever it looks like', () => {
    for (const text of ['B 13', 'https://example.org/other/7a', '/vessels/7a', ''])
      expect(readLabel(text)).toEqual({ kind: 'code', code: text });
    expect(readLabel('  B \t13 ')).toEqual({ kind: 'code', code: 'B 13' });
  });
});
