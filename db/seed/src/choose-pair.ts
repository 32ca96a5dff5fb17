import type { LinePlan, MatingPlan } from './line-plans.js';
import type { RandomSource } from './random-source.js';
import { type Coancestry, relationship } from './relationship.js';
import type { SimulatedFish } from './simulated-fish.js';

export interface Pair {
  readonly sire: SimulatedFish;
  readonly dam: SimulatedFish;
}

/** Best breeding age in days, 4 to 12 months, and rest after a spawn (common practice, no source). */
const BREEDING_AGE = [120, 365] as const;
const REST = { male: 14, female: 21 } as const;
/** Closer pairs than this are set up only when there are no others. */
const MOST_INBRED = 0.42;
const OPEN: MatingPlan = { kind: 'least-related', purpose: '' };

export function ready(fish: SimulatedFish, day: number): boolean {
  const age = day - fish.hatchDay;
  return (
    age >= BREEDING_AGE[0] &&
    age <= BREEDING_AGE[1] &&
    fish.keptDay !== null &&
    // Before the present is settled, the day a fish leaves may still lie ahead.
    (fish.disposition === 'keeper' || (fish.dispositionDay ?? 0) > day) &&
    day - fish.lastSpawnDay >= REST[fish.sex]
  );
}

/**
 * The pair for a planned mating: of the relationship asked for if there is one, else the least related, then by what
 * the person likes in both.
 */
export function choosePair(
  males: readonly SimulatedFish[],
  females: readonly SimulatedFish[],
  mating: MatingPlan,
  line: LinePlan,
  generation: number,
  coancestry: Coancestry,
  random: RandomSource,
): Pair {
  const pairs = males.flatMap((sire) => females.map((dam): Pair => ({ sire, dam })));
  const sensible = pairs.filter(
    ({ sire, dam }) => mating.fails !== undefined || line.avoids?.(sire, dam) !== true,
  );
  const wished = sensible.filter(({ sire, dam }) => mating.pair?.(sire, dam) ?? true);
  const usable = wished.length > 0 ? wished : sensible;
  const young = usable.filter(
    ({ sire, dam }) => comesFrom(sire, generation) || comesFrom(dam, generation),
  );
  const allowed = young.length > 0 ? young : usable;
  const bearable = allowed.filter(({ sire, dam }) => coancestry.between(sire, dam) <= MOST_INBRED);
  const candidates = bearable.length > 0 ? bearable : leastRelated(allowed, OPEN, coancestry);
  const ofKind = candidates.filter(
    ({ sire, dam }) => mating.kind !== 'any' && relationship(sire, dam, coancestry) === mating.kind,
  );
  const choice = ofKind.length > 0 ? ofKind : leastRelated(candidates, mating, coancestry);
  return best(choice, random);
}

/** One parent at least is of the generation before, or the line would not move on. */
function comesFrom(fish: SimulatedFish, generation: number): boolean {
  return fish.generation === generation - 1 && (fish.sire !== null || generation === 1);
}

function leastRelated(pairs: Pair[], mating: MatingPlan, coancestry: Coancestry): Pair[] {
  if (mating.kind === 'any') return pairs;
  const sorted = pairs
    .map((pair) => ({ pair, value: coancestry.between(pair.sire, pair.dam) }))
    .sort((a, b) => a.value - b.value);
  return sorted.slice(0, Math.max(3, Math.ceil(sorted.length / 6))).map(({ pair }) => pair);
}

function best(pairs: readonly Pair[], random: RandomSource): Pair {
  let found: Pair | undefined;
  let highest = -Infinity;
  for (const pair of pairs) {
    const value = pair.sire.merit + pair.dam.merit + random.normal(0, 0.8);
    if (value <= highest) continue;
    highest = value;
    found = pair;
  }
  if (found === undefined) throw new RangeError('no pair is ready for this mating');
  return found;
}
