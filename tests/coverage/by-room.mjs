import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { byRoom } from './rooms.mjs';

/*
 * Runs the tests that load the source and prints what they reach of each room. One kind, or one file:
 *   npm run coverage -- --project unit
 *   npm run coverage -- --project served tests/api/water.test.ts
 */
const root = fileURLToPath(new URL('../..', import.meta.url));
/** Tests that load the source. */
const FOLDERS = [
  ...['libs/', 'db/', 'apps/'],
  ...['published', 'properties', 'docs', 'house', 'api'].map((folder) => `tests/${folder}/`),
];
const KINDS = ['unit', 'published', 'properties', 'docs', 'served'];
const given = process.argv.slice(2);
const kinds = given.includes('--project')
  ? []
  : [...KINDS.flatMap((kind) => ['--project', kind]), ...(given.length === 0 ? FOLDERS : [])];

const folder = mkdtempSync(join(tmpdir(), 'linewright-coverage-'));
try {
  const { status } = spawnSync(
    process.execPath,
    [
      ...['node_modules/vitest/vitest.mjs', 'run', '-c', 'tests/vitest.config.ts'],
      ...['--reporter=dot', '--coverage', '--coverage.provider=v8'],
      ...['--coverage.reporter=json-summary', `--coverage.reportsDirectory=${folder}`],
      // What failed is told above the figures; they stand for what ran.
      '--coverage.reportOnFailure',
      ...['libs/*/src/**/*.ts', 'db/*/src/**/*.ts', 'apps/*/src/**/*.{ts,tsx}'].map(
        (files) => `--coverage.include=${files}`,
      ),
      ...['**/*.test.ts', '**/*.d.ts', '**/dist/**'].map((files) => `--coverage.exclude=${files}`),
      ...kinds,
      ...given,
    ],
    { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] },
  );
  const summary = JSON.parse(readFileSync(join(folder, 'coverage-summary.json'), 'utf8'));
  const line = (share, room, of) => `${share.padStart(7)}  ${room.padEnd(32)}${of}\n`;
  process.stdout.write(`\n${line('reached', 'room', 'statements')}`);
  for (const { room, total, covered, share } of byRoom(summary, root))
    process.stdout.write(line(`${(100 * share).toFixed(1)} %`, room, `${covered} of ${total}`));
  process.exitCode = status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
