import { describe, expect, it } from 'vitest';
import { EXAMPLE_FILE } from './example.js';
import { roleOfCells, roleOfHeader } from './roles.js';
import { shapeOf } from './shape.js';
import { dispositionMeant, dispositionWritten, sexMeant, sexWritten } from './words.js';

describe('what a column holds', () => {
  it.each([
    ['Tag No.', 'tag'],
    ['Father_ID', 'sire'],
    ['M/F', 'sex'],
    ['D.O.B.', undefined],
    ['DOB', 'hatch_date'],
    ['Remarks', 'note'],
    ['Status', 'disposition'],
    ['Bought from', 'origin'],
    ['Kept by', 'keeper'],
    ['Name', 'name'],
    ['Spread', undefined],
  ])('%s is %s', (header, role) => expect(roleOfHeader(header)).toBe(role));

  it('is guessed from its cells where the header says nothing', () => {
    expect(roleOfCells(['m', 'f', '', 'M', 'female'], 2026)).toBe('sex');
    expect(roleOfCells(['5/3/2024', '6/3/2024', '7 Mar 24', 'soon', '1.1.2024'], 2026)).toBe(
      'hatch_date',
    );
    expect(roleOfCells(['1', '0', '1', '?'], 2026)).toBeNull();
    expect(roleOfCells(['m', 'f'], 2026)).toBeNull();
    expect(roleOfCells(['red', 'blue', 'm'], 2026)).toBeNull();
  });

  it('is named in every column of the example but its trait', () => {
    const header = EXAMPLE_FILE.text.split('\n')[0]!.split(',');
    expect(header.filter((one) => roleOfHeader(one) === undefined)).toEqual(['tail spread']);
    expect(new Set(header.map(roleOfHeader)).size).toBe(header.length);
  });

  it('makes one shape of the same columns in any order', () => {
    expect(shapeOf(['Tag', 'Hatch Date'])).toBe(shapeOf(['hatch_date', 'tag']));
    expect(shapeOf(['Tag'])).not.toBe(shapeOf(['Tag', 'Sex']));
  });
});

describe('words of a file', () => {
  it('say a sex, or most likely mean one', () => {
    expect(['M', ' female ', '♂', 'male?', 'boy'].map(sexWritten)).toEqual([
      'male',
      'female',
      'male',
      'uncertain',
      null,
    ]);
    expect(['boy', 'Weiblich', 'fem.', 'malle', 'red'].map(sexMeant)).toEqual([
      'male',
      'female',
      'female',
      'male',
      null,
    ]);
  });

  it('say what became of a fish', () => {
    expect(['In use', 'DEAD', 'sold', 'x', 'on-hold', 'tank 4'].map(dispositionWritten)).toEqual([
      'keeper',
      'died',
      'placed',
      'keeper',
      'hold',
      null,
    ]);
    expect(['sold to a friend', 'died 2024', 'tank'].map(dispositionMeant)).toEqual([
      'placed',
      'died',
      null,
    ]);
  });
});
