import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { caught } from './caught.js';
import { contributions as command } from './contributions.js';

const folder = mkdtempSync(join(tmpdir(), 'linewright-contributions-'));

const contributions = (...parts: string[]) => caught(command, folder, parts);

// Full sibs a and b, their half sib c, and y, a half sib of c; parents are no candidates.
const FISH = [
  'use,sex,tag,sire,dam,worth',
  '1,F,y,x,D2,0.5',
  ',,S,,,',
  ',,D1,,,',
  '0,f,D2,,,9',
  ',,x,,,',
  '1,m,a,S,D1,2',
  '1,female,b,S,D1,3',
  '1,male,c,S,D2,1',
];

const file = (name: string, rows: readonly string[]): string => {
  writeFileSync(join(folder, name), `${rows.join('\n')}\n`);
  return name;
};

beforeAll(() => {
  file('fish.csv', FISH);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const sharesIn = (out: string): Map<string, number> =>
  new Map(
    out
      .trim()
      .split('\n')
      .slice(1)
      .map((row) => {
        const [tag, share] = row.split(',');
        return [tag!, Number(share)];
      }),
  );

const asked = ['fish.csv', '--candidate', 'use'];

describe('the contributions command', () => {
  it('prints the shares of least coancestry, each sex one half, in the order of the file', async () => {
    const { out, error, status } = await contributions(...asked, '--least');
    expect(status).toBe(0);
    expect(out.split('\n')[0]).toBe('tag,contribution');
    // In closed form: with a + c = 1/2 and b + y = 1/2 the least of c'Kc lies at 3, 2, 2.5 and 3.5 of 11.
    expect(out.split('\n').slice(1, 5)).toEqual([
      'y,0.318181818182',
      'a,0.272727272727',
      'b,0.181818181818',
      'c,0.227272727273',
    ]);
    expect(error).toContain('mean coancestry 0.198863636364');
  });

  it('prints the shares of greatest worth within a limit, which they reach', async () => {
    const { out, error } = await contributions(...asked, '--value', 'worth', '--kinship', '0.25');
    const share = sharesIn(out);
    expect(share.get('a')! + share.get('c')!).toBeCloseTo(0.5, 11);
    expect(share.get('b')! + share.get('y')!).toBeCloseTo(0.5, 11);
    const [a, b, c, y] = ['a', 'b', 'c', 'y'].map((tag) => share.get(tag)!);
    const mean =
      (a! ** 2 + b! ** 2 + c! ** 2 + y! ** 2) / 2 + (a! * b!) / 2 + ((a! + b! + y!) * c!) / 4;
    expect(mean).toBeCloseTo(0.25, 10);
    expect(error).toContain('mean coancestry 0.250000000000');
    expect(error).toContain(`mean worth ${(2 * a! + 3 * b! + c! + y! / 2).toFixed(9)}`);
  });

  it('gives all to the best where the limit allows', async () => {
    const { out } = await contributions(...asked, '--value', 'worth', '--kinship', '1');
    expect([...sharesIn(out)]).toEqual([
      ['y', 0],
      ['a', 0.5],
      ['b', 0.5],
      ['c', 0],
    ]);
  });

  it('says the least that can be reached when the limit is too low', async () => {
    const { out, error, status } = await contributions(
      ...asked,
      '--value',
      'worth',
      '--kinship',
      '0.1',
    );
    expect([out, status]).toEqual(['', 1]);
    expect(error).toContain('the least is 0.198863636364');
    expect(error).toContain('MATING_COANCESTRY_UNREACHABLE');
  });

  it.each([
    ['a limit that is none', ['--value', 'worth', '--kinship', '2'], '--kinship "2"'],
    ['a limit that nobody writes', ['--value', 'worth', '--kinship', '0x1'], '--kinship "0x1"'],
    ['neither a limit nor --least', ['--value', 'worth'], 'or --least'],
    ['a limit without worth', ['--kinship', '0.2'], 'or --least'],
    ['a column that is not there', ['--value', 'weight', '--kinship', '0.2'], 'weight'],
  ])('refuses %s', async (_, more, told) => {
    const { out, error, status } = await contributions(...asked, ...more);
    expect([out, status]).toEqual(['', 1]);
    expect(error).toContain(told);
  });

  it.each([
    ['a candidate without a sex', '1,,z,,,1', 'Line 10: a candidate needs the sex male or female'],
    ['a candidate without worth', '1,m,z,,,', 'Line 10: a candidate needs a number in "worth"'],
    ['a mark that is neither 0 nor 1', 'yes,m,z,,,1', '"yes" in "use" must be 1'],
  ])('refuses %s, with its line', async (_, row, told) => {
    file('wrong.csv', [...FISH, row]);
    const { error, status } = await contributions(
      ...['wrong.csv', '--candidate', 'use', '--value', 'worth', '--kinship', '0.3'],
    );
    expect(status).toBe(1);
    expect(error).toContain(told);
  });

  it('refuses candidates of one sex', async () => {
    file(
      'males.csv',
      FISH.filter((row) => !/^1,f/i.test(row)),
    );
    const { error } = await contributions('males.csv', '--candidate', 'use', '--least');
    expect(error).toContain('There is no female candidate');
  });
});
