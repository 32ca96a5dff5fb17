/**
 * A hypothesis of how a yes/no trait is inherited: states that a fish can be in (numbers of one allele at each locus), how common they are
 * among founders, how they are passed on, and how likely each shows the trait.
 */
export interface LocusModel {
  readonly states: number;
  readonly founders: Float64Array;
  /** P(young | sire, dam) at `(sire * states + dam) * states + young`. */
  readonly passing: Float64Array;
  /** P(shown | state). */
  readonly shown: Float64Array;
}

/** Chance that a gamete of a parent with 0, 1 or 2 copies holds the allele. */
const GAMETE = [0, 0.5, 1];

const ofOneLocus = (young: number, sire: number, dam: number): number => {
  const [s, d] = [GAMETE[sire]!, GAMETE[dam]!];
  return young === 0 ? (1 - s) * (1 - d) : young === 2 ? s * d : s * (1 - d) + d * (1 - s);
};

/**
 * Unlinked loci with two alleles each, founders in Hardy and Weinberg's proportions with the same allele frequency at every locus.
 *
 * @param shows chance that a fish with these numbers of copies shows the trait.
 * @example locusModel(1, 0.2, ([copies]) => (copies === 2 ? 1 : 0)) // one recessive locus
 */
export function locusModel(
  loci: 1 | 2,
  frequency: number,
  shows: (copies: readonly number[]) => number,
): LocusModel {
  const states = 3 ** loci;
  const copiesOf = (state: number): number[] =>
    loci === 1 ? [state] : [Math.floor(state / 3), state % 3];
  const copies = Array.from({ length: states }, (_, state) => copiesOf(state));
  const hardyWeinberg = [(1 - frequency) ** 2, 2 * frequency * (1 - frequency), frequency ** 2];
  const passing = new Float64Array(states ** 3);
  for (let s = 0; s < states; s++)
    for (let d = 0; d < states; d++)
      for (let y = 0; y < states; y++)
        passing[(s * states + d) * states + y] = copies[y]!.reduce(
          (product, n, locus) => product * ofOneLocus(n, copies[s]![locus]!, copies[d]![locus]!),
          1,
        );
  return {
    states,
    founders: Float64Array.from(copies, (list) =>
      list.reduce((product, n) => product * hardyWeinberg[n]!, 1),
    ),
    passing,
    shown: Float64Array.from(copies, shows),
  };
}
