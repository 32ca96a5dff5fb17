import { certainPairs, crossMixture } from '../cross/mixture.js';
import { HIDDEN } from '../cross/cross-types.js';
import { fractionToNumber, sumFractions } from '../fraction.js';
import { allGenotypes, type GenotypeSet } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { Locus } from '../locus.js';
import { hiderOf, lociWith, obstacle, openGate } from '../pair/expect-phenotypes.js';

/** The share of a brood on which nothing is to be seen at a locus, and how likely it is that the brood has that share. */
export interface HiddenShare {
  readonly weight: number;
  readonly hidden: number;
}

/** How much of a brood other loci hide. */
export interface HiddenYoung {
  /** One for each thing that the two may be at the loci that hide; null when that is not known and matters. */
  readonly shares: readonly HiddenShare[] | null;
  /** Why it is not known, and what would tell; null when it is. */
  readonly why: string | null;
  /** Loci on record for neither, which are taken not to hide anything. */
  readonly assumed: readonly string[];
}

/** What a fish is at the loci that hide `locus`, and nothing else: fish equal here are hidden alike. */
export function atHidersOf(locus: Locus, set: GenotypeSet): GenotypeSet {
  return Object.fromEntries(
    locus.hiddenBy.flatMap((gate) => {
      const genotype = set[gate.locus];
      return genotype === undefined ? [] : [[gate.locus, genotype] as const];
    }),
  );
}

/**
 * How much of a brood is hidden at `locus` by other loci: 1 - product of (1 - chance that a young shows what hides) over these, for
 * every pair of genotypes the two may be there, among the living young, by the crosses of this library. Nothing need be known of
 * `locus` itself: loci are taken as unlinked.
 *
 * @param own a person's own loci; one with an id of the catalogue stands in its place.
 * @throws HeredityError of genotypes that cannot be read.
 * @example hiddenYoung(findLocus('m'), { al: 'Al/al' }, { al: 'al/al' }).shares // [{ weight: 1, hidden: 1/2 }]
 */
export function hiddenYoung(
  locus: Locus,
  fish: GenotypeSet,
  partner: GenotypeSet,
  own: readonly Locus[] = [],
): HiddenYoung {
  const known = lociWith(own);
  const [sire, dam] = [atHidersOf(locus, fish), atHidersOf(locus, partner)];
  const hiders = locus.hiddenBy.flatMap((gate) => hiderOf(gate, known) ?? []);
  const computed = hiders.filter((one) => obstacle(one, sire, dam) === null);
  const assumed = locus.hiddenBy.flatMap((gate) => {
    const hider = hiders.find((one) => one.id === gate.locus);
    return hider && sire[hider.id] === undefined && dam[hider.id] === undefined
      ? [
          `Taken as not hidden by ${hider.name.toLowerCase()}, which is on record for neither fish (${gate.why}).`,
        ]
      : [];
  });
  const open = openGate(locus, new Set(computed.map((one) => one.id)), sire, dam, known);
  if (open !== null) {
    const { gate, hider, missing } = open;
    const whose =
      missing === null
        ? 'the whole genotype of both'
        : missing === 'sire'
          ? "the fish's genotype"
          : "the partner's genotype";
    const why = `Not known: some young may be hidden (${gate.why}). Record ${whose} at ${hider.name.toLowerCase()}.`;
    return { shares: null, why, assumed };
  }
  return { shares: sharesOf(locus, computed, sire, dam), why: null, assumed };
}

function sharesOf(
  locus: Locus,
  hiders: readonly Locus[],
  sire: GenotypeSet,
  dam: GenotypeSet,
): HiddenShare[] {
  if (hiders.length === 0) return [{ weight: 1, hidden: 0 }];
  // Any genotype will do: what hides is passed on independently of it.
  const any = allGenotypes(locus)[0] ?? ['', ''];
  const loci = [{ ...locus, viability: [] }, ...hiders];
  const parents = { sire: { ...sire, [locus.id]: any }, dam: { ...dam, [locus.id]: any } };
  try {
    return crossMixture(certainPairs(parents, loci), loci).components.map(
      ({ weight, expectation }) => ({
        weight: fractionToNumber(weight),
        hidden: fractionToNumber(
          sumFractions(
            expectation.classes
              .filter(({ parts }) =>
                parts.some((part) => part.loci.includes(locus.id) && part.phenotype === HIDDEN),
              )
              .map((one) => one.probability),
          ),
        ),
      }),
    );
  } catch (error) {
    // Where no young live there are none to see.
    if (error instanceof HeredityError && error.code === 'NO_SURVIVORS')
      return [{ weight: 1, hidden: 1 }];
    throw error;
  }
}
