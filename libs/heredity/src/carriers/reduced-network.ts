import { fullDomains, strikeOut, type Domains } from './domains.js';
import type { StateGraph } from './elimination-order.js';
import type { StateTable } from './clique-tree.js';
import type { Factor, Network } from './network.js';

/** A network with impossible genotypes struck out: fish of one possible genotype are constants, the rest variables. */
export interface ReducedNetwork {
  readonly size: number;
  readonly domains: Domains;
  /** By fish: its variable, or -1 for a constant or a fish left out. */
  readonly variableOf: Int32Array;
  readonly fishOf: readonly number[];
  /** By variable: the genotypes it may be, by place. */
  readonly genotypesOf: readonly (readonly number[])[];
  readonly graph: StateGraph;
  readonly tables: readonly StateTable[];
  /** The table of each record, in the order of the network's `seen`; without variables where it is over constants only. */
  readonly seen: readonly StateTable[];
  /** ln of the tables over constants only. */
  readonly logConstant: number;
}

/** Places of the set bits. */
export function bitsOf(set: number): number[] {
  const bits: number[] = [];
  for (let i = 0; set >> i; i++) if ((set >> i) & 1) bits.push(i);
  return bits;
}

/** A table over the variables of its fish alone, constants filled in. */
export function reduceFactor(
  factor: Factor,
  reduced: Pick<ReducedNetwork, 'size' | 'domains' | 'variableOf' | 'genotypesOf'>,
): StateTable {
  const { size, domains, variableOf, genotypesOf } = reduced;
  let offsets: number[] = [0];
  const variables: number[] = [];
  let stride = size ** factor.fish.length;
  for (const fish of factor.fish) {
    stride /= size;
    const v = variableOf[fish] ?? -1;
    const genotypes = v >= 0 ? (genotypesOf[v] ?? []) : bitsOf(domains[fish] ?? 0).slice(0, 1);
    if (v >= 0) variables.push(v);
    offsets = offsets.flatMap((offset) => genotypes.map((g) => offset + g * stride));
  }
  return { variables, values: Float64Array.from(offsets, (at) => factor.table[at] ?? 0) };
}

/** Fish that matter for `wanted`: those named in evidence, those wanted, and all their ancestors. */
export function relevantFish(network: Network, wanted: Iterable<number>): Uint8Array {
  const { pedigree } = network.input;
  const keep = new Uint8Array(pedigree.size);
  for (const factor of network.seen) for (const fish of factor.fish) keep[fish] = 1;
  for (const fish of wanted) keep[fish] = 1;
  for (let i = pedigree.size - 1; i >= 0; i--) {
    if (!keep[i]) continue;
    for (const parent of [pedigree.sire[i] ?? -1, pedigree.dam[i] ?? -1]) {
      if (parent >= 0) keep[parent] = 1;
    }
  }
  return keep;
}

/** Returns null when some fish has no possible genotype left. */
export function reduceNetwork(network: Network, keep: Uint8Array): ReducedNetwork | null {
  const { size } = network.tables;
  const fish = network.input.pedigree.size;
  const inherited = network.inheritance.filter((_, i) => keep[i]);
  const factors = [...inherited, ...network.seen];
  const domains = fullDomains(fish, size);
  if (!strikeOut(factors, size, domains)) return null;
  const variableOf = new Int32Array(fish).fill(-1);
  const fishOf: number[] = [];
  const genotypesOf: number[][] = [];
  for (let i = 0; i < fish; i++) {
    const possible = bitsOf(domains[i] ?? 0);
    if (!keep[i] || possible.length < 2) continue;
    variableOf[i] = fishOf.length;
    fishOf.push(i);
    genotypesOf.push(possible);
  }
  const neighbours = fishOf.map(() => new Set<number>());
  const tables: StateTable[] = [];
  const reducedTables = factors.map((factor) =>
    reduceFactor(factor, { size, domains, variableOf, genotypesOf }),
  );
  let logConstant = 0;
  for (const table of reducedTables) {
    if (table.variables.length === 0) {
      logConstant += Math.log(table.values[0] ?? 0);
      continue;
    }
    tables.push(table);
    for (const a of table.variables) {
      for (const b of table.variables) if (a !== b) neighbours[a]?.add(b);
    }
  }
  return {
    size,
    domains,
    variableOf,
    fishOf,
    genotypesOf,
    graph: { states: genotypesOf.map((list) => list.length), neighbours },
    tables,
    seen: reducedTables.slice(inherited.length),
    logConstant,
  };
}
