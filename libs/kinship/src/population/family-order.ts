import type { Pedigree } from '@linewright/pedigree';
import type { FounderOptions } from '../founder-relationship.js';
import { checkGroup } from './founders.js';
import { coancestryBlock } from '../coancestry-block.js';

/** Fish that stand together in a relationship map. */
export interface FishFamily {
  /** First place in the order, and number of places. */
  readonly start: number;
  readonly count: number;
  /** Mean coancestry at which the family's two last parts were joined; 0 for a fish alone. */
  readonly joinedAt: number;
}

export interface RelationshipMap {
  /** The fish in their new order. */
  readonly order: readonly number[];
  /** Coancestries in that order, m x m, row-major. */
  readonly coancestry: Float64Array;
  /** In order; every fish is in one. */
  readonly families: readonly FishFamily[];
  /** Mean coancestry from which groups were joined into one family. */
  readonly familyAt: number;
}

/**
 * Orders fish so that relatives stand side by side and families show as blocks in a picture of their coancestry matrix.
 *
 * Groups are joined by the largest mean coancestry between them (average linkage), and at every join the two are turned so
 * that the most related ends meet. The result depends on the fish and their order only, never on chance. Families are the
 * largest groups joined at `familyAt` or more. By default that is the coancestry of half sibs, counted from what the middle
 * pair of the map shares: b + (1 - b) / 8 with b the median, so that spawns stand apart in a line in which all are
 * related. Where no two fish are as close as that (one spawn alone), it is 1/8.
 *
 * Source: average linkage, Sokal RR & Michener CD (1958); found by chains of nearest neighbours, Murtagh F (1983) Comput J
 * 26:354-359 (both from memory). Cost: m^2 memory and time: for some thousand fish at most.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for no fish.
 */
export function relationshipMap(
  pedigree: Pedigree,
  fish: ArrayLike<number>,
  options: FounderOptions & { readonly familyAt?: number } = {},
): RelationshipMap {
  checkGroup(pedigree, fish);
  const coancestry = coancestryBlock(pedigree, fish, fish, options);
  const familyAt = options.familyAt ?? aboveTheMiddle(coancestry, fish.length);
  const spawns = fullSibs(pedigree, fish);
  const { places, families } = orderByLikeness(coancestry, fish.length, familyAt, spawns);
  const ordered = new Float64Array(coancestry.length);
  for (let row = 0; row < fish.length; row++) {
    for (let column = 0; column < fish.length; column++) {
      ordered[row * fish.length + column] =
        coancestry[places[row]! * fish.length + places[column]!]!;
    }
  }
  return { order: places.map((place) => fish[place]!), coancestry: ordered, families, familyAt };
}

const HALF_SIBS = 1 / 8;

function aboveTheMiddle(coancestry: Float64Array, size: number): number {
  if (size < 2) return HALF_SIBS;
  const pairs = new Float64Array((size * (size - 1)) / 2);
  let k = 0;
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < row; column++) pairs[k++] = coancestry[row * size + column]!;
  }
  const middle = pairs.sort()[(pairs.length - 1) >> 1]!;
  const above = middle + (1 - middle) * HALF_SIBS;
  return pairs.at(-1)! < above ? HALF_SIBS : above;
}

/** The places of the fish of each pair of known parents, where there is more than one. */
function fullSibs(pedigree: Pedigree, fish: ArrayLike<number>): number[][] {
  const byParents = new Map<string, number[]>();
  for (let place = 0; place < fish.length; place++) {
    const sire = pedigree.sire[fish[place]!]!;
    const dam = pedigree.dam[fish[place]!]!;
    if (sire < 0 || dam < 0) continue;
    const sibs = byParents.get(`${sire} ${dam}`);
    if (sibs === undefined) byParents.set(`${sire} ${dam}`, [place]);
    else sibs.push(place);
  }
  return [...byParents.values()].filter((sibs) => sibs.length > 1);
}

/**
 * The ordering itself, on any symmetric matrix of likenesses (m x m, row-major). `together` names places, each in
 * ascending order, that are joined before all others, whatever their likeness.
 */
