/** How far a partner may go with a line: see it, score its fish as well, or breed with them as well. */
export type GrantLevel = 'look' | 'score' | 'breed';

/** Parts of a line that are lent one by one. */
export const grantParts = ['scores', 'photos', 'notes', 'water', 'place', 'prices'] as const;
export type GrantPart = (typeof grantParts)[number];

/** Views through which an account that sees a part of the records reads: what was not lent to it is empty in them. */
export const LENT_SCHEMA = 'linewright_lent';
