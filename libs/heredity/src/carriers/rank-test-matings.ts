import { broodSizePlan } from '../counts/brood-size.js';
import type { FractionInput } from '../fraction.js';
import type { GenotypeInput, GenotypeSet } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { AlleleId, Locus } from '../locus.js';
import { hiddenYoung, type HiddenYoung } from './hidden-young.js';
import { locusTables, type LocusTables } from './locus-tables.js';
import { classChances, testMatingWorth, weights } from './test-mating.js';

/** A partner that might be used. */
export interface TestPartner {
  readonly name: string;
  readonly genotype: GenotypeInput;
  /** What is on record of it at the loci that hide the one in question. */
  readonly atHiders?: GenotypeSet;
}

export interface RankedTestMating {
  readonly name: string;
  /** Uncertainty beforehand, in bits: the most there is to learn. */
  readonly uncertainty: number;
  /** Expected loss of uncertainty, in bits; null when it is not known what of the brood could be seen. */
  readonly bits: number | null;
  /** Fry that show the allele, if it is carried, with the wanted certainty; null when out of reach, or not known. */
  readonly fryNeeded: number | null;
  /** Share of young that would show it if the fish is a carrier, averaged over the partner; null when not known. */
  readonly showing: number | null;
  /** Why it is not known, and what would tell; null when it is. */
  readonly notKnown: string | null;
  /** Loci that are taken not to hide anything, as nothing is on record there of either. */
  readonly assumed: readonly string[];
}

/**
 * Which partner tells most about whether a fish carries a recessive allele, most telling first, those of which it is not known last.
 *
 * `fryNeeded` is the brood in which a carrier gives itself away with the stated certainty by at least one young that shows
 * the allele; over an uncertain partner it is averaged, and null where the certainty is out of reach. Young on which another
 * locus hides it show nothing (`hiddenYoung`).
 *
 * @param allele the allele in question, by id or symbol.
 * @param atHiders what is on record of the fish at the loci that hide this one.
 * @param loci a person's own loci.
 * @throws HeredityError as {@link testMatingWorth}; `ALLELE_UNKNOWN`.
 */
export function rankTestMatings(input: {
  readonly locus: Locus;
  readonly fish: GenotypeInput;
  readonly allele: AlleleId;
  readonly partners: readonly TestPartner[];
  readonly fry: number;
  readonly certainty?: FractionInput;
  readonly atHiders?: GenotypeSet;
  readonly loci?: readonly Locus[];
}): RankedTestMating[] {
  const tables = locusTables(input.locus);
  const allele = input.locus.alleles.find(
    (one) => one.id === input.allele || one.symbol === input.allele,
  )?.id;
  if (allele === undefined) {
    throw new HeredityError(
      'ALLELE_UNKNOWN',
      `"${input.allele}" is not an allele of ${input.locus.id}.`,
      { allele: input.allele },
    );
  }
  const carrier = carrierPlace(tables, input.fish, allele);
  const hiddenOf = hiddenWith(input.locus, input.atHiders ?? {}, input.loci);
  return input.partners
    .map((partner): RankedTestMating => {
      const { shares, why, assumed } = hiddenOf(partner.atHiders ?? {});
      const known = weights(tables, partner.genotype).flatMap((weight, p) =>
        weight > 0
          ? [{ weight, probability: carrier < 0 ? 0 : telling(tables, carrier, p, allele) }]
          : [],
      );
      const ask = { locus: input.locus, fish: input.fish, partner: partner.genotype };
      // Where the two could show nothing anyway, it does not matter what else is hidden.
      const blind = known.every((one) => one.probability === 0);
      if (shares === null && !(blind && testMatingWorth({ ...ask, fry: 1 }).bits === 0)) {
        const { uncertainty } = testMatingWorth({ ...ask, fry: 0 });
        const none = { bits: null, showing: null, fryNeeded: null };
        return { name: partner.name, uncertainty, ...none, notKnown: why, assumed };
      }
      const hidden = shares ?? [{ weight: 1, hidden: 0 }];
      const telltale = known.flatMap((one) =>
        hidden.map((other) => ({
          weight: one.weight * other.weight,
          probability: one.probability * (1 - other.hidden),
        })),
      );
      return {
        ...testMatingWorth({ ...ask, fry: input.fry, hidden }),
        name: partner.name,
        showing: telltale.reduce((sum, one) => sum + one.weight * one.probability, 0),
        fryNeeded: needed(telltale, input.certainty ?? 0.95),
        notKnown: null,
        assumed,
      };
    })
    .sort((a, b) => (b.bits ?? -1) - (a.bits ?? -1));
}

/** Partners that are the same at the loci that hide are looked at once. */
function hiddenWith(
  locus: Locus,
  fish: GenotypeSet,
  loci: readonly Locus[] | undefined,
): (partner: GenotypeSet) => HiddenYoung {
  const found = new Map<string, HiddenYoung>();
  return (partner) => {
    const key = JSON.stringify(partner, (_, value: unknown) =>
      typeof value === 'bigint' ? String(value) : value,
    );
    const known = found.get(key) ?? hiddenYoung(locus, fish, partner, loci);
    found.set(key, known);
    return known;
  };
}

/** The likeliest genotype with one copy of the allele. */
function carrierPlace(tables: LocusTables, fish: GenotypeInput, allele: AlleleId): number {
  const ofFish = weights(tables, fish);
  let best = -1;
  tables.genotypes.forEach(([a, b], g) => {
    if ((a === allele) !== (b === allele) && (ofFish[g] ?? 0) > (ofFish[best] ?? 0)) best = g;
  });
  return best;
}

/** Chance of a young fish of a class that the same fish without the allele could not have given with this partner. */
function telling(tables: LocusTables, carrier: number, partner: number, allele: AlleleId): number {
  const other = tables.genotypes[carrier]?.find((one) => one !== allele);
  const clear = tables.genotypes.findIndex(([a, b]) => a === other && b === other);
  const [carried = [], plain = []] = classChances(tables, [
    { fish: carrier, partner, weight: 1 },
    { fish: clear, partner, weight: 1 },
  ]);
  return carried.reduce((sum, chance, p) => sum + ((plain[p] ?? 0) === 0 ? chance : 0), 0);
}

function needed(
  shares: readonly { weight: number; probability: number }[],
  certainty: FractionInput,
): number | null {
  try {
    return broodSizePlan({ probability: shares, certainty }).fry;
  } catch (error) {
    if (error instanceof HeredityError && error.code === 'BROOD_SIZE_UNREACHABLE') return null;
    throw error;
  }
}
