/** What a vessel tells of where it stands. */
export interface Placed {
  readonly id: string;
  readonly rack: string | null;
  readonly shelf: number | null;
  readonly position: number | null;
}

export interface Shelf<Vessel> {
  readonly number: number;
  /** By position from 1; a position may be bare, or hold two that were written down for it. */
  readonly positions: readonly (readonly Vessel[])[];
}

export interface Rack<Vessel> {
  readonly name: string;
  readonly shelves: readonly Shelf<Vessel>[];
  /** On the rack, without a shelf or a position. */
  readonly somewhere: readonly Vessel[];
}

/** So many bare positions are drawn at most: a slip such as 1000 is not a thousand. */
const MOST_BARE = 12;

const shelfOf = <Vessel extends Placed>(number: number, on: readonly Vessel[]): Shelf<Vessel> => {
  const placed = on.filter(({ position }) => position !== null);
  const taken = [...new Set(placed.map(({ position }) => position ?? 0))].sort((a, b) => a - b);
  const positions: Vessel[][] = [];
  let before = 0;
  for (const position of taken) {
    const bare = Math.min(position - before - 1, MOST_BARE);
    positions.push(...Array.from({ length: bare }, () => []));
    positions.push(placed.filter((one) => one.position === position));
    before = position;
  }
  return { number, positions };
};

/** Vessels as they stand: rack by rack, the shelves from above; and those that stand on none, in the order given. */
export function racksOf<Vessel extends Placed>(
  vessels: readonly Vessel[],
): { racks: Rack<Vessel>[]; loose: Vessel[] } {
  const byName = new Map<string, { name: string; on: Vessel[] }>();
  for (const vessel of vessels) {
    if (vessel.rack === null) continue;
    // A rack spelt in two ways is one rack.
    const key = vessel.rack.replace(/\s/gu, '').toLowerCase();
    const rack = byName.get(key) ?? { name: vessel.rack, on: [] };
    rack.on.push(vessel);
    byName.set(key, rack);
  }
  const racks = [...byName.values()].map(({ name, on }): Rack<Vessel> => {
    const stands = (one: Vessel) => one.shelf !== null && one.position !== null;
    const numbers = [...new Set(on.filter(stands).map(({ shelf }) => shelf ?? 0))];
    return {
      name,
      shelves: numbers
        .sort((a, b) => a - b)
        .map((number) =>
          shelfOf(
            number,
            on.filter(({ shelf }) => shelf === number),
          ),
        ),
      somewhere: on.filter((one) => !stands(one)),
    };
  });
  return { racks, loose: vessels.filter(({ rack }) => rack === null) };
}

/** Codes of a new rack: a letter for the shelf and a number for the position, behind what the rack's codes begin with. */
export function codesOfRack(begin: string, shelves: number, positions: number) {
  return Array.from({ length: shelves * positions }, (_, k) => {
    const [shelf, position] = [Math.floor(k / positions) + 1, (k % positions) + 1];
    const letter = shelf <= 26 ? String.fromCharCode(64 + shelf) : `${shelf}-`;
    return { code: `${begin}${letter}${position}`, shelf, position };
  });
}
