import type { SliceFish } from '@linewright/pedigree-layout';
import type { ShareFile } from '../share-file.js';
import type { SharedRecord } from '../share-record.js';

/** More are no help on one page, and the layout grows faster than they do. */
const MOST_DRAWN = 250;

/** Fish of a line for its drawing, and how many of its fish are not in it. */
export interface DrawnFish {
  readonly slice: readonly SliceFish[];
  readonly notDrawn: number;
}

/** Sire and dam of a fish, by its spawn. */
export const parentsIn = (
  records: ShareFile['records'],
): ((fish: SharedRecord) => readonly [sireId: string | null, damId: string | null]) => {
  const spawns = new Map(records.spawns.map((spawn) => [spawn.id, spawn]));
  return (fish) => {
    const spawn = spawns.get(fish['spawnId'] as string);
    return [
      (spawn?.['sireId'] ?? null) as string | null,
      (spawn?.['damId'] ?? null) as string | null,
    ];
  };
};

const alive = ['keeper', 'hold', 'unsorted', 'placed'];

/** Those of the line that live and the youngest first. */
const inTurn = (fish: readonly SharedRecord[]): SharedRecord[] => {
  const rank = (one: SharedRecord): string =>
    `${alive.includes(one['disposition'] as string) ? 1 : 0}${(one['hatchDate'] ?? '') as string}`;
  return fish.toSorted((a, b) => (rank(a) < rank(b) ? 1 : rank(a) > rank(b) ? -1 : 0));
};

/** The fish of the line with their ancestors, as many as a page bears: each is drawn with all of its ancestors or not at all. */
export const drawnFish = ({ records, lineId }: ShareFile): DrawnFish => {
  const standing = records.fish.filter((fish) => fish['withdrawnAt'] === null);
  const byId = new Map(standing.map((fish) => [fish.id, fish]));
  const parentsOf = parentsIn(records);
  const drawn = new Set<string>();
  const withAncestors = (id: string, found: Set<string>): Set<string> => {
    const fish = byId.get(id);
    if (fish === undefined || drawn.has(id) || found.has(id)) return found;
    found.add(id);
    for (const parent of parentsOf(fish)) if (parent !== null) withAncestors(parent, found);
    return found;
  };
  const own = inTurn(standing.filter((fish) => fish['lineId'] === lineId));
  for (const { id } of own) {
    const more = withAncestors(id, new Set());
    if (drawn.size + more.size <= MOST_DRAWN) for (const one of more) drawn.add(one);
  }
  const slice = standing
    .filter(({ id }) => drawn.has(id))
    .map((fish): SliceFish => {
      const [sireId, damId] = parentsOf(fish);
      const { id, tag, sex, spawnId } = fish as unknown as SliceFish;
      return { id, tag, sex, sireId, damId, ...(spawnId != null && { spawnId }) };
    });
  return { slice, notDrawn: own.filter(({ id }) => !drawn.has(id)).length };
};
