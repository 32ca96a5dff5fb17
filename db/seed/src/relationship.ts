import type { SimulatedFish } from './simulated-fish.js';

export type MatingKind =
  | 'full-sib'
  | 'half-sib'
  | 'parent-offspring'
  | 'uncle-niece'
  | 'cousin'
  | 'least-related'
  | 'any';

/**
 * Coancestry of two fish by the usual recursion over the younger one's parents (for example Lynch and Walsh 1998,
 * chapter 7), remembered pair by pair. Written here because the generator chooses mates by it; the test holds the
 * finished pedigree against the kinship library.
 */
export class Coancestry {
  private readonly known = new Map<string, number>();

  between(a: SimulatedFish | null, b: SimulatedFish | null): number {
    if (a === null || b === null) return 0;
    if (a === b) return (1 + this.between(a.sire, a.dam)) / 2;
    const [older, younger] =
      a.generation < b.generation || (a.generation === b.generation && a.id < b.id)
        ? [a, b]
        : [b, a];
    const key = `${older.id}${younger.id}`;
    const found = this.known.get(key);
    if (found !== undefined) return found;
    const value = (this.between(older, younger.sire) + this.between(older, younger.dam)) / 2;
    this.known.set(key, value);
    return value;
  }
}

/** Closest of the named relationships between two possible mates. */
export function relationship(
  a: SimulatedFish,
  b: SimulatedFish,
  coancestry: Coancestry,
): MatingKind {
  if (isParent(a, b) || isParent(b, a)) return 'parent-offspring';
  if (sharedParents(a, b) === 2) return 'full-sib';
  if (sharedParents(a, b) === 1) return 'half-sib';
  if (isUncleOrAunt(a, b) || isUncleOrAunt(b, a)) return 'uncle-niece';
  return coancestry.between(a, b) >= 1 / 16 ? 'cousin' : 'any';
}

function isParent(a: SimulatedFish, b: SimulatedFish): boolean {
  return b.sire === a || b.dam === a;
}

function sharedParents(a: SimulatedFish, b: SimulatedFish): number {
  return Number(a.sire !== null && a.sire === b.sire) + Number(a.dam !== null && a.dam === b.dam);
}

function isUncleOrAunt(a: SimulatedFish, b: SimulatedFish): boolean {
  return [b.sire, b.dam].some(
    (parent) => parent !== null && parent !== a && sharedParents(a, parent) === 2,
  );
}
