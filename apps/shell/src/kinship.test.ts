import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { caught } from './caught.js';
import { kinship as command } from './kinship.js';

const folder = mkdtempSync(join(tmpdir(), 'linewright-kinship-'));

interface Outcome {
  readonly out: string;
  /** Standard error without {@link origin}. */
  readonly error: string;
  /** What it says of fish of unknown origin. */
  readonly origin: string;
  readonly status: number | null;
}

function withoutOrigin(stderr: string): [rest: string, origin: string] {
  const isOrigin = (line: string) => line.includes(': every F takes fish with unknown parents');
  const lines = stderr.split('\n');
  return [lines.filter((line) => !isOrigin(line)).join('\n'), lines.filter(isOrigin).join('\n')];
}

async function kinship(...parts: string[]): Promise<Outcome> {
  const { out, error: said, status } = await caught(command, folder, parts);
  const [error, origin] = withoutOrigin(said);
  return { out, error, origin, status };
}

function file(name: string, text: string | Uint8Array): string {
  writeFileSync(join(folder, name), text);
  return name;
}

const SIBS = ['tag,sire,dam', 'fry,red,blue', 'red,gran,old', 'blue,gran,old', 'gran,,', 'old,,'];
const HEADER = 'tag,inbreeding_coefficient,complete_generation_equivalents';

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the kinship command', () => {
  it('says how many F rest on unknown parents, which leaves its columns alone', async () => {
    const { out, origin } = await kinship(file('origin.csv', SIBS.join('\n')));
    expect(origin).toBe(
      'origin.csv: every F takes fish with unknown parents as unrelated. Of 5 fish, 2 lack a parent themselves (their F is not known) and 3 have such fish behind them (their F is the value given or more).',
    );
    expect(out.split('\n')[0]).toBe(HEADER);
  });

  it('prints F and complete generation equivalents in the order of the file', async () => {
    const { out, error, status } = await kinship(file('sibs.csv', `${SIBS.join('\n')}\n`));
    expect({ error, status }).toEqual({ error: '', status: 0 });
    expect(out.split('\n')).toEqual([
      HEADER,
      'fry,0.250000000000,2.000000',
      'red,0.000000000000,1.000000',
      'blue,0.000000000000,1.000000',
      'gran,0.000000000000,0.000000',
      'old,0.000000000000,0.000000',
      '',
    ]);
  });

  it('reads quotes, CRLF, a byte order mark, blanks, other columns, letters beyond ASCII, no last line break', async () => {
    const text = [
      'Line,DAM, Tag ,sire',
      'x,"blue, pale"," fry ""one""", rød',
      '"two\r\nlines", old ,rød,gran',
      ',old,"blue, pale",gran',
      '',
      'x,,gran,',
      'x,,old,',
    ].join('\r\n');
    const { out, error } = await kinship(file('quoted.csv', `\uFEFF${text}`));
    expect(error).toBe('');
    expect(out.split('\n').slice(1, 4)).toEqual([
      '" fry ""one""",0.250000000000,2.000000',
      'rød,0.000000000000,1.000000',
      '"blue, pale",0.000000000000,1.000000',
    ]);
  });

  it('writes no cell that a spreadsheet would run, and reads what it wrote', async () => {
    const tags = ['=1+1', '@sum', '"\t-2"', "'=x", '-3', 'A;=1', "B;'=1"];
    const { out } = await kinship(
      file('runs.csv', ['tag,sire,dam', ...tags.map((t) => `${t},,`)].join('\n')),
    );
    const written = out
      .split('\n')
      .slice(1, -1)
      .map((row) => row.split(',')[0]);
    // An apostrophe that stood before a formula was one of a guard.
    expect(written).toEqual([...["'=1+1", "'@sum", "'\t-2", "'=x", '-3'], ...["A;'=1", "B;'=1"]]);
    const again = await kinship(
      file('again.csv', ['tag,sire,dam', ...written.map((t) => `${t},,`)].join('\n')),
    );
    expect(again.out).toBe(out);
    const pairs = await kinship('again.csv', '--pairs', file('runs-pairs.csv', "=1+1,'@sum\n"));
    expect(pairs.out.split('\n')[1]).toBe("'=1+1,'@sum,0.000000000000");
  });

  it('prints the coancestry of pairs, with or without a header', async () => {
    const pedigree = file('sibs.csv', SIBS.join('\n'));
    const wanted = 'first,second,coancestry\nred,blue,0.250000000000\nfry,fry,0.625000000000\n';
    expect(
      (await kinship(pedigree, '--pairs', file('a.csv', 'male,female\nred,blue\nfry,fry\n'))).out,
    ).toBe(wanted);
    expect((await kinship(pedigree, '--pairs', file('b.csv', 'red,blue\nfry,fry\n'))).out).toBe(
      wanted,
    );
    const bad = await kinship(pedigree, '--pairs', file('c.csv', 'red,blue\nred,nobody\nred\n'));
    expect(bad.status).toBe(1);
    expect(bad.out).toBe('');
    expect(bad.error).toContain('Line 2: "nobody" is not in the pedigree');
    expect(bad.error).toContain('Line 3: there are 1 fields');
  });

  it('lists every fault with its line, prints nothing else and exits with 1', async () => {
    const rows = [
      'tag,sire,dam',
      'a,b,nobody',
      'b,a,',
      'c,d,d',
      'd,,',
      'd,,',
      ',,',
      'e,,,',
      'f,d,a',
      'g,a,d',
    ];
    const { out, error, status } = await kinship(file('bad.csv', rows.join('\n')));
    expect({ out, status }).toEqual({ out: '', status: 1 });
    const lines = error.trim().split('\n');
    expect(lines.map((line) => /^bad\.csv: Line (\d+): /.exec(line)?.[1])).toEqual([
      '2',
      '2',
      '2',
      '4',
      '5',
      '6',
      '7',
      '8',
    ]);
    for (const part of [
      '"nobody"',
      'own ancestor',
      'both sire and dam',
      'record already (line 5)',
      'tag is empty',
      '4 fields',
    ]) {
      expect(error).toContain(part);
    }
  });

  it('takes young of one spawn for full sibs, whether or not their parents are known', async () => {
    const rows = ['spawn,tag,sire,dam', 'shop,a,,', 'shop,b,,', ',c,,', 'half,d,c,', 'half,e,c,'];
    const young = ['home,ab,a,b', 'home,de,d,e', 'home,cb,c,b'];
    const { out, error } = await kinship(file('bought.csv', [...rows, ...young].join('\n')));
    expect(error).toBe('');
    // Wright 1922: young of full sibs 1/4; parents nobody knows are no generation on record.
    expect(out).toContain('\nab,0.250000000000,1.000000');
    expect(out).toContain('\nde,0.250000000000,1.500000');
    expect(out).toContain('\ncb,0.000000000000,1.000000');
    expect(out).not.toContain('unknown');
    const pairs = file('bought-pairs.csv', 'a,b\na,c\nd,e\n');
    expect((await kinship('bought.csv', '--pairs', pairs)).out).toContain(
      'a,b,0.250000000000\na,c,0.0',
    );
    const bad = await kinship(
      file('two.csv', 'tag,sire,dam,spawn\np,,,\nq,,,\na,p,,s\nb,q,,s\nc,,,s\n'),
    );
    expect({ out: bad.out, status: bad.status }).toEqual({ out: '', status: 1 });
    expect(bad.error).toMatch(/Line 5: "b" has the sire "q".*"a" \(line 4\).*spawn "s"/);
  });

  it.each(['0', 'unknown', '?', '-', 'NA'])(
    'takes %s as a parent for an unknown one and says so',
    async (word) => {
      const text = `tag,sire,dam\na,${word},m\nb,${word},n\nm,,\nn,,${word}\nab,a,b\n`;
      for (const options of [[], ['--add-unlisted']]) {
        const { out, error, status } = await kinship(file('word.csv', text), ...options);
        expect(status).toBe(0);
        expect(out).toContain('\nab,0.000000000000');
        expect(out.trim().split('\n')).toHaveLength(6);
        expect(error).toContain(`"${word}" as a parent was taken as not known (3 times)`);
      }
      const own = await kinship(file('own.csv', `${text}${word},,\n`));
      expect(own.error).not.toContain('was taken');
    },
  );

  it('takes unlisted parents for founders when told to', async () => {
    const text = 'tag,sire,dam\nfry,red,blue\n';
    expect((await kinship(file('short.csv', text))).status).toBe(1);
    expect(
      (await kinship(file('short.csv', text), '--add-unlisted')).out.split('\n').slice(1, 4),
    ).toEqual([
      'fry,0.000000000000,1.000000',
      'red,0.000000000000,0.000000',
      'blue,0.000000000000,0.000000',
    ]);
  });

  it('allows selfing only when told to', async () => {
    const name = file('self.csv', 'tag,sire,dam\na,,\nb,a,a\n');
    expect((await kinship(name)).error).toContain('both sire and dam');
    expect((await kinship(name, '--allow-selfing')).out).toContain('b,0.500000000000,1.000000');
  });

  it.each([
    ['no file', [], 'Usage'],
    ['a file that is not there', ['none.csv'], 'none.csv cannot be read'],
    ['an empty file', [file('empty.csv', '')], 'The file is empty'],
    ['no such option', ['--fast', 'x.csv'], '--fast'],
    [
      'missing columns',
      [file('columns.csv', 'fish,father\n')],
      'no column is called tag or sire or dam',
    ],
    ['semicolons', [file('semicolons.csv', 'tag;sire;dam\na;;\n')], 'parted by commas'],
    ['an open quote', [file('open.csv', 'tag,sire,dam\n"a,,\n')], 'never closed'],
    [
      'text after a quote',
      [file('after.csv', 'tag,sire,dam\n"a"b,,\n')],
      'after a closing quote|follows',
    ],
    [
      'bytes that are not UTF-8',
      [file('latin.csv', Uint8Array.of(...Buffer.from('tag,sire,dam\n'), 0xe9, 44, 44, 10))],
      'UTF-8',
    ],
  ])('explains %s', async (_, parts, message) => {
    const { out, error, status } = await kinship(...parts);
    expect({ out, status }).toEqual({ out: '', status: 1 });
    expect(error).toMatch(new RegExp(message));
  });

  it('tells each fault once, though records stand across what is read at once', async () => {
    const rows = Array.from({ length: 2500 }, (_, i) => `"a"b${i}${'x'.repeat(1000)},,`);
    const { error, status } = await kinship(
      file('faults.csv', ['tag,sire,dam', ...rows].join('\n')),
    );
    expect(status).toBe(1);
    const lines = error.split('\n').filter((line) => line.includes('follows a closing quote'));
    expect(lines).toHaveLength(rows.length);
    expect(new Set(lines).size).toBe(rows.length);
  });

  it('is not held up when nearly every row is at fault', async () => {
    // Fish that are sire of the next and dam of the one after; young come first.
    const rows = Array.from({ length: 20_000 }, (_, k) => {
      const i = 20_000 - k;
      return i > 2 ? `f${i},f${i - 1},f${i - 2}` : `f${i},,`;
    });
    const text = ['tag,sire,dam', ...rows].join('\n');
    const { error, status } = await kinship(file('roles.csv', text));
    expect(status).toBe(1);
    expect(error.trim().split('\n')).toHaveLength(19_997);
  });

  it('gives the same figures to rows in any order, across chunk borders', async () => {
    // About 3 MB, so that records stand across the borders of what is read at once.
    const rows: string[] = [];
    for (let i = 0; i < 60_000; i++) {
      const parent = (sex: number) =>
        i < 20 ? '' : `"fish number ${2 * ((i * 7919) % (i >> 2)) + sex}"`;
      rows.push(`"fish number ${i}",${parent(0)},${parent(1)}`);
    }
    const forward = await kinship(file('forward.csv', ['tag,sire,dam', ...rows].join('\n')));
    const backward = await kinship(
      file('backward.csv', ['tag,sire,dam', ...rows.reverse()].join('\n')),
    );
    expect(forward.error + backward.error).toBe('');
    const lines = forward.out.trim().split('\n').slice(1);
    expect(lines).toHaveLength(60_000);
    expect(backward.out.trim().split('\n').slice(1).reverse()).toEqual(lines);
    expect(lines.filter((line) => !line.includes(',0.000000000000,')).length).toBeGreaterThan(1000);
  });
});
