import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import { DAYS, FILES } from './days.mjs';

/*
 * Runs the tests that could hang on the day on each of DAYS and says what passed and failed there. Parts of it:
 *   npm run test:days -- --on 2027-03-13 --in America/Los_Angeles --kind api --file care
 */
const root = fileURLToPath(new URL('../..', import.meta.url));
const { values } = parseArgs({
  options: {
    on: { type: 'string', default: '' },
    in: { type: 'string', default: '' },
    kind: { type: 'string', default: '' },
    file: { type: 'string', default: '' },
  },
});

/** Tests of the API and of the browser are one project. */
const projectOf = (kind) => (kind === 'unit' ? 'unit' : 'served');
const kinds = Object.keys(FILES).filter((kind) => kind.includes(values.kind));
const files = kinds.flatMap((kind) => FILES[kind].filter((file) => file.includes(values.file)));
const days = DAYS.filter(([zone, day]) => zone.includes(values.in) && day.startsWith(values.on));
const say = (line) => process.stdout.write(`${line}\n`);

const vitest = (zone, day, report) =>
  new Promise((resolve) => {
    const child = spawn(
      process.execPath,
      [
        'node_modules/vitest/vitest.mjs',
        'run',
        '-c',
        'tests/vitest.config.ts',
        '--reporter=json',
        `--outputFile.json=${report}`,
        ...[...new Set(kinds.map(projectOf))].flatMap((project) => ['--project', project]),
        ...files,
      ],
      {
        cwd: root,
        env: { ...process.env, TZ: zone, TEST_DAY: day },
        stdio: ['ignore', 'ignore', 'ignore'],
      },
    );
    child.on('exit', resolve);
  });

const failuresOf = (report) =>
  report.testResults.flatMap(({ name, status, message, assertionResults }) => {
    const file = name.slice(root.length);
    const failed = assertionResults.filter((one) => one.status === 'failed');
    // A file whose setting up failed has no failed test of its own.
    if (status === 'failed' && failed.length === 0) return [{ file, title: 'the file', message }];
    return failed.map(({ fullName, failureMessages }) => ({
      file,
      title: fullName,
      message: failureMessages[0] ?? '',
    }));
  });

/** Whether all passed there; a run that left no report, or ran nothing, did not. */
const sweepOne = async (zone, day) => {
  const began = performance.now();
  const folder = mkdtempSync(join(tmpdir(), 'linewright-days-'));
  const path = join(folder, 'report.json');
  try {
    const code = await vitest(zone, day, path);
    const report = JSON.parse(readFileSync(path, 'utf8'));
    const failures = failuresOf(report);
    const seconds = Math.round((performance.now() - began) / 1000);
    say(
      `${day} in ${zone}: ${report.numPassedTests} passed, ${failures.length} failed, ${seconds} s`,
    );
    for (const { file, title, message } of failures) {
      say(`  ${file}: ${title}\n    ${message.split('\n')[0]}`);
    }
    return code === 0 && failures.length === 0 && report.numPassedTests > 0;
  } catch (error) {
    say(`${day} in ${zone}: it did not run to its end (${error.message})`);
    return false;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

if (days.length === 0 || files.length === 0) {
  say('No day or no file fits what was asked for: see tests/days/days.mjs.');
  process.exit(1);
}
let failed = 0;
for (const [zone, day] of days) if (!(await sweepOne(zone, day))) failed += 1;
say(`${days.length - failed} of ${days.length} days and zones passed`);
process.exit(failed === 0 ? 0 : 1);
