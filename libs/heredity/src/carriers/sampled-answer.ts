import { HeredityError } from '../heredity-error.js';
import { sampleBlocks } from './blocked-sampler.js';
import type { Watch } from './clique-tree.js';
import type { Network } from './network.js';
import { bitsOf, type ReducedNetwork } from './reduced-network.js';
import { cancelled } from './stopped.js';
import { seededChance } from '@linewright/pedigree';

const BATCHES = 40;

export interface SampleOptions extends Watch {
  readonly pairs?: readonly { readonly sire: string; readonly dam: string }[];
  readonly drawn?: readonly string[];
  readonly sweeps?: number;
  readonly seed?: number;
}

/**
 * Standard error of the mean of consecutive batch means. Neighbouring batches of a chain lean the same way, so their
 * covariances are added to the variance for as long as sums of neighbouring pairs of them stay positive and do not rise (initial
 * monotone sequence: Geyer CJ (1992) Practical Markov chain Monte Carlo, Statistical Science 7:473-483; from memory). Taking
 * batches as independent stated errors 12 % too small. Each covariance is made up for the mean having been taken from the same
 * batches.
 */
export function errorOfMean(means: Float64Array): number {
  const n = means.length;
  const mean = means.reduce((sum, one) => sum + one, 0) / n;
  const covariance = (lag: number): number => {
    let sum = 0;
    for (let i = 0; i + lag < n; i++)
      sum += ((means[i] ?? 0) - mean) * ((means[i + lag] ?? 0) - mean);
    return sum / n;
  };
  const own = covariance(0);
  let total = -own;
  let before = Infinity;
  for (let lag = 0; lag < n / 4; lag += 2) {
    const pair = Math.min(before, covariance(lag) + covariance(lag + 1));
    if (pair <= 0) break;
    total += 2 * pair;
    before = pair;
  }
  // Never less than as if batches were independent; and the mean takes its own error out of every product.
  const variance = Math.max(total, own);
  return Math.sqrt(variance / Math.max(1, n - variance / (own || 1)));
}

/** Tallies of the sampler. */
export interface SampledAnswer {
  mean(variable: number): Float64Array;
  error(variable: number): Float64Array;
  joint(sire: number, dam: number): Float64Array | null;
  /** States of a variable of a fish to be drawn, sweep by sweep; `null` for others. */
  kept(variable: number): Uint8Array | null;
}

const batchOf = (kept: number, sweeps: number): number =>
  Math.min(BATCHES - 1, Math.floor((kept * BATCHES) / sweeps));

/** How often each variable had each of its states, by batch of sweeps. */
class StateTallies {
  readonly #counts: readonly Float64Array[];
  readonly #sweepsOfBatch = new Float64Array(BATCHES);

  constructor(
    private readonly states: readonly number[],
    private readonly sweeps: number,
  ) {
    this.#counts = states.map((n) => new Float64Array(n * BATCHES));
    for (let kept = 0; kept < sweeps; kept++) this.#sweepsOfBatch[batchOf(kept, sweeps)]! += 1;
  }

  add(state: Int32Array, kept: number): void {
    const batch = batchOf(kept, this.sweeps);
    for (let v = 0; v < state.length; v++) {
      const at = batch * (this.states[v] ?? 1) + (state[v] ?? 0);
      this.#counts[v]![at]! += 1;
    }
  }

  mean(v: number): Float64Array {
    const n = this.states[v] ?? 1;
    return Float64Array.from({ length: n }, (_, x) => {
      let sum = 0;
      for (let b = 0; b < BATCHES; b++) sum += this.#counts[v]?.[b * n + x] ?? 0;
      return sum / this.sweeps;
    });
  }

  error(v: number): Float64Array {
    const n = this.states[v] ?? 1;
    return Float64Array.from({ length: n }, (_, x) => {
      const means = this.#sweepsOfBatch.map(
        (sweeps, b) => (this.#counts[v]?.[b * n + x] ?? 0) / (sweeps || 1),
      );
      // Batches of one state throughout hide an error of up to about one unseen sweep.
      return Math.max(errorOfMean(means), 1 / this.sweeps);
    });
  }
}

/**
 * Runs the sampler and tallies its sweeps in forty batches, whose spread gives the standard errors ({@link errorOfMean}).
 * @throws HeredityError `TOO_DENSE` when no possible assignment is found, `CANCELLED`.
 */
export function sampleAnswer(
  network: Network,
  reduced: ReducedNetwork,
  options: SampleOptions,
): SampledAnswer {
  const sweeps = options.sweeps ?? 1000;
  const tallies = new StateTallies(reduced.graph.states, sweeps);
  const { pedigree } = network.input;
  const { size } = network.tables;
  const pairs = (options.pairs ?? []).map(({ sire, dam }) => {
    const s = pedigree.indexOf(sire);
    const d = pedigree.indexOf(dam);
    return { s, d, table: new Float64Array(size * size) };
  });
  const kept = new Map(
    (options.drawn ?? []).flatMap((id) => {
      const v = reduced.variableOf[pedigree.indexOf(id)] ?? -1;
      return v < 0 ? [] : [[v, new Uint8Array(sweeps)] as const];
    }),
  );
  const genotypeOf = (fish: number, state: Int32Array) => {
    const v = reduced.variableOf[fish] ?? -1;
    return v < 0
      ? (bitsOf(reduced.domains[fish] ?? 0)[0] ?? 0)
      : (reduced.genotypesOf[v]?.[state[v] ?? 0] ?? 0);
  };
  const started = sampleBlocks(
    reduced,
    {
      ...options,
      sweeps,
      seed: options.seed ?? 1,
      blockLimit: 3 ** 5,
      heterozygous: network.tables.genotypes.map(([a, b]) => a !== b),
    },
    seededChance(options.seed ?? 1),
    (state, sweep) => {
      tallies.add(state, sweep);
      for (const [v, states] of kept) states[sweep] = state[v] ?? 0;
      for (const { s, d, table } of pairs) {
        const at = genotypeOf(s, state) * size + genotypeOf(d, state);
        table[at]! += 1 / sweeps;
      }
    },
    cancelled,
  );
  if (!started) {
    throw new HeredityError(
      'TOO_DENSE',
      'The pedigree is too tangled for an exact answer, and the sampler found no set of genotypes that fits all records. Ask about fewer fish, or allow for some mis-scoring.',
    );
  }
  return {
    mean: (v) => tallies.mean(v),
    error: (v) => tallies.error(v),
    joint: (s, d) => pairs.find((pair) => pair.s === s && pair.d === d)?.table ?? null,
    kept: (v) => kept.get(v) ?? null,
  };
}
