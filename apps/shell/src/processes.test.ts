import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'linewright-shell-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const programOf = (command: string): string =>
  fileURLToPath(new URL(`../start-${command}.mjs`, import.meta.url));

// As npm starts it: elsewhere than the user stands.
const place = { cwd: tmpdir(), env: { ...process.env, INIT_CWD: folder } };

function run(command: string, parts: readonly string[], input = '') {
  const { stdout, stderr, status } = spawnSync(process.execPath, [programOf(command), ...parts], {
    encoding: 'utf8',
    input,
    ...place,
  });
  return { out: stdout, error: stderr, status };
}

function file(name: string, rows: readonly string[]): string {
  writeFileSync(join(folder, name), rows.join('\n'));
  return name;
}

describe.each(['kinship', 'values', 'contributions'])('the process of %s', (command) => {
  it('tells how it is used, and ends with 0', () => {
    const { out, error, status } = run(command, ['--help']);
    expect({ error, status }).toEqual({ error: '', status: 0 });
    expect(out).toContain(`Usage: npm run -s ${command} -- FILE.csv`);
  });

  it('tells what is wrong on standard error, and ends with 1', () => {
    const { out, error, status } = run(command, ['a.csv', '--fast']);
    expect({ out, status }).toEqual({ out: '', status: 1 });
    expect(error).toMatch(/--fast[^]*Usage/);
  });
});

describe('the process of kinship', () => {
  const SELFED = ['tag,sire,dam', 'a,,', 'b,a,a'];
  const header = 'tag,inbreeding_coefficient,complete_generation_equivalents';

  it('reads a file from where the user stands, or standard input', () => {
    const read = run('kinship', [file('selfed.csv', SELFED), '--allow-selfing']);
    expect(read.status).toBe(0);
    expect(read.out).toBe(`${header}\na,0.000000000000,0.000000\nb,0.500000000000,1.000000\n`);
    const piped = run('kinship', ['-', '--allow-selfing'], SELFED.join('\n'));
    expect({ out: piped.out, status: piped.status }).toEqual({ out: read.out, status: 0 });
  });

  it('takes a reader that has had enough for no error', () => {
    const rows = Array.from({ length: 100_000 }, (_, i) => `fish ${i},,`);
    const name = file('long.csv', ['tag,sire,dam', ...rows]);
    const line = `"${process.execPath}" "${programOf('kinship')}" ${name} | head -2; echo "\${PIPESTATUS[0]}"`;
    const { stdout, stderr } = spawnSync('bash', ['-c', line], { encoding: 'utf8', ...place });
    // One line: of fish of unknown origin.
    expect(stderr.trim().split('\n')).toEqual([expect.stringMatching(/takes fish with unknown/)]);
    expect(stdout.trim().split('\n')).toEqual([header, 'fish 0,0.000000000000,0.000000', '0']);
  });
});
