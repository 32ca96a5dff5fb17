import { studentTail } from '../distributions.js';

/** One point of a grid: variances that were tried, and what the scores say at them. */
export interface GridPoint {
  readonly heritability: number;
  /** Shares of the further random terms in the whole variance. */
  readonly others: readonly number[];
  /** ln of the density of the scores at these shares, integrated over the scale; up to a constant. */
  readonly logDensity: number;
  readonly logPrior: number;
  /** Breeding values and their errors at these shares. */
  readonly value: Float64Array;
  readonly standardError: Float64Array;
  readonly accuracy: Float64Array;
}

export interface Band {
  readonly low: number;
  readonly high: number;
}

/** What is known of the heritability once scores and prior are put together. */
export interface HeritabilityKnown {
  /** Middle of each cell of the grid and its probability; what the cells leave out has next to none. */
  readonly grid: readonly { readonly heritability: number; readonly probability: number }[];
  readonly mean: number;
  readonly standardDeviation: number;
  readonly priorMean: number;
  readonly priorDeviation: number;
  /**
   * Share of what is known that came with the prior, 0 to 1: the prior's precision as a part of the whole. 1 when the scores say nothing.
   */
  readonly fromPrior: number;
}

/** What a grid of heritabilities does not say of itself. */
export interface GridFrame {
  /** Width of a cell of the heritability. */
  readonly width: number;
  /** Degrees of freedom of the scale; Infinity where there is none. */
  readonly freedom: number;
  /** Middles of all cells, rising; those without a point hold no probability. */
  readonly cells: readonly number[];
  /** Mean and standard deviation of the prior over all heritabilities. */
  readonly prior: { readonly mean: number; readonly deviation: number };
}

/**
 * Breeding values with the heritability integrated out: a mixture over a grid, each point weighted by the density of the scores times
 * the prior.
 */
export class Posterior {
  readonly heritability: HeritabilityKnown;
  readonly value: Float64Array;
  /** Standard deviation of the mixture: what is unknown of the value, that of the heritability included. */
  readonly standardError: Float64Array;
  /** The part of the square of `standardError` that would be left if the heritability were known. */
  readonly withinVariance: Float64Array;
  /** Mean accuracy over the grid. */
  readonly accuracy: Float64Array;
  /** Mean shares in the whole variance: of breeding values, of each further term; the rest is the residual's. */
  readonly meanShares: readonly number[];
  readonly freedom: number;
  /** Probability of each point of the grid. */
  readonly weights: readonly number[];
  readonly #width: number;

  constructor(
    readonly points: readonly GridPoint[],
    { width, freedom, prior, cells }: GridFrame,
  ) {
    const best = Math.max(...points.map(({ logDensity, logPrior }) => logDensity + logPrior));
    const raw = points.map(({ logDensity, logPrior }) => Math.exp(logDensity + logPrior - best));
    const total = raw.reduce((sum, w) => sum + w, 0);
    this.weights = raw.map((w) => w / total);
    this.freedom = freedom;
    this.#width = width;
    this.heritability = this.#heritabilityKnown(prior, cells);
    const size = points[0]!.value.length;
    this.value = new Float64Array(size);
    this.standardError = new Float64Array(size);
    this.withinVariance = new Float64Array(size);
    this.accuracy = new Float64Array(size);
    this.meanShares = this.#meanShares();
    const spread = !Number.isFinite(freedom) ? 1 : freedom > 2 ? freedom / (freedom - 2) : Infinity;
    for (let i = 0; i < size; i++) this.#mix(i, spread);
  }

  #mix(i: number, spread: number): void {
    let [mean, square, within, accuracy] = [0, 0, 0, 0];
    this.points.forEach((point, k) => {
      const w = this.weights[k]!;
      mean += w * point.value[i]!;
      square += w * point.value[i]! ** 2;
      within += w * spread * point.standardError[i]! ** 2;
      accuracy += w * point.accuracy[i]!;
    });
    this.value[i] = mean;
    this.withinVariance[i] = within;
    this.standardError[i] = Math.sqrt(within + Math.max(0, square - mean ** 2));
    this.accuracy[i] = accuracy;
  }

  #meanShares(): number[] {
    const terms = 1 + this.points[0]!.others.length;
    const mean = new Array<number>(terms).fill(0);
    this.points.forEach(({ heritability, others }, k) =>
      [heritability, ...others].forEach((share, term) => {
        mean[term]! += this.weights[k]! * share;
      }),
    );
    return mean;
  }

  /** Bounds between which a fish's value lies with this probability, as much beyond either end. Cost: the grid, forty times. */
  band(fish: number, probability: number): Band {
    const tail = (1 - probability) / 2;
    return { low: this.#quantile(fish, tail), high: this.#quantile(fish, 1 - tail) };
  }

  /** The same for the heritability, spread evenly within each cell. */
  heritabilityBand(probability: number): Band {
    const tail = (1 - probability) / 2;
    const at = (wanted: number): number => {
      let below = 0;
      for (const { heritability, probability: p } of this.heritability.grid) {
        if (below + p >= wanted && p > 0)
          return heritability - this.#width / 2 + (this.#width * (wanted - below)) / p;
        below += p;
      }
      return 1;
    };
    return { low: at(tail), high: at(1 - tail) };
  }

  /** Probability that a fish's value lies below `x`. */
  below(fish: number, x: number): number {
    return this.points.reduce((sum, { value, standardError }, k) => {
      if (this.weights[k]! < 1e-9) return sum;
      const se = standardError[fish]!;
      const z = se > 0 ? (x - value[fish]!) / se : x < value[fish]! ? -Infinity : Infinity;
      return sum + this.weights[k]! * (1 - studentTail(z, this.freedom));
    }, 0);
  }

  #quantile(fish: number, wanted: number): number {
    let low = Infinity;
    let high = -Infinity;
    for (const { value, standardError } of this.points) {
      low = Math.min(low, value[fish]! - 40 * standardError[fish]!);
      high = Math.max(high, value[fish]! + 40 * standardError[fish]!);
    }
    for (let k = 0; k < 60 && high - low > 1e-9 * (1 + Math.abs(low)); k++) {
      const middle = (low + high) / 2;
      if (this.below(fish, middle) < wanted) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }

  #heritabilityKnown(prior: GridFrame['prior'], cells: readonly number[]): HeritabilityKnown {
    const probability = new Map(cells.map((heritability) => [heritability, 0]));
    this.points.forEach(({ heritability }, k) =>
      probability.set(heritability, (probability.get(heritability) ?? 0) + this.weights[k]!),
    );
    const [mean, variance] = cellMoments(probability, this.#width);
    return {
      grid: [...probability].map(([heritability, p]) => ({ heritability, probability: p })),
      mean,
      standardDeviation: Math.sqrt(variance),
      priorMean: prior.mean,
      priorDeviation: prior.deviation,
      fromPrior: Math.min(1, variance / prior.deviation ** 2),
    };
  }
}

/** Mean and variance of what is spread evenly within each cell. */
export function cellMoments(
  weights: ReadonlyMap<number, number>,
  width: number,
): [mean: number, variance: number] {
  const total = [...weights.values()].reduce((sum, p) => sum + p, 0);
  const mean = [...weights].reduce((sum, [h, p]) => sum + (h * p) / total, 0);
  const square = [...weights].reduce((sum, [h, p]) => sum + ((h - mean) ** 2 * p) / total, 0);
  return [mean, square + width ** 2 / 12];
}
