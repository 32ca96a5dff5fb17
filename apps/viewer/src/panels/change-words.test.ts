import { describe, expect, it } from 'vitest';
import { changeWords } from './change-words.js';

const names = new Map([
  ['l-1', 'RED'],
  ['k-1', 'here'],
]);
const words = (field: string, before: string | null, after: string | null) =>
  changeWords({ field, before, after }, names);

describe('a change in words', () => {
  it('names the records behind ids, and what blank means there', () => {
    expect(words('lineId', null, 'l-1')).toBe('line: no line → RED');
    expect(words('swimsWithId', 'k-1', null)).toBe('swims: here → not known');
    expect(words('lineId', 'l-1', 'l-9')).toBe('line: RED → l-9');
  });

  it('calls decisions as the screens do, and leaves other values as they are', () => {
    expect(words('disposition', 'keeper', 'elsewhere')).toBe('disposition: keeper → ancestor only');
    expect(words('dispositionReason', null, 'bent spine')).toBe('reason: blank → bent spine');
  });

  it('says that a record was withdrawn or came back', () => {
    expect(words('withdrawnReason', null, 'entered twice')).toBe('withdrawn: entered twice');
    expect(words('withdrawnReason', 'entered twice', null)).toBe('no longer withdrawn');
  });
});
