import { HeredityError } from '../heredity-error.js';
import { CliqueTree, type Watch } from './clique-tree.js';
import { eliminationOrder } from './elimination-order.js';
import type { CarrierEvidence } from './evidence.js';
import { buildNetwork, type Network, type NetworkInput } from './network.js';
import { reduceNetwork, relevantFish } from './reduced-network.js';

/** Records that cannot all be true together, none of which can be spared from the clash. */
export interface Contradiction {
  readonly records: readonly CarrierEvidence[];
  /** Whether no smaller set of records clashes; false when the search was cut short. */
  readonly smallest: boolean;
  /** Parentages by which the records bear on one another, as `young: sire x dam`. */
  readonly parentages: readonly string[];
  readonly explanation: string;
  /** What would settle it, one suggestion a record and one for the parentages. */
  readonly remedies: readonly string[];
}

export interface ContradictionOptions extends Watch {
  /** Checks allowed before the search for the smallest set is given up; 2,000 by default. */
  readonly checks?: number;
}

class Checker {
  checks = 0;
  readonly #network: Network;
  readonly #limit: number;
  readonly #watch: Watch;

  constructor(network: Network, limit: number, watch: Watch) {
    this.#network = network;
    this.#limit = limit;
    this.#watch = watch;
  }

  get spent(): boolean {
    return this.checks >= this.#limit;
  }

  /** Whether the records at these places can all be true. */
  possible(places: readonly number[]): boolean {
    if (this.#watch.signal?.aborted)
      throw new HeredityError('CANCELLED', 'The search was stopped.');
    this.#watch.onProgress?.(this.checks, this.#limit);
    this.checks++;
    const seen = places.flatMap((i) => this.#network.seen[i] ?? []);
    const part: Network = {
      ...this.#network,
      // Only what is zero matters: ones and zeros cannot underflow.
      seen: seen.map((factor) => ({ ...factor, table: factor.table.map((x) => (x > 0 ? 1 : 0)) })),
    };
    const reduced = reduceNetwork(part, relevantFish(part, []));
    if (!reduced) return false;
    const order = eliminationOrder(reduced.graph, { rule: 'fewest-new-ties', limit: 2 ** 20 });
    // Too tangled to be sure: arc consistency found nothing wrong, and a clash is not claimed without proof.
    if (!order) return true;
    const tree = CliqueTree.build(reduced.graph.states, order, reduced.tables, {}, () => {
      throw new HeredityError('CANCELLED', 'The search was stopped.');
    });
    return tree.logTotal > -Infinity;
  }
}

/** A set that clashes and of which every part is needed, by divide and conquer (QuickXplain, Junker 2004). */
function irreducible(checker: Checker, all: readonly number[]): number[] {
  const explain = (base: readonly number[], added: boolean, rest: readonly number[]): number[] => {
    if (added && !checker.possible(base)) return [];
    if (rest.length === 1) return [...rest];
    const half = Math.floor(rest.length / 2);
    const first = rest.slice(0, half);
    const second = rest.slice(half);
    const fromSecond = explain([...base, ...first], first.length > 0, second);
    const fromFirst = explain([...base, ...fromSecond], fromSecond.length > 0, first);
    return [...fromFirst, ...fromSecond];
  };
  return explain([], false, all);
}

/** A smallest set of places that shares one with every given set; depth first over the sizes. */
function smallestHitting(sets: readonly (readonly number[])[], upTo: number): number[] | null {
  const search = (chosen: readonly number[], room: number): number[] | null => {
    const open = sets.find((set) => !set.some((place) => chosen.includes(place)));
    if (!open) return [...chosen];
    if (room === 0) return null;
    for (const place of open) {
      const found = search([...chosen, place], room - 1);
      if (found) return found;
    }
    return null;
  };
  for (let size = 0; size <= upTo; size++) {
    const found = search([], size);
    if (found) return found;
  }
  return null;
}

/**
 * A clash of the smallest size: every clash meets every set of records whose removal mends all, so a smallest set that meets
 * those known so far is either a clash, and then a smallest one, or shows a further such set (implicit hitting sets,
 * Ignatiev et al. 2015).
 */
function smallestClash(
  checker: Checker,
  all: readonly number[],
  start: readonly number[],
): { clash: readonly number[]; smallest: boolean } {
  const corrections: number[][] = [];
  while (!checker.spent) {
    const guess = smallestHitting(corrections, start.length - 1);
    // Nothing smaller than the start meets all of them, so the start is a smallest.
    if (!guess) return { clash: start, smallest: true };
    if (guess.length > 0 && !checker.possible(guess)) return { clash: guess, smallest: true };
    let grown = [...guess];
    for (const place of all) {
      if (grown.includes(place) || checker.spent) continue;
      const more = [...grown, place];
      if (checker.possible(more)) grown = more;
    }
    if (checker.spent) break;
    const kept = new Set(grown);
    corrections.push(all.filter((place) => !kept.has(place)));
  }
  return { clash: start, smallest: false };
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
      return `Look at ${record.fish} again, at the age from which this can be told (record ${record.id}).`;
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

/**
 * The smallest set of records that cannot all be true under the model, or null when all of them can be.
 *
 * Mis-scoring is left out: with it nothing is impossible, only unlikely. Parentage is taken as given and named, since a wrong
 * parent explains a clash as well as a wrong score.
 *
 * Cost: for n records and a clash of k, about k log2(n) checks to find one, and as many as `checks` to make sure that none is
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
  const checker = new Checker(network, options.checks ?? 2000, options);
  const all = evidence.map((_, i) => i);
  if (all.length === 0 || checker.possible(all)) return null;
  const one = irreducible(checker, all);
  const { clash, smallest } =
    one.length === 1 ? { clash: one, smallest: true } : smallestClash(checker, all, one);
  const records = [...clash].sort((a, b) => a - b).flatMap((i) => input.evidence[i] ?? []);
  const parentages = parentagesBetween(network, clash);
  const list = records.map((record) => describe(record, network.input)).join('; ');
  return {
    records,
    smallest,
    parentages,
    explanation: `These cannot all be true of ${input.locus.name.toLowerCase()}: ${list}.`,
    remedies: [
      ...records.map(remedyFor),
      ...(parentages.length > 0 ? [`Make sure of the parentage ${parentages.join('; ')}.`] : []),
    ],
  };
}
