/**
 * What a version of a record knew of: install id to the count of that install's changes, 0 where it is missing.
 *
 * Counts and no times: an install whose clock is wrong, or that was away for a year, is ordered as well as any other.
 *
 * Source: version vectors, D. S. Parker et al. 1983, "Detection of mutual inconsistency in distributed systems",
 * IEEE Transactions on Software Engineering SE-9(3), 240–247 (named from memory).
 */
export type Stamp = Readonly<Record<string, number>>;

/** `apart`: each knows of a change that the other does not. */
export type StampOrder = 'same' | 'older' | 'newer' | 'apart';

const covers = (stamp: Stamp, other: Stamp): boolean =>
  Object.entries(other).every(([install, count]) => (stamp[install] ?? 0) >= count);

/** How `a` stands to `b`. Cost: linear in their installs. */
export const compareStamps = (a: Stamp, b: Stamp): StampOrder => {
  const [over, under] = [covers(a, b), covers(b, a)];
  if (over) return under ? 'same' : 'newer';
  return under ? 'older' : 'apart';
};

/** The least stamp that knows of all that the given ones know of; installs in the order of their ids. */
export const joinStamps = (stamps: readonly Stamp[]): Stamp => {
  const joined = new Map<string, number>();
  for (const stamp of stamps)
    for (const [install, count] of Object.entries(stamp))
      joined.set(install, Math.max(count, joined.get(install) ?? 0));
  return Object.fromEntries([...joined].sort(([a], [b]) => (a < b ? -1 : 1)));
};
