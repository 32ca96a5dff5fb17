import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { LongestFirst } from './longest-first.js';

/** One PostgreSQL server for all that need one; a browser is found, or unpacked, once. */
const database = 'tests/database/setup.ts';
const browser = 'tests/browser/setup.ts';
const root = fileURLToPath(new URL('..', import.meta.url));

/** One project a kind of test, so that a kind can be run alone: `npx vitest run -c tests/vitest.config.ts --project published`. */
const kind = (name: string, include: string[], more: Record<string, unknown> = {}) => ({
  extends: true as const,
  test: { name, include, ...more },
});

/** A day and zone that every run looks at beside its own; all of them, and browser journeys too: `npm run test:days`. */
const onAnotherDay = (zone: string, day: string, include: string[]) =>
  kind(`days ${zone} ${day}`, include, {
    env: { TZ: zone, TEST_DAY: day },
    globalSetup: [database],
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
    // Most of a test of a server or a browser is waiting.
    maxWorkers: Math.max(6, availableParallelism()),
    sequence: { sequencer: LongestFirst },
    // `npm run asserts` counts how often each test asserts.
    setupFiles: process.env['COUNT_ASSERTS'] === undefined ? [] : ['tests/asserts/count.ts'],
    // A file takes over the process of the one before it, with its modules.
    isolate: false,
    // A limit against a test that hangs, not a measure of speed: a busy machine takes its time.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    expect: { poll: { timeout: 200_000 } },
    projects: [
      kind('unit', ['libs/*/src/**/*.test.ts', 'db/*/src/**/*.test.ts', 'apps/*/src/**/*.test.ts']),
      kind('published', ['tests/published/**/*.test.ts']),
      kind('properties', ['tests/properties/**/*.test.ts']),
      kind('docs', ['tests/docs/**/*.test.ts', 'tests/house/**/*.test.ts']),
      // Of one kind, since all of them load the whole API.
      kind(
        'served',
        ['api', 'faults', 'browser'].map((folder) => `tests/${folder}/**/*.test.ts`),
        { globalSetup: [database, browser] },
      ),
      onAnotherDay('Pacific/Auckland', '2026-12-31T23:30', [
        'tests/api/care.test.ts',
        'tests/api/spawn-log.test.ts',
      ]),
    ],
  },
});
