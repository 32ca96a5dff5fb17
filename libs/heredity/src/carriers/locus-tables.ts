import { fractionToNumber, toProbability, type FractionInput } from '../fraction.js';
import {
  allGenotypes,
  formatGenotype,
  genotypeFits,
  readGenotype,
  sameGenotype,
  type GenotypeInput,
} from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { Genotype, Locus, PhenotypeId } from '../locus.js';
import { assertComputable, phenotypeById, phenotypesOf } from '../phenotypes.js';
import { checkCounts } from '../counts/counts.js';
import type { FounderBelief } from './evidence.js';

/** Everything about one locus as numbers, with genotypes and phenotypes by place. */
export interface LocusTables {
  readonly locus: Locus;
  readonly genotypes: readonly Genotype[];
  readonly texts: readonly string[];
  readonly size: number;
  /** Chance that parents of genotypes s and d have a surviving young of genotype c, at `(s * size + d) * size + c`. */
  readonly transmission: Float64Array;
  /** Chance that genotype g passes allele a, at `g * alleles + a`. */
  readonly gamete: Float64Array;
  /** Chance that genotype g shows phenotype p, at `g * phenotypes + p`. */
  readonly shows: Float64Array;
  readonly phenotypes: readonly PhenotypeId[];
  /** Share of zygotes of genotype g that live to be scored. */
  readonly survival: Float64Array;
}

/** More genotypes than this do not fit the bit sets of the engine: seven alleles. */
const MOST_GENOTYPES = 30;

/** Builds the tables. Throws `LOCUS_NOT_COMPUTABLE`, `ARGUMENT_INVALID` beyond seven alleles. */
export function locusTables(locus: Locus): LocusTables {
  assertComputable(locus);
  const genotypes = allGenotypes(locus);
  const size = genotypes.length;
  if (size > MOST_GENOTYPES) {
    throw new HeredityError(
      'ARGUMENT_INVALID',
      `Carrier probabilities allow up to seven alleles; ${locus.id} has ${String(locus.alleles.length)}.`,
    );
  }
  const alleles = locus.alleles.map((one) => one.id);
  const phenotypes = locus.phenotypes.map((one) => one.id);
  const gamete = new Float64Array(size * alleles.length);
  const shows = new Float64Array(size * phenotypes.length);
  const survival = Float64Array.from(genotypes, (genotype) => {
    const effect = locus.viability.find((one) => genotypeFits(locus, genotype, one.genotype));
    return effect ? fractionToNumber(toProbability(effect.survival, 'survival')) : 1;
  });
  genotypes.forEach((genotype, g) => {
    for (const id of genotype) {
      const at = g * alleles.length + alleles.indexOf(id);
      gamete[at] = (gamete[at] ?? 0) + 0.5;
    }
    for (const { phenotype, probability } of phenotypesOf(locus, genotype)) {
      const at = g * phenotypes.length + phenotypes.indexOf(phenotype.id);
      shows[at] = (shows[at] ?? 0) + fractionToNumber(probability);
    }
  });
  const transmission = new Float64Array(size ** 3);
  for (let s = 0; s < size; s++) {
    for (let d = 0; d < size; d++) fillYoung(s, d);
  }
  return {
    locus,
    genotypes,
    texts: genotypes.map((genotype) => formatGenotype(locus, genotype)),
    size,
    transmission,
    gamete,
    shows,
    phenotypes,
    survival,
  };

  function fillYoung(s: number, d: number): void {
    const base = (s * size + d) * size;
    let total = 0;
    genotypes.forEach((young, c) => {
      const a = alleles.indexOf(young[0]);
      const b = alleles.indexOf(young[1]);
      const pass = (g: number, allele: number) => gamete[g * alleles.length + allele] ?? 0;
      const chance =
        (pass(s, a) * pass(d, b) + (a === b ? 0 : pass(s, b) * pass(d, a))) * (survival[c] ?? 1);
      transmission[base + c] = chance;
      total += chance;
    });
    // A recorded young fish has lived, so lethal classes are taken out; parents that have no living young keep zeros.
    if (total > 0) for (let c = 0; c < size; c++) transmission[base + c]! /= total;
  }
}

/**
 * Chances of each genotype in a founder: Hardy-Weinberg proportions of its line's frequencies, of which those are left that
 * live, since a founder on record has lived; or as given. All zero where none of them lives.
 */
