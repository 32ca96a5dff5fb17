import { irreducible, smallestClash } from './clash-search.js';
import type { Watch } from './clique-tree.js';
import type { CarrierEvidence } from './evidence.js';
import { buildNetwork, type Network, type NetworkInput } from './network.js';
import { RecordChecker } from './record-checker.js';
import { relevantFish } from './reduced-network.js';

/** Records that cannot all be true together, none of which can be spared from the clash. */
export interface Contradiction {
  readonly records: readonly CarrierEvidence[];
  /** Whether no smaller set of records clashes; false when the search was cut short. */
  readonly smallest: boolean;
  /** Parentages by which the records bear on one another, as `young: sire x dam`. */
  readonly parentages: readonly string[];
  /** Whether the records would agree if no allele were ruled out in founders: a frequency of 0 is part of the clash. */
  readonly restsOnFounders: boolean;
  readonly explanation: string;
  /** What would settle it, one suggestion a record, one for the parentages and one for the founders' frequencies. */
  readonly remedies: readonly string[];
}

const FOUNDERS_REMEDY =
  'Look at what is believed of the founders: an allele given a frequency of 0 there cannot be in any of their young.';

export interface ContradictionOptions extends Watch {
  /** Checks allowed before the search for the smallest set is given up; 2,000 by default. */
  readonly checks?: number;
}

function describe(record: CarrierEvidence, input: NetworkInput): string {
  const name = (id: string) => input.locus.phenotypes.find((one) => one.id === id)?.name ?? id;
  const counts = (of: Readonly<Record<string, number>>) =>
    Object.entries(of)
      .filter(([, count]) => count > 0)
      .map(([id, count]) => `${String(count)} ${name(id)}`)
      .join(', ');
  switch (record.kind) {
    case 'phenotype':
      return `${record.fish} was seen to be ${name(record.phenotype)}`;
    case 'genotype':
      return `${record.fish} is recorded as ${record.genotype}`;
    case 'brood':
      return `the brood of ${record.sire} and ${record.dam} held ${counts(record.counts)}`;
    case 'test-mating':
      return `the test mating of ${record.fish} gave ${counts(record.counts)}`;
  }
}

function remedyFor(record: CarrierEvidence): string {
  switch (record.kind) {
    case 'phenotype':
      return `Look at ${record.fish} again, at the age from which this is visible (record ${record.id}).`;
    case 'genotype':
      return `Ask what the genotype of ${record.fish} rests on (record ${record.id}).`;
    case 'brood':
      return `Count the brood of ${record.sire} and ${record.dam} again, and rule out a stray egg or fry from another spawn (record ${record.id}).`;
    case 'test-mating':
      return `Check the test mating of ${record.fish}: the partner's genotype and the count (record ${record.id}).`;
  }
}

/** Parentages on the ways between the fish of the clash and their common ancestors. */
function parentagesBetween(network: Network, places: readonly number[]): string[] {
  const { pedigree } = network.input;
  const part: Network = { ...network, seen: places.flatMap((i) => network.seen[i] ?? []) };
  const above = relevantFish(part, []);
  const named = new Set(part.seen.flatMap((factor) => [...factor.fish]));
  // Below: whoever has one of the fish concerned, or a shared ancestor of two of them, among its own ancestors.
  const uses = new Int32Array(pedigree.size);
  for (let i = pedigree.size - 1; i >= 0; i--) {
    if (!above[i]) continue;
    for (const parent of [pedigree.sire[i] ?? -1, pedigree.dam[i] ?? -1]) {
      if (parent >= 0) uses[parent] = (uses[parent] ?? 0) + 1;
    }
  }
  const links: string[] = [];
  for (let i = 0; i < pedigree.size; i++) {
    const sire = pedigree.sire[i] ?? -1;
    const dam = pedigree.dam[i] ?? -1;
    if (!above[i] || (sire < 0 && dam < 0)) continue;
    const bears = [sire, dam].some(
      (parent) => parent >= 0 && (named.has(parent) || (uses[parent] ?? 0) > 1),
    );
    if (!bears) continue;
    const id = (at: number) => (at >= 0 ? (pedigree.ids[at] ?? '?') : 'unknown');
    links.push(`${id(i)}: ${id(sire)} x ${id(dam)}`);
  }
  return links;
}

/** Whether these records can all be true once every allele may be in every founder. */
function agreeWithOpenFounders(network: Network, places: readonly number[], watch: Watch): boolean {
  const { alleles } = network.tables.locus;
  const share = { numerator: 1n, denominator: BigInt(alleles.length) };
  const open = buildNetwork({
    ...network.input,
    evidence: places.flatMap((i) => network.input.evidence[i] ?? []),
    founders: { general: { alleles: Object.fromEntries(alleles.map((one) => [one.id, share])) } },
  });
  return new RecordChecker(open, 1, watch).possible(places.map((_, i) => i));
}

/**
 * The smallest set of records that cannot all be true under the model, or null when all of them can be.
 *
 * Mis-scoring is left out: with it nothing is impossible, only unlikely. Parentage is taken as given and named, since a wrong
 * parent explains a clash as well as a wrong score.
 *
 * Cost: for n records and a clash of k, about k log2(n) checks to find one, and up to `checks` to make sure that none is
 * smaller; a check is an exact computation on the fish concerned and their ancestors.
 * @throws HeredityError as `carrierModel`.
 * @example
 * // two steels that threw a turquoise
 * findContradiction({ pedigree, locus: findLocus('bl'), evidence, founders }).records.map((one) => one.id);
 */
export function findContradiction(
  input: Omit<NetworkInput, 'misScoring'>,
  options: ContradictionOptions = {},
): Contradiction | null {
  const evidence = input.evidence.map((record) =>
    record.kind === 'genotype' ? record : { ...record, misScoring: 0 },
  );
  const network = buildNetwork({ ...input, evidence, misScoring: 0 });
  const checker = new RecordChecker(network, options.checks ?? 2000, options);
  const all = evidence.map((_, i) => i);
  if (all.length === 0 || checker.possible(all)) return null;
  const one = irreducible(checker, all);
  const { clash, smallest } =
    one.length === 1 ? { clash: one, smallest: true } : smallestClash(checker, all, one);
  const records = [...clash].sort((a, b) => a - b).flatMap((i) => input.evidence[i] ?? []);
  const parentages = parentagesBetween(network, clash);
  const list = records.map((record) => describe(record, network.input)).join('; ');
  const restsOnFounders = agreeWithOpenFounders(network, clash, options);
  const start = records.length === 1 ? 'This cannot be true' : 'These cannot all be true';
  return {
    records,
    smallest,
    parentages,
    restsOnFounders,
    explanation: `${start} of ${input.locus.name.toLowerCase()}${restsOnFounders ? ', given the frequencies of the founders' : ''}: ${list}.`,
    remedies: [
      ...records.map(remedyFor),
      ...(parentages.length > 0 ? [`Make sure of the parentage ${parentages.join('; ')}.`] : []),
      ...(restsOnFounders ? [FOUNDERS_REMEDY] : []),
    ],
  };
}
