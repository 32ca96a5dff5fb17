import type { RandomSource } from './random-source.js';
import type { SimulatedFish } from './simulated-fish.js';

/** Fish in use in one person's part of one line. */
const IN_USE = { male: 12, female: 14 } as const;

/** Sets every fish to how it stands today: what lies ahead of it has not happened yet. */
export function settleToday(
  fish: readonly SimulatedFish[],
  today: number,
  random: RandomSource,
): void {
  for (const one of fish) settle(one, today, random);
  const groups = groupedBy(
    fish.filter((one) => one.disposition === 'keeper'),
    (one) => `${one.line}|${one.person}|${one.sex}`,
  );
  for (const group of groups.values()) placeSurplus(group, today);
}

function settle(one: SimulatedFish, today: number, random: RandomSource): void {
  const age = today - one.hatchDay;
  // Before ten weeks or so males and females cannot be told apart with any certainty.
  if (age < 75) one.recordedSex = 'unsexed';
  else if (age < 105 && random.chance(0.15)) one.recordedSex = 'uncertain';
  if (one.dispositionDay !== null && one.dispositionDay <= today) return;
  one.reason = null;
  if (one.keptDay !== null && one.keptDay <= today) {
    one.disposition = 'keeper';
    one.dispositionDay = one.keptDay;
  } else if (age >= 80) {
    one.disposition = 'hold';
    one.dispositionDay = one.hatchDay + 80;
    one.reason = 'candidate: to be looked at again at 17 weeks';
  } else {
    one.disposition = 'unsorted';
    one.dispositionDay = null;
  }
}

/** The oldest go first when there are more than the person has jars for. */
function placeSurplus(group: readonly SimulatedFish[], today: number): void {
  const sex = group[0]?.sex ?? 'male';
  const oldestFirst = [...group].sort((a, b) => a.hatchDay - b.hatchDay || (a.id < b.id ? -1 : 1));
  for (const one of oldestFirst.slice(0, Math.max(0, group.length - IN_USE[sex]))) {
    const bred = Number.isFinite(one.lastSpawnDay) ? one.lastSpawnDay + 30 : 0;
    one.disposition = 'placed';
    one.dispositionDay = Math.min(today - 1, Math.max(bred, one.hatchDay + 240));
    one.reason = 'makes room for the next generation';
  }
}

function groupedBy<T>(items: readonly T[], key: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(key(item));
    if (group) group.push(item);
    else groups.set(key(item), [item]);
  }
  return groups;
}
