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
      groups: groups.flatMap(({ fish, outcomes }) => {
        const kept = [...fish.keys()].filter((k) => of.has(fish[k]!));
        if (kept.length === 0) return [];
        return [
          {
            fish: kept.map((k) => of.get(fish[k]!)!),
            outcomes: outcomes.map(({ genotypes, probability }) => ({
              genotypes: kept.map((k) => genotypes[k]!),
              probability,
            })),
          },
        ];
      }),
    })),
  };
}
