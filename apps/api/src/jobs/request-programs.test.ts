import { expect, it } from 'vitest';
import { requestProgram, runProgram } from './request-programs.js';

it('loads the program that is asked for, and no other', async () => {
  const loaded: string[] = [];
  const double = requestProgram('double', () => {
    loaded.push('double');
    return Promise.resolve((number: number) => number * 2);
  });
  requestProgram('triple', () => {
    loaded.push('triple');
    return Promise.resolve((number: number) => number * 3);
  });
  expect(loaded).toEqual([]);
  expect(await runProgram({ program: double.name, given: [4] })).toBe(8);
  expect(loaded).toEqual(['double']);
});

it('knows each name once, and refuses one that nobody told', async () => {
  requestProgram('once', () => Promise.resolve(() => 1));
  expect(() => requestProgram('once', () => Promise.resolve(() => 2))).toThrow('"once"');
  await expect(runProgram({ program: 'never', given: [] })).rejects.toThrow('"never"');
});