export function founderTable(tables: LocusTables, belief: FounderBelief): Float64Array {
  const { locus, genotypes } = tables;
  const out = new Float64Array(tables.size);
  if ('genotypes' in belief) {
    for (const { genotype, probability } of readGenotype(locus, belief.genotypes)) {
      const at = genotypes.findIndex((one) => sameGenotype(one, genotype));
      out[at] = (out[at] ?? 0) + fractionToNumber(probability);
    }
    return out;
  }
  const frequency = new Map<string, number>();
  for (const [key, value] of Object.entries(belief.alleles)) {
    const allele =
      locus.alleles.find((one) => one.symbol === key) ??
      locus.alleles.find((one) => one.id === key);
    if (!allele) {
      throw new HeredityError('ALLELE_UNKNOWN', `"${key}" is not an allele of ${locus.id}.`, {
        locus: locus.id,
        allele: key,
      });
    }
    frequency.set(allele.id, fractionToNumber(toProbability(value, `frequency of ${key}`)));
  }
  const sum = [...frequency.values()].reduce((a, b) => a + b, 0);
  if (Math.abs(sum - 1) > 1e-9) {
    throw new HeredityError(
      'PROBABILITIES_NOT_ONE',
      `The allele frequencies of ${locus.id} sum to ${String(sum)}, not 1.`,
      { locus: locus.id, sum },
    );
  }
  let living = 0;
  genotypes.forEach(([a, b], g) => {
    const born = (frequency.get(a) ?? 0) * (frequency.get(b) ?? 0) * (a === b ? 1 : 2);
    out[g] = born * (tables.survival[g] ?? 1);
    living += out[g] ?? 0;
  });
  return living > 0 ? out.map((chance) => chance / living) : out;
}

/** Chance that each genotype is scored as a phenotype. Throws `PHENOTYPE_UNKNOWN`. */
export function scoredAs(
  tables: LocusTables,
  phenotype: PhenotypeId,
  error: FractionInput,
): Float64Array {
  phenotypeById(tables.locus, phenotype);
  const at = tables.phenotypes.indexOf(phenotype);
  const wrong = errorRate(tables, error);
  return Float64Array.from({ length: tables.size }, (_, g) =>
    blur(tables.shows[g * tables.phenotypes.length + at] ?? 0, wrong, tables.phenotypes.length),
  );
}

function errorRate(tables: LocusTables, error: FractionInput): number {
  const rate = fractionToNumber(toProbability(error, 'share of fish scored wrongly'));
  return tables.phenotypes.length > 1 ? rate : 0;
}

const blur = (chance: number, wrong: number, classes: number) =>
  wrong === 0 ? chance : (1 - wrong) * chance + (wrong * (1 - chance)) / (classes - 1);

/**
 * ln likelihood of brood counts for every pair of parental genotypes, at `s * size + d`, up to a constant:
 * the sum over classes of count times ln chance of the class (multinomial). Parents that have no living young cannot have
 * had those counted, however often fish are scored wrongly.
 */
export function broodLogLikelihood(
  tables: LocusTables,
  counts: Readonly<Record<PhenotypeId, number>>,
  error: FractionInput,
): Float64Array {
  const { size, phenotypes, transmission, shows, locus } = tables;
  const numbers = phenotypes.map(() => 0);
  for (const [id, count] of Object.entries(counts)) {
    phenotypeById(locus, id);
    numbers[phenotypes.indexOf(id)] = count;
  }
  const total = checkCounts(numbers);
  const wrong = errorRate(tables, error);
  const out = new Float64Array(size * size);
  for (let pair = 0; pair < size * size; pair++) {
    const barren = transmission.subarray(pair * size, (pair + 1) * size).every((x) => x === 0);
    if (barren && total > 0) {
      out[pair] = -Infinity;
      continue;
    }
    let log = 0;
    numbers.forEach((count, p) => {
      if (count === 0) return;
      let chance = 0;
      for (let c = 0; c < size; c++) {
        chance += (transmission[pair * size + c] ?? 0) * (shows[c * phenotypes.length + p] ?? 0);
      }
      log += count * Math.log(blur(chance, wrong, phenotypes.length));
    });
    out[pair] = log;
  }
  return out;
}

/** Chances of a partner's genotypes, by place. */
export function genotypeTable(tables: LocusTables, input: GenotypeInput): Float64Array {
  return founderTable(tables, { genotypes: input });
}
