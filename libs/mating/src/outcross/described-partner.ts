import {
  allGenotypes,
  fractionToNumber,
  phenotypesOf,
  type Genotype,
  type Locus,
} from '@linewright/heredity';
import { MatingError } from '../mating-error.js';
import type { BelievedTrait, JointGenotypes, LineBelief } from '../simulated/line-belief.js';

/** A fish that is not on record: what can be seen of it. */
export interface DescribedFish {
  readonly id: string;
  readonly sex: 'male' | 'female';
  /** Phenotype by locus; a locus that is not named was not looked at. */
  readonly shows: Readonly<Record<string, string>>;
}

/**
 * Adds a fish of which only its looks are known. It is taken to be unrelated to all others and not inbred; its breeding values are those of the
 * base, 0 with the whole additive variance; its genotypes are those that show what it shows, all alleles of a locus taken as equally common
 * before that. What another locus hides is not told by a look, and has to be left out of `shows`.
 *
 * @throws MatingError MATING_BAD_SETTING for a look that no genotype of the locus shows.
 */
export function withDescribedFish(belief: LineBelief, described: DescribedFish): LineBelief {
  const size = belief.fish.length;
  return {
    ...belief,
    fish: [...belief.fish, described.id],
    sex: [...belief.sex, described.sex],
    coancestry: bordered(belief.coancestry, size, 0.5),
    traits: belief.traits.map((trait): BelievedTrait => ({
      ...trait,
      value: Float64Array.from([...trait.value, 0]),
      error: bordered(trait.error, size, trait.additive),
    })),
    loci: belief.loci.map(({ locus, groups }) => ({
      locus,
      groups: [
        ...groups,
        { fish: [size], outcomes: genotypesSeen(locus, described.shows[locus.id]) },
      ],
    })),
  };
}

/** Looks of a described fish that another of its looks makes impossible to see, by locus, and why. */
export function looksHidden(
  loci: readonly Locus[],
  shows: DescribedFish['shows'],
): { readonly locus: Locus; readonly why: string }[] {
  return loci.flatMap((locus) => {
    if (shows[locus.id] === undefined) return [];
    const gate = locus.hiddenBy.find((one) => one.phenotypes.includes(shows[one.locus] ?? ''));
    return gate === undefined ? [] : [{ locus, why: gate.why }];
  });
}

/** Chances of the genotypes of a fish of which a look is known, or nothing; alleles equally common. */
export function genotypesSeen(locus: Locus, shown?: string): JointGenotypes['outcomes'] {
  const likely = allGenotypes(locus).map((genotype) => ({
    genotypes: [genotype],
    probability: (genotype[0] === genotype[1] ? 1 : 2) * chanceOfLook(locus, genotype, shown),
  }));
  const sum = likely.reduce((all, { probability }) => all + probability, 0);
  if (sum === 0)
    throw new MatingError(
      'MATING_BAD_SETTING',
      locus.id,
      `No genotype of ${locus.name} shows "${String(shown)}": choose another look, or leave it open.`,
    );
  return likely
    .filter(({ probability }) => probability > 0)
    .map((one) => ({ ...one, probability: one.probability / sum }));
}

function chanceOfLook(locus: Locus, genotype: Genotype, shown: string | undefined): number {
  if (shown === undefined) return 1;
  const found = phenotypesOf(locus, genotype).find(({ phenotype }) => phenotype.id === shown);
  return found === undefined ? 0 : fractionToNumber(found.probability);
}

/** A square matrix with one more row and column, 0 but on the diagonal. */
function bordered(matrix: Float64Array, size: number, corner: number): Float64Array {
  const wide = new Float64Array((size + 1) ** 2);
  for (let row = 0; row < size; row++)
    wide.set(matrix.subarray(row * size, (row + 1) * size), row * (size + 1));
  wide[wide.length - 1] = corner;
  return wide;
}
