import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/*
 * Runs tests and prints by file how many ran and how often they asserted, so that nothing is lost unseen when tests are rearranged:
 * the same command before and after. A test that never asserted is named.
 *   npm run asserts -- --project unit
 *   npm run asserts -- --project served tests/api/water.test.ts
 */
const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'linewright-asserts-'));
const report = join(folder, 'report.json');
const say = (...parts) => process.stdout.write(`${parts.join('  ')}\n`);
const row = (tests, asserts, file) => say(`${tests}`.padStart(7), `${asserts}`.padStart(8), file);

try {
  const { status } = spawnSync(
    process.execPath,
    [
      ...['node_modules/vitest/vitest.mjs', 'run', '-c', 'tests/vitest.config.ts'],
      ...['--reporter=json', `--outputFile.json=${report}`, ...process.argv.slice(2)],
    ],
    {
      cwd: root,
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, COUNT_ASSERTS: '1' },
    },
  );
  const files = JSON.parse(readFileSync(report, 'utf8')).testResults.map((each) => {
    const ran = each.assertionResults.filter((one) => one.status !== 'pending');
    const asserts = ran.reduce((sum, { meta }) => sum + (meta.asserts ?? 0), 0);
    const silent = ran.filter((one) => one.status === 'passed' && !one.meta.asserts);
    return { file: each.name.slice(root.length), tests: ran.length, asserts, silent };
  });
  row('tests', 'asserts', 'file');
  files.sort((a, b) => a.file.localeCompare(b.file));
  for (const { tests, asserts, file } of files) row(tests, asserts, file);
  const sum = (of) => files.reduce((total, each) => total + of(each), 0);
  row(
    sum((each) => each.tests),
    sum((each) => each.asserts),
    `${files.length} files`,
  );
  for (const { file, silent } of files)
    for (const { fullName } of silent) say(`asserts nothing: ${file}: ${fullName}`);
  process.exitCode = status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
