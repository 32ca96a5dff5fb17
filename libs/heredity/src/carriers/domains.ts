import type { Factor } from './network.js';

/** Genotypes each fish may have, as bit sets; 0 for a fish for which none is left. */
export type Domains = Int32Array;

/**
 * Strikes out every genotype that some table makes impossible given what its other fish may be, until nothing changes
 * (arc consistency; for families this is the genotype elimination of Lange & Goradia 1987). What is left need not all be
 * possible where the pedigree has loops, but nothing possible is struck out.
 *
 * Returns whether every fish keeps a genotype. Cost: tables times their entries times the few rounds it takes.
 */
export function strikeOut(
  factors: readonly Factor[],
  size: number,
  domains: Domains,
  more: {
    /** Tables to begin with; all when left out. */
    readonly first?: readonly number[];
    /** From {@link factorsByFish}, to spare making it again. */
    readonly touching?: readonly (readonly number[])[];
    /** Tables with 0 here are passed over. */
    readonly active?: Uint8Array;
  } = {},
): boolean {
  const touching = more.touching ?? factorsByFish(factors, domains.length);
  const queued = new Uint8Array(factors.length);
  const queue: number[] = [];
  const push = (f: number) => {
    if (queued[f] || more.active?.[f] === 0) return;
    queued[f] = 1;
    queue.push(f);
  };
  for (const f of more.first ?? factors.keys()) push(f);
  for (let head = 0; head < queue.length; head++) {
    const f = queue[head] ?? 0;
    queued[f] = 0;
    const factor = factors[f];
    if (!factor) continue;
    const left = supported(factor, size, domains);
    for (let k = 0; k < factor.fish.length; k++) {
      const fish = factor.fish[k] ?? 0;
      const now = (domains[fish] ?? 0) & (left[k] ?? 0);
      if (now === domains[fish]) continue;
      domains[fish] = now;
      if (now === 0) return false;
      for (const other of touching[fish] ?? []) push(other);
    }
    if (head > 1_000_000) {
      queue.splice(0, head + 1);
      head = -1;
    }
  }
  return true;
}

/** Places of the factors over each fish. */
export function factorsByFish(factors: readonly Factor[], fish: number): number[][] {
  const lists: number[][] = Array.from({ length: fish }, () => []);
  factors.forEach((factor, f) => {
    for (const i of factor.fish) lists[i]?.push(f);
  });
  return lists;
}

/** Genotypes of each fish of a table that occur in some entry that is not zero, within the domains. */
function supported({ fish, table }: Factor, size: number, domains: Domains): number[] {
  const [a = 0, b = 0, c = 0] = fish;
  const left = [0, 0, 0];
  const inA = domains[a] ?? 0;
  const inB = fish.length > 1 ? (domains[b] ?? 0) : 1;
  const inC = fish.length > 2 ? (domains[c] ?? 0) : 1;
  const sizeB = fish.length > 1 ? size : 1;
  const sizeC = fish.length > 2 ? size : 1;
  for (let x = 0; x < size; x++) {
    if (!((inA >> x) & 1)) continue;
    for (let y = 0; y < sizeB; y++) {
      if (!((inB >> y) & 1)) continue;
      const base = (x * sizeB + y) * sizeC;
      for (let z = 0; z < sizeC; z++) {
        if (!((inC >> z) & 1) || table[base + z] === 0) continue;
        left[0]! |= 1 << x;
        left[1]! |= 1 << y;
        left[2]! |= 1 << z;
      }
    }
  }
  return left;
}

/** Every genotype for every fish. */
export function fullDomains(fish: number, size: number): Domains {
  return new Int32Array(fish).fill((1 << size) - 1);
}
