import { relative } from 'node:path';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take longest, in seconds of a whole run on two cores (27 November 2026): about right is enough. */
export const SECONDS: Readonly<Record<string, number>> = {
  'tests/api/hostile-sizes.test.ts': 240,
  'tests/faults/exchange.test.ts': 190,
  'tests/api/access-matrix.test.ts': 75,
  'tests/api/exchange-schedule.test.ts': 75,
  'tests/browser/heredity.test.ts': 145,
  'tests/browser/bench.test.ts': 110,
  'tests/browser/demo-screens.test.ts': 105,
  'tests/api/largest-files.test.ts': 83,
  'tests/browser/round.test.ts': 73,
  'tests/api/door-guest.test.ts': 72,
  'tests/browser/line-routes.test.ts': 64,
  'tests/browser/choose-fish.test.ts': 63,
  'tests/faults/stopping.test.ts': 59,
  'tests/api/largest-counts.test.ts': 52,
  'tests/faults/embedded-database.test.ts': 51,
  'tests/api/print.test.ts': 51,
  'tests/api/merit-bad-input.test.ts': 48,
  'tests/api/statements-of-lists.test.ts': 45,
  'tests/faults/way-in.test.ts': 45,
  'tests/browser/care.test.ts': 43,
  'tests/browser/water-and-print.test.ts': 43,
  'tests/api/line-file.test.ts': 42,
  'tests/browser/two-installs.test.ts': 41,
  'tests/api/three-installs.test.ts': 41,
  'tests/browser/drawings.test.ts': 40,
  'tests/browser/score-sheets.test.ts': 38,
  'tests/api/merit-answers.test.ts': 36,
  'tests/browser/nothing-lost.test.ts': 36,
  'tests/browser/partner.test.ts': 36,
  'tests/browser/line-health.test.ts': 35,
  'tests/faults/jobs.test.ts': 35,
  'tests/api/backup.test.ts': 35,
  'tests/faults/restore-command.test.ts': 34,
  'tests/browser/ways-in.test.ts': 33,
  'tests/browser/bench-restart.test.ts': 33,
  'tests/properties/merit-uses.test.ts': 31,
  'tests/faults/database-killed.test.ts': 31,
  'tests/api/computations.test.ts': 30,
  'tests/api/one-rule.test.ts': 29,
  'tests/api/hostile-strangers.test.ts': 27,
  'tests/api/score-sheets.test.ts': 26,
};

/**
 * Kind after kind, so that a process and its modules serve as many files as can be; those with servers first, since small files fill what is
 * left at the end. Within a kind the longest first: a run ends when its last file does.
 */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const root = this.ctx.config.root;
    const rank = ({ project, moduleId }: TestSpecification): [number, number] => [
      project.name === 'served' ? 0 : project.name.startsWith('days') ? 1 : 2,
      -(SECONDS[relative(root, moduleId)] ?? 0),
    ];
    return (await super.sort(files))
      .map((file) => ({ file, rank: rank(file) }))
      .toSorted(
        ({ rank: [a, c], file: one }, { rank: [b, d], file: other }) =>
          a - b || (one.project === other.project ? c - d : 0),
      )
      .map(({ file }) => file);
  }
}
