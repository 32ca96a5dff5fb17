import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runProgram } from './run-program.js';

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'linewright-program-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Counts its starts in a file, then does what it is told. */
const counting = (then: string): readonly string[] => [
  '-c',
  `echo . >> "${folder}/starts"; ${then}`,
];
const starts = (): number => readFileSync(join(folder, 'starts'), 'utf8').trim().split('\n').length;
const onTheFirstStart = (signal: string): string =>
  `if [ "$(wc -l < "${folder}/starts")" -eq 1 ]; then kill -${signal} $$; fi; echo done`;

describe.skipIf(process.platform === 'win32')('a program of the database', () => {
  it.each(['INT', 'TERM', 'HUP'])(
    'is started again when SIG%s reached it before it had begun',
    async (signal) => {
      const result = await runProgram('/bin/sh', counting(onTheFirstStart(signal)), null);
      expect(result).toEqual({ status: 0, output: 'done\n' });
      expect(starts()).toBe(2);
    },
  );

  it.each([
    ['killed by something else', 'kill -KILL $$'],
    ['ended after it had begun its work', 'echo begun; kill -INT $$'],
  ])('is not started again when it was %s', async (_, then) => {
    expect((await runProgram('/bin/sh', counting(then), null)).status).toBeNull();
    expect(starts()).toBe(1);
  });

  it('is given up when it is ended each time', async () => {
    const result = await runProgram('/bin/sh', counting('kill -INT $$'), null);
    expect(result).toEqual({ status: null, output: '' });
    expect(starts()).toBe(20);
  });

  it('is given its input anew', async () => {
    const result = await runProgram(
      '/bin/sh',
      counting(`${onTheFirstStart('INT')}; cat`),
      null,
      'statement\n',
    );
    expect(result).toEqual({ status: 0, output: 'done\nstatement\n' });
  });
});
