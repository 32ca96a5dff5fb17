import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** One PostgreSQL server for all that need one; a browser is found, or unpacked, once. */
const database = 'tests/database/setup.ts';
const browser = 'tests/browser/setup.ts';
/** Files of a kind at a time that starts servers and browsers: half of such a test is waiting for them. */
const manyWaiting = Math.max(3, availableParallelism());
const root = fileURLToPath(new URL('..', import.meta.url));

/** One project a kind of test, so that a kind can be run alone: `npx vitest run -c tests/vitest.config.ts --project published`. */
const kind = (name: string, include: string[], more: Record<string, unknown> = {}) => ({
  extends: true as const,
  test: { name, include, ...more },
});

/** Days and zones that every run looks at beside its own; all of them: `npm run test:days`. */
const onAnotherDay = (
  zone: string,
  day: string,
  include: string[],
  groupOrder: number,
  globalSetup = [database],
) =>
  kind(`days ${zone} ${day}`, include, {
    isolate: false,
    maxWorkers: manyWaiting,
    env: { TZ: zone, TEST_DAY: day },
    globalSetup,
    sequence: { groupOrder },
  });

export default defineConfig({
  root,
  resolve: {
    conditions: ['linewright-source'],
    // One copy of graphql for the API's source and for Nest, which node loads by its main field.
    alias: [{ find: /^graphql$/, replacement: `${root}node_modules/graphql/index.js` }],
  },
  ssr: { resolve: { conditions: ['linewright-source'] } },
  // Where vitest runs what sets a run up: without it a clone that has not been built before has no database package.
  environments: { __vitest__: { resolve: { conditions: ['linewright-source'] } } },
  test: {
    // Two at least: most of a test of a server or a browser is waiting.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    // A limit against a test that hangs, not a measure of speed: a busy machine takes its time.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    expect: { poll: { timeout: 200_000 } },
    projects: [
      kind(
        'unit',
        ['libs/*/src/**/*.test.ts', 'db/*/src/**/*.test.ts', 'apps/*/src/**/*.test.ts'],
        { isolate: false },
      ),
      kind('published', ['tests/published/**/*.test.ts'], { isolate: false }),
      kind('properties', ['tests/properties/**/*.test.ts'], { isolate: false }),
      kind('docs', ['tests/docs/**/*.test.ts', 'tests/house/**/*.test.ts'], { isolate: false }),
      // Those that start servers and browsers run one group after the other: two cores are soon full.
      kind('api', ['tests/api/**/*.test.ts'], {
        isolate: false,
        maxWorkers: manyWaiting,
        globalSetup: [database],
        sequence: { groupOrder: 1 },
      }),
      kind('faults', ['tests/faults/**/*.test.ts'], {
        fileParallelism: false,
        globalSetup: [database],
        sequence: { groupOrder: 2 },
      }),
      kind('browser', ['tests/browser/**/*.test.ts'], {
        isolate: false,
        maxWorkers: manyWaiting,
        globalSetup: [database, browser],
        sequence: { groupOrder: 3 },
      }),
      onAnotherDay(
        'Pacific/Auckland',
        '2026-12-31T23:30',
        ['tests/api/care.test.ts', 'tests/api/spawn-log.test.ts'],
        1,
      ),
      onAnotherDay('America/Los_Angeles', '2027-03-13T23:40', ['tests/browser/care.test.ts'], 3, [
        database,
        browser,
      ]),
    ],
  },
});
