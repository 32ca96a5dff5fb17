import { expect, it } from 'vitest';
import {
  decidedOf,
  nothingDecided,
  repairsInput,
  withAnswer,
  withCell,
  withFish,
  withoutRow,
  withValue,
} from './repairs.js';

it('keeps the answers to a cause in their order, and follows a value that is mended twice', () => {
  const cause = { code: 'IMPORT_BAD_SEX', column: 'sex' };
  const offered = withAnswer(nothingDecided, cause, 'OFFER');
  const answered = withAnswer(withAnswer(offered, cause, 'EMPTY'), cause, 'EMPTY');
  expect(repairsInput(answered).answers).toEqual([
    { ...cause, answer: 'OFFER' },
    { ...cause, answer: 'EMPTY' },
  ]);
  const mended = withValue(withValue(nothingDecided, 'sex', 'boy', 'mael'), 'sex', 'mael', 'male');
  expect(mended.values).toContainEqual({ column: 'sex', from: 'boy', to: 'male' });
});

it('sends nothing but what the server takes, whatever else came with its answer', () => {
  const named = { ...nothingDecided, __typename: 'ImportRepairs' };
  expect(repairsInput(withCell(named, 2, 'tag', 'A'))).toEqual({
    ...nothingDecided,
    cells: [{ line: 2, column: 'tag', to: 'A' }],
  });
});

it('says what was decided, and takes each of it back by itself', () => {
  const decided = withFish(
    withoutRow(withCell(withValue(nothingDecided, 'sex', 'boy', 'male'), 7, 'tag', 'R-9'), 9),
    11,
  );
  const list = decidedOf(
    withAnswer(decided, { code: 'IMPORT_ROW_LENGTH', column: null }, 'LEAVE_OUT'),
  );
  expect(list.map(({ words }) => words)).toEqual([
    'Rows: none not imported',
    'sex: “boy” is read as “male”',
    'Line 7, tag: “R-9”',
    'Line 9 is not imported',
    'Line 11 is a fish',
  ]);
  expect(list[1]?.undone.values).toEqual([]);
  expect(list[1]?.undone.cells).toHaveLength(1);
  expect(decidedOf(list[4]!.undone)).toHaveLength(4);
  expect(withoutRow(withoutRow(decided, 9), 9).leftOut).toEqual([9]);
});
