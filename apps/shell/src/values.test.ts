import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { caught } from './caught.js';
import { values as command } from './values.js';

const folder = mkdtempSync(join(tmpdir(), 'linewright-values-'));

const values = (...parts: string[]) => caught(command, folder, parts);

function file(name: string, rows: readonly string[]): string {
  writeFileSync(join(folder, name), `${rows.join('\n')}\n`);
  return name;
}

const HEADER = 'tag,breeding_value,standard_error,accuracy';
// Mrode RA (2014), Example 3.1 and 5.1, rows shuffled.
const CALVES = [
  'sex,tag,sire,dam,gain,later',
  'M,8,3,6,5.0,7.5',
  ',1,,,,',
  ',2,,,,',
  ',3,,,,',
  'M,4,1,,4.5,6.8',
  'F,5,3,2,2.9,5.0',
  'F,6,1,2,3.9,6.8',
  'M,7,4,5,3.5,6.0',
];

beforeAll(() => {
  file('calves.csv', CALVES);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Columns of the output as numbers, by tag. */
function table(out: string): Map<string, number[]> {
  const [, ...rows] = out.trim().split('\n');
  return new Map(
    rows.map((row) => {
      const [tag, ...figures] = row.split(',');
      return [tag!, figures.map(Number)];
    }),
  );
}

describe('the values command', () => {
  it('prints every fish in the order of the file, at a given heritability, and says so', async () => {
    const { out, error, status } = await values(
      ...['calves.csv', '--trait', 'gain', '--fixed', 'sex'],
      ...['--heritability', String(1 / 3)],
    );
    expect(status).toBe(0);
    expect(out.split('\n')[0]).toBe(HEADER);
    expect([...table(out).keys()]).toEqual(['8', '1', '2', '3', '4', '5', '6', '7']);
    expect(out.split('\n')[2]).toMatch(/^1,0\.098444575704,\d\.\d{12},\d\.\d{12}$/);
    // Printed in the book.
    const printed = [0.098, -0.019, -0.041, -0.009, -0.186, 0.177, -0.249, 0.183];
    printed.forEach((value, k) => expect(table(out).get(String(k + 1))![0]).toBeCloseTo(value, 3));
    expect(error).toContain('taken as given; the scale');
  });

  it('runs REML without one and tells the variances on standard error', async () => {
    const { out, error } = await values('calves.csv', '--trait', 'gain', '--fixed', 'sex');
    expect(table(out).size).toBe(8);
    expect(error).toMatch(/variances by REML in \d+ steps\. gain: additive 0\.676/);
    expect(error).toContain('residual 0; heritability 1');
  });

  it('prints the components as one JSON object', async () => {
    const rows = [0, 1, 2, 3, 4, 5].flatMap((sire) =>
      [0, 1, 2, 3, 4, 5, 6, 7].map((k) => {
        const fish = 8 * sire + k;
        const score = 10 + ((sire * 5) % 7) + ((fish * 37) % 11) / 3 + (k >> 2);
        return `f${fish},s${sire},d${2 * sire + (k >> 2)},b${2 * sire + (k >> 2)},${score.toFixed(3)}`;
      }),
    );
    const name = file('broods.csv', ['tag,sire,dam,brood,score', ...rows]);
    const { out, status } = await values(
      ...[name, '--trait', 'score', '--common', 'brood', '--components', '--add-unlisted'],
    );
    expect(status).toBe(0);
    const found = JSON.parse(out) as Record<string, unknown>;
    expect(Object.keys(found)).toEqual([
      ...['traits', 'additive', 'common', 'residual', 'heritability', 'standard_errors'],
      ...['restricted_log_likelihood', 'iterations', 'fixed_effects'],
    ]);
    const { additive, common, residual, heritability } = found as Record<string, number>;
    expect(heritability).toBeCloseTo(additive! / (additive! + common! + residual!), 12);
    expect(found['fixed_effects']).toEqual([
      expect.objectContaining({ column: 'mean', level: null, effect: expect.any(Number) }),
    ]);
  });

  it('takes several traits together', async () => {
    const rows = ['tag,sire,dam,a,b', ...['s,,,,', 't,,,,', 'd,,,,', 'e,,,,']];
    for (let k = 0; k < 60; k++) {
      const [s, d] = [k % 2 === 0 ? 's' : 't', k % 3 === 0 ? 'd' : 'e'];
      const a = (s === 's' ? 3 : 0) + ((k * 29) % 13) / 2;
      rows.push(`f${k},${s},${d},${a},${k % 7 === 0 ? '' : a / 2 + ((k * 17) % 5)}`);
    }
    const { out, error, status } = await values(file('two.csv', rows), '--trait', 'a,b');
    expect(`${status} ${error}`).toMatch(/^0 /);
    expect(out.split('\n')[0]).toBe(
      'tag,breeding_value_a,standard_error_a,accuracy_a,breeding_value_b,standard_error_b,accuracy_b',
    );
    expect(table(out).get('f0')).toHaveLength(6);
  });

  it('joins repeated looks, and refuses parents that contradict', async () => {
    const rows = [
      'tag,sire,dam,score',
      'a,,,3',
      'b,,,5',
      'c,a,b,4',
      'c,,,4.5',
      'd,a,b,6',
      'd,a,b,5.5',
    ];
    const joined = await values(
      file('looks.csv', rows),
      '--trait',
      'score',
      '--heritability',
      '0.3',
    );
    expect([...table(joined.out).keys()]).toEqual(['a', 'b', 'c', 'd']);
    expect(joined.error).toContain('MERIT_LOOKS_NOT_FITTED');
    const wrong = await values(file('wrong.csv', [...rows, 'd,b,a,5']), '--trait', 'score');
    expect({ out: wrong.out, status: wrong.status }).toEqual({ out: '', status: 1 });
    expect(wrong.error).toContain('Line 8: "d" has the sire "b" here and "a" on line 6');
  });

  it.each([
    ['no trait', ['calves.csv'], 'Usage'],
    ['no such column', ['calves.csv', '--trait', 'size'], 'no column is called size'],
    ['a word as a score', ['calves.csv', '--trait', 'sex'], 'Line 2: "M" in "sex" is not a number'],
    [
      'a scored fish without its class',
      [
        file('gap.csv', ['tag,sire,dam,sex,y', 'a,,,M,1', 'b,,,,2', 'c,a,b,F,3']),
        ...['--trait', 'y', '--fixed', 'sex'],
      ],
      'Line 3: the fish was scored, but "sex" is empty',
    ],
    [
      'heritability 0',
      ['calves.csv', '--trait', 'gain', '--heritability', '0'],
      'MERIT_OUT_OF_RANGE',
    ],
    [
      'heritability 1',
      ['calves.csv', '--trait', 'gain', '--heritability', '1'],
      'MERIT_OUT_OF_RANGE',
    ],
    [
      'a heritability that is no number',
      ['calves.csv', '--trait', 'gain', '--heritability', 'high'],
      'takes a number above 0 and below 1, not "high"',
    ],
    [
      'a column named twice',
      ['calves.csv', '--trait', 'gain', '--fixed', 'gain'],
      'The column "gain" is named twice',
    ],
    [
      'a column that explains every score',
      [
        file('told.csv', [
          'tag,sire,dam,class,y',
          ...['a,,,p,1', 'b,,,q,2', 'c,a,b,p,1', 'd,a,b,q,2', 'e,a,b,p,1', 'f,a,b,q,2'],
        ]),
        ...['--trait', 'y', '--fixed', 'class'],
      ],
      'Within the fixed levels all scores .*are the same.*MERIT_NO_VARIATION',
    ],
    [
      'the same at a given heritability',
      ['told.csv', '--trait', 'y', '--fixed', 'class', '--heritability', '0.3'],
      'Within the fixed levels all scores .*are the same.*MERIT_NO_VARIATION',
    ],
    [
      'two fish',
      [file('pair.csv', ['tag,sire,dam,y', 'a,,,1', 'b,a,,2']), '--trait', 'y'],
      'MERIT_TOO_FEW',
    ],
    [
      'no variation',
      [
        file('same.csv', [
          'tag,sire,dam,y',
          ...['a,,', 'b,,', 'c,a,b', 'd,a,b', 'e,c,d'].map((r) => `${r},7`),
        ]),
        ...['--trait', 'y'],
      ],
      'MERIT_NO_VARIATION',
    ],
    [
      'all unrelated',
      [
        file('apart.csv', ['tag,sire,dam,y', ...[3, 5, 4, 8, 6, 1].map((y, k) => `f${k},,,${y}`)]),
        ...['--trait', 'y'],
      ],
      'cannot tell additive and residual apart.*MERIT_NOT_SEPARABLE',
    ],
  ])('explains %s', async (_, parts, message) => {
    const { out, error, status } = await values(...parts);
    expect({ out, status }).toEqual({ out: '', status: 1 });
    expect(error).toMatch(new RegExp(message));
  });

  it('tells columns that say the same, one level only and mixed units, and answers all the same', async () => {
    const rows = ['tag,sire,dam,season,year,tank,y'];
    const scores = [180, 17.5, 171, 16.9, 176, 18.1, 168, 17.2, 183, 18.4];
    scores.forEach((y, k) => {
      const parents = k < 2 ? ',' : 'f0,f1';
      rows.push(`f${k},${parents},s${k % 2},y${k % 2},t,${y}`);
    });
    const { out, error, status } = await values(
      ...[file('odd.csv', rows), '--trait', 'y', '--fixed', 'season,year,tank'],
      ...['--heritability', '0.2'],
    );
    expect(status).toBe(0);
    expect(table(out).size).toBe(10);
    expect(error).toContain('"tank" has one level only');
    expect(error).toMatch(/"y1" of "year" says nothing that the columns before do not say already/);
    expect(error).toContain('MERIT_UNITS_MIXED');
  });

  it('takes a brood of 600', async () => {
    const rows = ['tag,sire,dam,y', 'a,,,', 'b,,,', 'c,,,'];
    for (let k = 0; k < 600; k++) rows.push(`f${k},a,b,${10 + ((k * 7919) % 101) / 20}`);
    for (let k = 0; k < 30; k++) rows.push(`g${k},a,c,${11 + ((k * 7919) % 101) / 20}`);
    const { out, status } = await values(file('six.csv', rows), '--trait', 'y');
    expect(status).toBe(0);
    expect(table(out).size).toBe(633);
  });
});
