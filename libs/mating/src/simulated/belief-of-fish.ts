import { ofMembers } from './group-members.js';
import type { LineBelief } from './line-belief.js';

/** What is believed of some of the fish, in the order of `places`; what was believed of them together stays so. */
export function beliefOfFish(belief: LineBelief, places: readonly number[]): LineBelief {
  const size = belief.fish.length;
  const square = (matrix: Float64Array): Float64Array =>
    Float64Array.from(places.flatMap((a) => places.map((b) => matrix[a * size + b]!)));
  const of = new Map(places.map((at, k) => [at, k]));
  return {
    ...belief,
    fish: places.map((at) => belief.fish[at]!),
    sex: places.map((at) => belief.sex[at]!),
    coancestry: square(belief.coancestry),
    traits: belief.traits.map((trait) => ({
      ...trait,
      value: Float64Array.from(places, (at) => trait.value[at]!),
      error: square(trait.error),
    })),
    loci: belief.loci.map(({ locus, groups }) => ({
      locus,
      groups: groups.flatMap((group) => {
        const kept = [...group.fish.keys()].filter((k) => of.has(group.fish[k]!));
        const fish = kept.map((k) => of.get(group.fish[k]!)!);
        return kept.length === 0 ? [] : [{ ...ofMembers(group, kept), fish }];
      }),
    })),
  };
}
