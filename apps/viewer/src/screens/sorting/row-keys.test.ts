import { expect, it } from 'vitest';
import { rowStep } from './row-keys.js';

const press = (key: string, held = {}) =>
  rowStep({ key, ctrlKey: false, metaKey: false, altKey: false, ...held });

it('one key a decision on a row, in small and capital letters; the browser keeps its own', () => {
  expect([press('k'), press('C'), press('U')]).toEqual([
    { decide: 'KEEPER' },
    { decide: 'CULLED' },
    'undo',
  ]);
  expect([press('ArrowDown'), press('ArrowUp')]).toEqual(['down', 'up']);
  expect([press('x'), press('Enter'), press('c', { ctrlKey: true })]).toEqual([null, null, null]);
});
