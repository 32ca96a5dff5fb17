import { describe, expect, it } from 'vitest';
import { gradeLines, gradesIn } from './grade-lines.js';

describe('names of grades', () => {
  it('are read one a line, a decimal with a point or a comma', () => {
    expect(gradesIn(' 160 superdelta\n\n180,5  half moon \n-1.5 x')).toEqual([
      { from: 160, name: 'superdelta' },
      { from: 180.5, name: 'half moon' },
      { from: -1.5, name: 'x' },
    ]);
    expect(gradesIn(' \n')).toEqual([]);
  });

  it.each(['superdelta', '160', '160superdelta', '16x0 superdelta', '180 good\nbest'])(
    'are not read off %j',
    (text) => {
      expect(gradesIn(text)).toBeNull();
    },
  );

  it('are written as they are read', () => {
    const grades = [
      { from: 160, name: 'superdelta' },
      { from: 180.5, name: 'half moon' },
    ];
    expect(gradesIn(gradeLines(grades))).toEqual(grades);
  });
});
