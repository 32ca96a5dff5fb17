import { MatingError } from '../mating-error.js';
import type { LinePurpose } from '../purpose/line-purpose.js';
import { wilsonInterval } from '../schemes/route-tally.js';
import { Draws } from '../simulated/draws.js';
import { FishJudge } from '../simulated/fish-judge.js';
import type { LineBelief } from '../simulated/line-belief.js';
import { SimulatedLine } from '../simulated/simulated-line.js';
import { fanOf, type Fan } from './bands.js';
import type { WatchedAllele } from '../purpose/wanted-alleles.js';
import { LineCourse, type CourseSettings } from './line-course.js';
import type { Strategy } from './strategies.js';

export interface ForecastInput extends CourseSettings {
  readonly belief: LineBelief;
  readonly purpose: Pick<LinePurpose, 'traits' | 'looks'>;
  /** Makes the strategy of one simulated line. */
  readonly strategy: () => Strategy;
  readonly alleles: readonly WatchedAllele[];
  /** From 1 to 20. */
  readonly generations: number;
  /** Any safe integer. */
  readonly seed: number;
}

export interface AlleleForecast extends WatchedAllele {
  /** Chance that any fish of the generation carries it, with its 95 % interval. */
  readonly stillThere: number;
  readonly low: number;
  readonly high: number;
  /** Share of it among the alleles of the generation. */
  readonly frequency: Fan;
}

export interface ForecastGeneration {
  /** 0: the actual fish. */
  readonly generation: number;
  readonly inbreeding: Fan;
  /** Mean coancestry of the fish of the generation, each with itself included. */
  readonly kinship: Fan;
  /** Mean breeding value in the trait's unit, by trait. */
  readonly traits: readonly { readonly traitId: string; readonly mean: Fan }[];
  readonly alleles: readonly AlleleForecast[];
}

export interface LineForecast {
  readonly simulations: number;
  readonly generations: readonly ForecastGeneration[];
  /**
   * Effective size by the rise of mean kinship over all generations, 1 / (2 dK) with 1 - K(t) = (1 - K(0)) (1 - dK)^t; `null` where kinship does
   * not rise.
   */
  readonly effectiveSize: Fan | null;
}

/** What one simulated line was, generation by generation. */
interface Snapshot {
  readonly inbreeding: number;
  readonly kinship: number;
  readonly traits: readonly number[];
  readonly frequencies: readonly number[];
}

/**
 * Where a line goes over some generations under a strategy, by simulation over what is not known of its fish.
 *
 * Work is done in pieces: {@link Forecast.advance} a number of lines, and {@link Forecast.standing} reads what they say so far.
 * @throws MatingError MATING_BAD_SETTING, MATING_BAD_BELIEF.
 */
export class Forecast {
  readonly #input: ForecastInput;
  readonly #line: SimulatedLine;
  readonly #judge: FishJudge;
  readonly #watched: readonly { readonly at: number; readonly allele: number }[];
  readonly #lines: Snapshot[][] = [];

  constructor(input: ForecastInput) {
    checkForecast(input);
    this.#input = input;
    this.#line = new SimulatedLine(input.belief);
    this.#judge = new FishJudge(this.#line, input.purpose);
    this.#watched = input.alleles.map(({ locusId, alleleId }) => {
      const at = this.#line.tables.findIndex(({ locus }) => locus.id === locusId);
      const allele =
        this.#line.tables[at]?.locus.alleles.findIndex(({ id }) => id === alleleId) ?? -1;
      if (allele < 0)
        throw bad('alleles', `${locusId} ${alleleId}`, 'an allele that is believed of');
      return { at, allele };
    });
  }

  get simulations(): number {
    return this.#lines.length;
  }

  /** Simulates `lines` more. */
  advance(lines: number): void {
    const { seed, generations, strategy } = this.#input;
    for (let k = 0; k < lines; k++) {
      const draws = Draws.ofRun(seed, this.#lines.length);
      const course = new LineCourse(this.#line, this.#judge, this.#input, draws);
      const choose = strategy();
      const snapshots = [this.#look(course)];
      for (let g = 1; g <= generations; g++) {
        course.next(choose);
        snapshots.push(this.#look(course));
      }
      this.#lines.push(snapshots);
    }
  }

  standing(): LineForecast {
    const { generations } = this.#input;
    const sizes = this.#lines.map((line) =>
      effectiveSize(line[0]!, line[generations]!, generations),
    );
    return {
      simulations: this.simulations,
      generations: Array.from({ length: generations + 1 }, (_, g) => this.#generation(g)),
      effectiveSize: sizes.every(Number.isFinite) ? fanOf(sizes) : null,
    };
  }

  #generation(g: number): ForecastGeneration {
    const { belief, alleles } = this.#input;
    const all = this.#lines.map((line) => line[g]!);
    return {
      generation: g,
      inbreeding: fanOf(all.map(({ inbreeding }) => inbreeding)),
      kinship: fanOf(all.map(({ kinship }) => kinship)),
      traits: belief.traits.map(({ traitId }, t) => ({
        traitId,
        mean: fanOf(all.map(({ traits }) => traits[t]!)),
      })),
      alleles: alleles.map((watched, k) => {
        const frequencies = all.map(({ frequencies: list }) => list[k]!);
        const there = frequencies.filter((one) => one > 0).length;
        return {
          ...watched,
          stillThere: there / all.length,
          ...wilsonInterval(there, all.length),
          frequency: fanOf(frequencies),
        };
      }),
    };
  }

  #look(course: LineCourse): Snapshot {
    const line = this.#line;
    const { fish } = course;
    const mean = (of: (one: number) => number): number =>
      fish.reduce((sum, one) => sum + of(one), 0) / fish.length;
    return {
      inbreeding: mean((one) => line.inbreedingOf(one)),
      kinship: course.meanKinship(),
      traits: line.belief.traits.map(
        ({ level }, t) => level + mean((one) => line.value[one * line.traits + t]!),
      ),
      frequencies: this.#watched.map(({ at, allele }) =>
        mean((one) => line.copies(one, at, allele) / 2),
      ),
    };
  }
}

function effectiveSize(first: Snapshot, last: Snapshot, generations: number): number {
  const kept = (1 - last.kinship) / (1 - first.kinship);
  return kept >= 1 ? Infinity : 1 / (2 * (1 - kept ** (1 / generations)));
}

function checkForecast({ generations, seed, broods, fryPerBrood, belief }: ForecastInput): void {
  const whole = (value: number, least: number, most: number): boolean =>
    Number.isInteger(value) && value >= least && value <= most;
  if (!whole(generations, 1, 20))
    throw bad('generations', generations, 'a whole number from 1 to 20');
  if (!whole(broods, 1, 100)) throw bad('broods', broods, 'a whole number from 1 to 100');
  if (!whole(fryPerBrood, 2, 2_000))
    throw bad('fryPerBrood', fryPerBrood, 'a whole number from 2 to 2,000');
  if (!Number.isSafeInteger(seed)) throw bad('seed', seed, 'a whole number');
  for (const sex of ['male', 'female'] as const)
    if (!belief.sex.includes(sex))
      throw new MatingError(
        'MATING_TOO_FEW_FISH',
        sex,
        `There is no ${sex} to go on with: a forecast needs at least one male and one female.`,
      );
}

const bad = (name: string, value: number | string, wanted: string): MatingError =>
  new MatingError(
    'MATING_BAD_SETTING',
    name,
    `A forecast was given ${name} ${String(value)}; it must be ${wanted}.`,
  );
