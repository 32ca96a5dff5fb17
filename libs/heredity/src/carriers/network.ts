import { NO_PARENT, type Pedigree } from '@linewright/pedigree';
import type { FractionInput } from '../fraction.js';
import { parsePartialGenotype, sameGenotype } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import type { Locus } from '../locus.js';
import type { CarrierEvidence, FounderBeliefs } from './evidence.js';
import {
  broodLogLikelihood,
  founderTable,
  genotypeTable,
  locusTables,
  scoredAs,
  type LocusTables,
} from './locus-tables.js';

/** A table over a few different fish; the last one runs fastest. */
export interface Factor {
  readonly fish: readonly number[];
  readonly table: Float64Array;
}

export interface NetworkInput {
  readonly pedigree: Pedigree;
  readonly locus: Locus;
  readonly evidence: readonly CarrierEvidence[];
  readonly founders: FounderBeliefs;
  /** Share of fish scored wrongly, where a record does not say; 0 by default. */
  readonly misScoring?: FractionInput;
}

/** One locus on one pedigree as a product of small tables over genotypes. */
export interface Network {
  readonly input: NetworkInput;
  readonly tables: LocusTables;
  /** What is inherited: founders' beliefs and transmission, one table a fish. */
  readonly inheritance: readonly Factor[];
  /** What was seen, one table a record, in the order given. */
  readonly seen: readonly Factor[];
  /** Logarithms taken out of `seen` by scaling. */
  readonly logScale: number;
}

function fishAt(pedigree: Pedigree, id: string, record: string): number {
  if (!pedigree.has(id)) {
    throw new HeredityError(
      'FISH_UNKNOWN',
      `Record ${record} is about fish "${id}", which is not in the pedigree.`,
      { fish: id, record },
    );
  }
  return pedigree.indexOf(id);
}

/** Turns logarithms into values with 1 as the largest, so that big broods do not underflow. */
function scaled(logs: Float64Array): { table: Float64Array; log: number } {
  const top = logs.reduce((a, b) => Math.max(a, b), -Infinity);
  return top === -Infinity
    ? { table: new Float64Array(logs.length), log: 0 }
    : { table: logs.map((log) => Math.exp(log - top)), log: top };
}

/** The table of one record. Throws `FISH_UNKNOWN`, `PHENOTYPE_UNKNOWN`, `COUNT_*` and the errors of genotypes. */
export function evidenceFactor(
  input: Pick<NetworkInput, 'pedigree' | 'misScoring'>,
  tables: LocusTables,
  record: CarrierEvidence,
): { factor: Factor; log: number } {
  const { pedigree } = input;
  const { size } = tables;
  const error = record.kind === 'genotype' ? 0 : (record.misScoring ?? input.misScoring ?? 0);
  switch (record.kind) {
    case 'phenotype':
      return {
        factor: {
          fish: [fishAt(pedigree, record.fish, record.id)],
          table: scoredAs(tables, record.phenotype, error),
        },
        log: 0,
      };
    case 'genotype': {
      const allowed = parsePartialGenotype(tables.locus, record.genotype);
      const table = Float64Array.from(tables.genotypes, (one) =>
        allowed.some((other) => sameGenotype(one, other)) ? 1 : 0,
      );
      return { factor: { fish: [fishAt(pedigree, record.fish, record.id)], table }, log: 0 };
    }
    case 'brood': {
      const sire = fishAt(pedigree, record.sire, record.id);
      const dam = fishAt(pedigree, record.dam, record.id);
      if (sire === dam) {
        throw new HeredityError(
          'ARGUMENT_INVALID',
          `Record ${record.id} names ${record.sire} as both parents.`,
        );
      }
      const { table, log } = scaled(broodLogLikelihood(tables, record.counts, error));
      return { factor: { fish: [sire, dam], table }, log };
    }
    case 'test-mating': {
      const fish = fishAt(pedigree, record.fish, record.id);
      const partner = genotypeTable(tables, record.partner);
      const logs = broodLogLikelihood(tables, record.counts, error);
      // The partner is one fish, so the whole brood is averaged over what it may be, not each young by itself.
      const summed = Float64Array.from({ length: size }, (_, g) => {
        const terms = Array.from(partner, (p, d) => Math.log(p) + (logs[g * size + d] ?? 0));
        const top = Math.max(...terms);
        return top === -Infinity
          ? -Infinity
          : top + Math.log(terms.reduce((sum, term) => sum + Math.exp(term - top), 0));
      });
      const { table, log } = scaled(summed);
      return { factor: { fish: [fish], table }, log };
    }
  }
}

function inheritanceFactors(input: NetworkInput, tables: LocusTables): Factor[] {
  const { pedigree, founders } = input;
  const { size } = tables;
  const general = founderTable(tables, founders.general);
  const own = new Map<number, Float64Array>();
  for (const [id, belief] of Object.entries(founders.byFish ?? {})) {
    own.set(fishAt(pedigree, id, 'of founder frequencies'), founderTable(tables, belief));
  }
  // One known parent: the other one's gamete is drawn from the general founders.
  const half = new Float64Array(size * size);
  for (let known = 0; known < size; known++) {
    for (let other = 0; other < size; other++) {
      for (let c = 0; c < size; c++) {
        half[known * size + c]! +=
          (general[other] ?? 0) * (tables.transmission[(known * size + other) * size + c] ?? 0);
      }
    }
  }
  return Array.from({ length: pedigree.size }, (_, i): Factor => {
    const sire = pedigree.sire[i] ?? NO_PARENT;
    const dam = pedigree.dam[i] ?? NO_PARENT;
    if (sire === NO_PARENT && dam === NO_PARENT) {
      return { fish: [i], table: own.get(i) ?? general };
    }
    if (sire === NO_PARENT || dam === NO_PARENT) {
      return { fish: [Math.max(sire, dam), i], table: half };
    }
    if (sire === dam) {
      const selfed = Float64Array.from(
        { length: size * size },
        (_, at) =>
          tables.transmission[Math.floor(at / size) * (size + 1) * size + (at % size)] ?? 0,
      );
      return { fish: [sire, i], table: selfed };
    }
    return { fish: [sire, dam, i], table: tables.transmission };
  });
}

/** Compiles pedigree, beliefs and evidence of one locus. Cost: linear in fish and records. */
export function buildNetwork(input: NetworkInput): Network {
  const tables = locusTables(input.locus);
  let logScale = 0;
  const seen = input.evidence.map((record) => {
    const { factor, log } = evidenceFactor(input, tables, record);
    logScale += log;
    return factor;
  });
  return { input, tables, inheritance: inheritanceFactors(input, tables), seen, logScale };
}