export function orderByLikeness(
  likeness: Float64Array,
  size: number,
  familyAt: number,
  together: readonly (readonly number[])[] = [],
): { places: number[]; families: FishFamily[] } {
  // Members of each group, in order, kept under its lowest place.
  const members = Array.from({ length: size }, (_, place) => [place]);
  const joinedAt = new Float64Array(size);
  let families: number[][] | undefined;
  for (const { first, second, level, mean } of averageLinkage(likeness, size, together)) {
    if (level < familyAt) families ??= members.filter((group) => group.length > 0);
    members[first] = turnedTogether(members[first]!, members[second]!, likeness, size);
    members[second] = [];
    if (level >= familyAt) joinedAt[first] = mean;
  }
  const places = members[0] ?? [];
  families ??= [places];
  const at = new Int32Array(size);
  places.forEach((place, index) => (at[place] = index));
  return {
    places,
    families: families
      .map((family) => ({
        // A family keeps together when it is turned, so its lowest place in the order and its size say where it stands.
        start: family.reduce((least, place) => Math.min(least, at[place]!), size),
        count: family.length,
        joinedAt: joinedAt[Math.min(...family)]!,
      }))
      .sort((a, b) => a.start - b.start),
  };
}

/** Puts one group after the other, each turned or not, so that the likest ends meet. */
function turnedTogether(
  left: readonly number[],
  right: readonly number[],
  likeness: Float64Array,
  size: number,
): number[] {
  const between = (a: number, b: number): number => likeness[a * size + b]!;
  const [first, last] = [left[0]!, left.at(-1)!];
  const [next, end] = [right[0]!, right.at(-1)!];
  const ways = [between(last, next), between(last, end), between(first, next), between(first, end)];
  const best = ways.indexOf(Math.max(...ways));
  return [
    ...(best >= 2 ? left.toReversed() : left),
    ...(best % 2 === 1 ? right.toReversed() : right),
  ];
}

interface Join {
  /** Lowest places of the two groups joined. */
  readonly first: number;
  readonly second: number;
  /** Mean likeness between them. */
  readonly mean: number;
  /** The same as the order of joins takes it: infinite where they belong together. */
  readonly level: number;
}

/** All joins, from the likest down; a group is always made before it is joined further. */
function averageLinkage(
  likeness: Float64Array,
  size: number,
  together: readonly (readonly number[])[],
): Join[] {
  const mean = likeness.slice();
  const count = new Int32Array(size).fill(1);
  const madeAt = new Float64Array(size).fill(Infinity);
  const alive = new Uint8Array(size).fill(1);
  const joins: Join[] = [];
  const join = (first: number, second: number, level: number): void => {
    joins.push({ first, second, level, mean: Math.min(mean[first * size + second]!, level) });
    madeAt[first] = level;
    const [n, m] = [count[first]!, count[second]!];
    for (let other = 0; other < size; other++) {
      if (alive[other] === 0) continue;
      const value = (n * mean[first * size + other]! + m * mean[second * size + other]!) / (n + m);
      mean[first * size + other] = value;
      mean[other * size + first] = value;
    }
    count[first] = n + m;
    alive[second] = 0;
  };
  for (const [first, ...others] of together) {
    for (const second of others) join(first!, second, Infinity);
  }
  const chain: number[] = [];
  while (joins.length < size - 1) {
    if (chain.length === 0) chain.push(alive.indexOf(1));
    const tip = chain.at(-1)!;
    const before = chain.at(-2) ?? -1;
    // Of equals the one before in the chain, else the lowest: so that chains end, and always in the same way.
    let nearest = before;
    for (let other = 0; other < size; other++) {
      if (alive[other] === 0 || other === tip) continue;
      if (nearest < 0 || mean[tip * size + other]! > mean[tip * size + nearest]!) nearest = other;
    }
    if (nearest !== before) {
      chain.push(nearest);
      continue;
    }
    chain.length -= 2;
    const first = Math.min(tip, before);
    const second = Math.max(tip, before);
    // Rounding must not put a group above the parts it is made of.
    join(first, second, Math.min(mean[tip * size + before]!, madeAt[first]!, madeAt[second]!));
  }
  // The sort is stable: of equal joins the one made first stays first.
  return joins.sort((a, b) => b.level - a.level);
}
