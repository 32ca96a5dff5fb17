import { describe, expect, it } from 'vitest';
import { failureKind } from './failure-words.js';

/** What pg_ctl says of each start on a folder whose server was killed. */
const AFTER_A_KILL =
  'pg_ctl: another server might be running; trying to start server anyway\nwaiting for server to start.... stopped waiting\npg_ctl: could not start server\n';

describe('a start after a kill that fails', () => {
  it.each([
    ['FATAL:  pre-existing shared memory block (key 1, ID 2) is still in use', 'still-in-use'],
    ['FATAL:  lock file "postmaster.pid" already exists', 'still-in-use'],
    ['could not open file "cluster/global/pg_control": No such file or directory', 'other'],
    ['FATAL:  could not write lock file: No space left on device', 'disk-full'],
    ['LOG:  could not bind IPv4 address "127.0.0.1": Address already in use', 'port'],
  ])('by %s is tried again only while the old server still goes', (words, kind) => {
    expect(failureKind(AFTER_A_KILL + words)).toBe(kind);
  });
});
