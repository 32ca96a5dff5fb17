import { broodSizePlan } from '../counts/brood-size.js';
import { logMultinomial, outcomeCount, visitOutcomes } from '../counts/multinomial.js';
import { fractionToNumber, type FractionInput } from '../fraction.js';
import { readGenotype, sameGenotype, type GenotypeInput } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { AlleleId, Locus } from '../locus.js';
import { locusTables, type LocusTables } from './locus-tables.js';

/** What is thought of the two fish of a test mating, taken as independent of one another. */
export interface TestMatingInput {
  readonly locus: Locus;
  readonly fish: GenotypeInput;
  readonly partner: GenotypeInput;
  /** Young to be scored. */
  readonly fry: number;
}

export interface TestMatingWorth {
  /** Expected loss of uncertainty about the fish's genotype, in bits. */
  readonly bits: number;
  /** Uncertainty beforehand, in bits: the most there is to learn. */
  readonly uncertainty: number;
}

interface Weighted {
  readonly fish: number;
  readonly partner: number;
  readonly weight: number;
}

const entropy = (probabilities: readonly number[]) =>
  probabilities.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);

function weights(tables: LocusTables, input: GenotypeInput): number[] {
  const out = tables.genotypes.map(() => 0);
  for (const { genotype, probability } of readGenotype(tables.locus, input)) {
    const at = tables.genotypes.findIndex((one) => sameGenotype(one, genotype));
    out[at] = (out[at] ?? 0) + fractionToNumber(probability);
  }
  return out;
}

/** Chances of the classes that occur at all among the young of every pair of genotypes that may be. */
function classChances(tables: LocusTables, pairs: readonly Weighted[]): number[][] {
  const { size, phenotypes, transmission, shows } = tables;
  return pairs.map(({ fish, partner }) =>
    phenotypes.map((_, p) => {
      let chance = 0;
      for (let c = 0; c < size; c++) {
        chance +=
          (transmission[(fish * size + partner) * size + c] ?? 0) *
          (shows[c * phenotypes.length + p] ?? 0);
      }
      return chance;
    }),
  );
}

const MOST_OUTCOMES = 200_000;

/**
 * How much a test mating is expected to tell about a fish's genotype: the mutual information of the genotype and the counts
 * of the brood (Lindley 1956), exact over all outcomes. The partner's own uncertainty is allowed for.
 *
 * @throws HeredityError `COUNT_NOT_WHOLE`, `COUNT_NEGATIVE`, `ARGUMENT_INVALID` (over 200,000 outcomes), and of genotypes.
 * Cost: the number of possible counts times the pairs of genotypes that may be.
 */
export function testMatingWorth(input: TestMatingInput): TestMatingWorth {
  if (!Number.isInteger(input.fry) || input.fry < 0) {
    throw new HeredityError(
      input.fry < 0 ? 'COUNT_NEGATIVE' : 'COUNT_NOT_WHOLE',
      `A brood has a whole number of fish, not ${String(input.fry)}.`,
    );
  }
  const tables = locusTables(input.locus);
  const ofFish = weights(tables, input.fish);
  const ofPartner = weights(tables, input.partner);
  const pairs: Weighted[] = ofFish.flatMap((f, fish) =>
    ofPartner.flatMap((p, partner) => (f * p > 0 ? [{ fish, partner, weight: f * p }] : [])),
  );
  const chances = classChances(tables, pairs);
  const seen = tables.phenotypes.flatMap((_, p) =>
    chances.some((row) => (row[p] ?? 0) > 0) ? [p] : [],
  );
  const uncertainty = entropy(ofFish);
  if (seen.length < 2 || input.fry === 0 || uncertainty === 0) return { bits: 0, uncertainty };
  if (outcomeCount(input.fry, seen.length) > MOST_OUTCOMES) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `${String(input.fry)} fry in ${String(seen.length)} classes have too many outcomes to go through; ask for fewer.`,
    );
  }
  let left = 0;
  const flat = seen.map(() => 1 / seen.length);
  visitOutcomes(input.fry, flat, (_, counts) => {
    const posterior = ofFish.map(() => 0);
    let total = 0;
    pairs.forEach(({ fish, weight }, i) => {
      const row = seen.map((p) => chances[i]?.[p] ?? 0);
      const chance = weight * Math.exp(logMultinomial(counts, row));
      posterior[fish] = (posterior[fish] ?? 0) + chance;
      total += chance;
    });
    if (total > 0) left += total * entropy(posterior.map((p) => p / total));
  });
  return { bits: Math.max(0, uncertainty - left), uncertainty };
}

/** A partner that might be used. */
export interface TestPartner {
  readonly name: string;
  readonly genotype: GenotypeInput;
}

export interface RankedTestMating extends TestMatingWorth {
  readonly name: string;
  /** Fry that show the allele, if it is carried, with the wanted certainty; null when this mating cannot show it. */
  readonly fryNeeded: number | null;
  /** Share of young that would show it if the fish is a carrier, averaged over the partner. */
  readonly showing: number;
}

/**
 * Which partner tells most about whether a fish carries a recessive allele, most telling first.
 *
 * `fryNeeded` is the brood in which a carrier gives itself away with the stated certainty by at least one young that shows
 * the allele; over an uncertain partner it is averaged, and null where the certainty is out of reach.
 *
 * @param allele the allele in question, by id or symbol.
 * @throws HeredityError as {@link testMatingWorth}; `ALLELE_UNKNOWN`.
 */
export function rankTestMatings(input: {
  readonly locus: Locus;
  readonly fish: GenotypeInput;
  readonly allele: AlleleId;
  readonly partners: readonly TestPartner[];
  readonly fry: number;
  readonly certainty?: FractionInput;
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
  return input.partners
    .map((partner): RankedTestMating => {
      const worth = testMatingWorth({ ...input, partner: partner.genotype });
      const shares = weights(tables, partner.genotype).map((weight, p) => ({
        weight,
        probability: carrier < 0 ? 0 : telling(tables, carrier, p, allele),
      }));
      const known = shares.filter((one) => one.weight > 0);
      return {
        ...worth,
        name: partner.name,
        showing: known.reduce((sum, one) => sum + one.weight * one.probability, 0),
        fryNeeded: needed(known, input.certainty ?? 0.95),
      };
    })
    .sort((a, b) => b.bits - a.bits);
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
