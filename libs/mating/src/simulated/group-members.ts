import type { BelievedLocus, DrawnGenotypes, JointGenotypes } from './line-belief.js';

/** What a group says of some of its members, named by their places in it. */
export function ofMembers(
  group: BelievedLocus['groups'][number],
  members: readonly number[],
): BelievedLocus['groups'][number] {
  const fish = members.map((k) => group.fish[k]!);
  if (!('draws' in group))
    return {
      fish,
      outcomes: group.outcomes.map(({ genotypes, probability }) => ({
        genotypes: members.map((k) => genotypes[k]!),
        probability,
      })),
    };
  const each = group.fish.length;
  const draws = new Uint8Array((group.draws.length / each) * members.length);
  for (let at = 0; at < draws.length; at++)
    draws[at] =
      group.draws[Math.floor(at / members.length) * each + members[at % members.length]!]!;
  return { ...group, fish, draws };
}

/** A group's outcomes with their chances; of draws, how often each came. For few members: there are as many as sets of genotypes. */
export function outcomesOf(group: BelievedLocus['groups'][number]): JointGenotypes['outcomes'] {
  return 'draws' in group ? tallied(group) : group.outcomes;
}

function tallied({ fish, genotypes, draws }: DrawnGenotypes): JointGenotypes['outcomes'] {
  const runs = draws.length / fish.length;
  const times = new Map<string, number>();
  for (let k = 0; k < runs; k++) {
    const key = draws.subarray(k * fish.length, (k + 1) * fish.length).join(' ');
    times.set(key, (times.get(key) ?? 0) + 1);
  }
  return [...times].map(([key, count]) => ({
    genotypes: key.split(' ').map((place) => genotypes[Number(place)]!),
    probability: count / runs,
  }));
}
