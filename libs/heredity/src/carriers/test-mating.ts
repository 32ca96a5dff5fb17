import { binomialMass } from '../counts/binomial-mass.js';
import { logMultinomial, outcomeCount, visitOutcomes } from '../counts/multinomial.js';
import { fractionToNumber } from '../fraction.js';
import { allGenotypes, readGenotype, sameGenotype, type GenotypeInput } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { Locus } from '../locus.js';
import type { HiddenShare } from './hidden-young.js';
import { locusTables, type LocusTables } from './locus-tables.js';

/** What is thought of the two fish of a test mating, taken as independent of one another. */
export interface TestMatingInput {
  readonly locus: Locus;
  readonly fish: GenotypeInput;
  readonly partner: GenotypeInput;
  /** Young to be scored. */
  readonly fry: number;
  /** What share of the young other loci hide; none when left out. See `hiddenYoung`. */
  readonly hidden?: readonly HiddenShare[];
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

/** What is thought of a fish, by the place of each genotype in the tables. */
export function weights(tables: LocusTables, input: GenotypeInput): number[] {
  const out = tables.genotypes.map(() => 0);
  for (const { genotype, probability } of readGenotype(tables.locus, input)) {
    const at = tables.genotypes.findIndex((one) => sameGenotype(one, genotype));
    out[at] = (out[at] ?? 0) + fractionToNumber(probability);
  }
  return out;
}

/** Chances of the classes that occur at all among the young of every pair of genotypes that may be. */
export function classChances(tables: LocusTables, pairs: readonly Weighted[]): number[][] {
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
 * Steps that {@link testMatingWorth} takes at most: possible counts times pairs of genotypes, with a class for young that
 * another locus hides where one may. For bounding how many partners are compared.
 */
export function testMatingSteps(locus: Locus, fry: number): number {
  const classes = locus.phenotypes.length + (locus.hiddenBy.length > 0 ? 1 : 0);
  return outcomeCount(fry, classes) * allGenotypes(locus).length ** 2;
}

/** Chances that 0, 1, … of the young can be seen at all. The share that is hidden tells nothing of the fish at its own locus. */
function visibleFry(fry: number, hidden: readonly HiddenShare[]): Float64Array {
  const out = new Float64Array(fry + 1);
  for (const { weight, hidden: share } of hidden) {
    for (let k = 0; k <= fry; k++) out[k]! += weight * binomialMass(k, fry, 1 - share);
  }
  return out;
}

/**
 * How much a test mating is expected to tell about a fish's genotype: the mutual information of the genotype and the counts
 * of the brood (Lindley 1956), exact over all outcomes. The partner's own uncertainty is allowed for, and so are young on which
 * another locus hides what there would be to see.
 *
 * Lindley DV 1956, On a measure of the information provided by an experiment, Annals of Mathematical Statistics 27: 986-1005 (from
 * memory).
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
  if (seen.length < 2 || uncertainty === 0) return { bits: 0, uncertainty };
  const visible = visibleFry(input.fry, input.hidden ?? [{ weight: 1, hidden: 0 }]);
  const outcomes = visible.reduce(
    (sum, chance, k) => (chance > 0 ? sum + outcomeCount(k, seen.length) : sum),
    0,
  );
  if (outcomes > MOST_OUTCOMES) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `${String(input.fry)} fry in ${String(seen.length)} classes have too many outcomes to go through; ask for fewer.`,
    );
  }
  const rows = chances.map((row) => seen.map((p) => row[p] ?? 0));
  let bits = 0;
  visible.forEach((chance, k) => {
    if (chance > 0 && k > 0) bits += chance * (uncertainty - left(k, ofFish.length, pairs, rows));
  });
  return { bits: Math.max(0, bits), uncertainty };
}

/** Expected uncertainty about the fish once `fry` young were scored, in bits. */
function left(
  fry: number,
  genotypes: number,
  pairs: readonly Weighted[],
  rows: readonly (readonly number[])[],
): number {
  const classes = rows[0]?.length ?? 0;
  const flat = Array.from({ length: classes }, () => 1 / classes);
  let sum = 0;
  visitOutcomes(fry, flat, (_, counts) => {
    const posterior = Array.from({ length: genotypes }, () => 0);
    let total = 0;
    pairs.forEach(({ fish, weight }, i) => {
      const chance = weight * Math.exp(logMultinomial(counts, rows[i] ?? []));
      posterior[fish] = (posterior[fish] ?? 0) + chance;
      total += chance;
    });
    if (total > 0) sum += total * entropy(posterior.map((p) => p / total));
  });
  return sum;
}
