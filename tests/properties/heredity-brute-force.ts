import type { Pedigree } from '@linewright/pedigree';

/** Plain doubles for one locus of two alleles, written apart from the library: genotypes are 0, 1 or 2 copies of the second allele. */
export interface BruteForceCase {
  readonly pedigree: Pedigree;
  readonly q: number;
  /** Chance that a genotype gives what was seen on a fish; absent for a fish not seen. */
  readonly seen: ReadonlyMap<number, readonly [number, number, number]>;
  /** Broods: number normal and recessive. */
  readonly broods: readonly { sire: number; dam: number; normal: number; recessive: number }[];
}

const passes = (copies: number) => copies / 2;

function young(s: number, d: number, c: number): number {
  const a = passes(s);
  const b = passes(d);
  return c === 0 ? (1 - a) * (1 - b) : c === 2 ? a * b : a * (1 - b) + (1 - a) * b;
}

/** Probabilities of every genotype of every fish, by going through all 3^n assignments. */
export function bruteForce(input: BruteForceCase): {
  posterior: number[][];
  likelihood: number;
  joint: (a: number, b: number) => number[];
  /** Probability of each set of genotypes of all fish that is possible, by its genotypes joined. */
  whole: ReadonlyMap<string, number>;
  /** For each of some fish: it has the second allele, and none of the others has. */
  sole: (among: readonly number[]) => number[];
} {
  const { pedigree, q } = input;
  const n = pedigree.size;
  const prior = [(1 - q) ** 2, 2 * q * (1 - q), q ** 2];
  const state = new Array<number>(n).fill(0);
  const posterior = Array.from({ length: n }, () => [0, 0, 0]);
  const kept: { state: number[]; weight: number }[] = [];
  let likelihood = 0;
  const visit = (i: number, weight: number): void => {
    if (weight === 0) return;
    if (i === n) {
      let w = weight;
      for (const { sire, dam, normal, recessive } of input.broods) {
        const p = young(state[sire]!, state[dam]!, 2);
        w *= (1 - p) ** normal * p ** recessive;
      }
      if (w === 0) return;
      likelihood += w;
      state.forEach((g, fish) => (posterior[fish]![g]! += w));
      kept.push({ state: [...state], weight: w });
      return;
    }
    const s = pedigree.sire[i]!;
    const d = pedigree.dam[i]!;
    for (let g = 0; g < 3; g++) {
      let p = 0;
      if (s < 0 && d < 0) p = prior[g]!;
      else if (s >= 0 && d >= 0) p = young(state[s]!, state[d]!, g);
      else {
        const known = state[Math.max(s, d)]!;
        for (let other = 0; other < 3; other++) p += prior[other]! * young(known, other, g);
      }
      state[i] = g;
      visit(i + 1, p * (input.seen.get(i)?.[g] ?? 1) * weight);
    }
  };
  visit(0, 1);
  return {
    posterior: posterior.map((row) => row.map((x) => x / likelihood)),
    likelihood,
    whole: new Map(kept.map((one) => [one.state.join(''), one.weight / likelihood])),
    joint: (a, b) => {
      const table = new Array<number>(9).fill(0);
      for (const one of kept) table[one.state[a]! * 3 + one.state[b]!]! += one.weight / likelihood;
      return table;
    },
    sole: (among) =>
      among.map((one) =>
        kept
          .filter((each) => among.every((fish) => each.state[fish]! > 0 === (fish === one)))
          .reduce((sum, { weight }) => sum + weight / likelihood, 0),
      ),
  };
}
