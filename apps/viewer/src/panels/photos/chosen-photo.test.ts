import { describe, expect, it } from 'vitest';
import { chosenOf, subjectOf, withChanges } from './chosen-photo.js';

const file = new File(['x'], 'a.jpg', { lastModified: Date.parse('2026-03-14T12:00:00Z') });
const subjects = [
  { kind: 'fish' as const, id: 'f', label: 'the fish' },
  { kind: 'spawn' as const, id: 's', label: 'its spawn' },
];

describe('a chosen picture', () => {
  it('is of the day its file says and of the first subject', () => {
    const one = chosenOf(file, 'a', 'blob:a');
    expect(one).toMatchObject({ taken: '2026-03-14', caption: '', share: null, failure: null });
    expect(subjectOf(one, subjects)).toBe(subjects[0]);
  });

  it('is changed without the others', () => {
    const all = withChanges([chosenOf(file, 'a', ''), chosenOf(file, 'b', '')], 'b', {
      subject: '1',
    });
    expect(all.map((one) => subjectOf(one, subjects)?.id)).toEqual(['f', 's']);
    expect(subjectOf({ subject: '7' }, subjects)).toBe(subjects[0]);
    expect(subjectOf({ subject: '0' }, [])).toBeUndefined();
  });
});
