import { describe, expect, it } from 'vitest';
import { withGuard, withoutGuard } from './formula-guard.js';

describe('a cell for a spreadsheet', () => {
  it.each([
    ['=1+1', "'=1+1"],
    ['+R', "'+R"],
    ['-R-01', "'-R-01"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\t=1', "'\t=1"],
    ['\rR', "'\rR"],
    ['  =1', "'  =1"],
    ['＝1', "'＝1"],
    ["'=1", "''=1"],
    ['A;=cmd()', "A;'=cmd()"],
    ['A;-2', "A;'-2"],
    ["A;'=1;; @x", "A;''=1;;' @x"],
    ['A\n=1', "A\n'=1"],
    ['A;\n=1', "A;'\n'=1"],
    ['\n=1', "'\n'=1"],
    ['=A;=B', "'=A;'=B"],
    ["'A;+1", "'A;'+1"],
  ])('that would run, %j, is written as %j and read back', (cell, written) => {
    expect(withGuard(cell)).toBe(written);
    expect(withoutGuard(written)).toBe(cell);
  });

  it.each(['-3.5', '+4', '1e-3', 'R-01', "'R", '', "'", 'a=b', '-3.5e+2', 'a; b', "a;'b", 'a,=b'])(
    'that cannot, %j, stays as it is both ways',
    (cell) => {
      expect([withGuard(cell), withoutGuard(cell)]).toEqual([cell, cell]);
    },
  );
});
