import type { SeenPhenotype } from '../../api/carriers.js';

type Look = Pick<SeenPhenotype, 'locusId' | 'phenotype' | 'name' | 'seenOn' | 'setAside'>;

/** The look last seen at each locus, of those that count; of two on one day the one listed later. */
export function latestLooks<Seen extends Look>(seen: readonly Seen[]): Seen[] {
  const latest = new Map<string, Seen>();
  for (const one of seen.filter(({ setAside }) => setAside === null)) {
    const before = latest.get(one.locusId);
    if (before === undefined || before.seenOn <= one.seenOn) latest.set(one.locusId, one);
  }
  return [...latest.values()];
}
