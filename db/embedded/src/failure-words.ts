/** What PostgreSQL's own words say about a failed start or initdb. */
export type FailureKind =
  | 'disk-full'
  | 'port'
  | 'still-in-use'
  | 'version'
  | 'permission'
  | 'other';

const PATTERNS: readonly (readonly [FailureKind, RegExp])[] = [
  [
    'disk-full',
    /no space left on device|disk quota exceeded|there is not enough space on the disk/i,
  ],
  ['version', /database files are incompatible with server/i],
  // Left behind by a killed server whose backends are still going, or by another start at the same moment. Not pg_ctl's "another server
  // might be running; trying to start server anyway": it says so of every file that a killed server left, whatever the start fails by.
  [
    'still-in-use',
    /pre-existing shared memory block|lock file ".*" already exists|lock file ".*" is empty/i,
  ],
  ['port', /could not bind|could not create any TCP\/IP sockets|address already in use/i],
  [
    'permission',
    /permission denied|read-only file system|has wrong ownership|has invalid permissions/i,
  ],
];

/** Sorts a failure by the messages printed; the first kind that fits wins. */
export function failureKind(words: string): FailureKind {
  return PATTERNS.find(([, pattern]) => pattern.test(words))?.[0] ?? 'other';
}
