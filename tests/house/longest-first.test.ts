import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { SECONDS } from '../longest-first.js';

const root = new URL('../..', import.meta.url);

it('every file that begins early is still there', () => {
  const gone = Object.keys(SECONDS).filter((file) => !existsSync(new URL(file, root)));
  expect(gone).toEqual([]);
});
