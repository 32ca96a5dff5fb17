import { expect, it } from 'vitest';
import { columnSentence, importSentence } from './import-words.js';

const counts = { newLines: [], skippedRows: 0, newFish: 1, knownFish: 3, newSpawns: 2, scores: 1 };

it('says what an import would do, with the lines it makes and the rows it leaves', () => {
  expect(importSentence(counts)).toBe('1 new fish, 3 already recorded, 2 new spawns, 1 score.');
  expect(importSentence({ ...counts, newLines: ['T', 'Q'], skippedRows: 1 })).toBe(
    '1 new fish, 3 already recorded, 2 new spawns, 1 score, 2 new lines (T, Q). 1 row not imported.',
  );
});

it('says what each column is read as, and which are not', () => {
  const column = (header: string, role: 'TAG' | 'SPAWN' | 'TRAIT' | 'IGNORE') => ({
    ...{ header, role, traitName: null },
  });
  expect(columnSentence([column('No', 'TAG'), column('Bag', 'SPAWN')])).toBe(
    'No: tag; Bag: spawn.',
  );
  expect(columnSentence([column('Spread', 'TRAIT'), column('Tank', 'IGNORE')])).toBe(
    'Spread: trait Spread. Not read: Tank.',
  );
});
