import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Times apt to fail, as on a wall in each zone: ends of years and months, both changes of the clock, a year ahead. */
export const DAYS = [
  ['Asia/Bangkok', '2026-12-31T23:30'],
  ['Asia/Bangkok', '2027-02-28T23:30'],
  ['Asia/Bangkok', '2028-02-29T00:20'],
  ['Asia/Bangkok', '2027-11-26T09:00'],
  ['America/Los_Angeles', '2026-12-31T23:30'],
  ['America/Los_Angeles', '2027-02-28T23:30'],
  ['America/Los_Angeles', '2028-02-29T23:30'],
  ['America/Los_Angeles', '2027-03-13T23:40'],
  ['America/Los_Angeles', '2027-03-14T12:00'],
  ['America/Los_Angeles', '2027-11-07T00:30'],
  ['America/Los_Angeles', '2027-11-26T09:00'],
  ['Pacific/Auckland', '2026-12-31T23:30'],
  ['Pacific/Auckland', '2027-02-28T00:20'],
  ['Pacific/Auckland', '2028-02-29T23:30'],
  ['Pacific/Auckland', '2027-04-04T01:30'],
  ['Pacific/Auckland', '2027-09-26T12:00'],
  ['Pacific/Auckland', '2027-11-26T09:00'],
];

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Tests of a folder that take the day from the clock of tests: whoever writes one need not think of this list. */
const onTheClock = (folder) =>
  readdirSync(`${root}${folder}`)
    .filter((name) => name.endsWith('.test.ts'))
    .map((name) => `${folder}/${name}`)
    .filter((file) => readFileSync(`${root}${file}`, 'utf8').includes("'../clock.js'"));

const withThose = (folder, names) => [
  ...new Set([...names.map((name) => `${folder}/${name}.test.ts`), ...onTheClock(folder)]),
];

/** Tests whose outcome could hang on the day or the zone, by kind: those that show a day without asking the clock by name. */
export const FILES = {
  unit: [
    'db/seed/src/demo-scenario.test.ts',
    'libs/care/src/timeline',
    'apps/viewer/src/wording',
    'apps/viewer/src/screens/today',
  ],
  api: withThose('tests/api', [
    'care',
    'calendar-feed',
    'spawn-log',
    'water',
    'records',
    'entries',
    'pairing-lines',
    'import-runs',
    'today',
    'carrier-evidence',
    'line-health',
  ]),
  browser: withThose('tests/browser', [
    'care',
    'demo-screens',
    'heredity',
    'main-job',
    'score-sheets',
    'water-and-print',
    'line-health',
    'bench',
    'line-routes',
  ]),
};
