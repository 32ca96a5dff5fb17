import { mendelianVariance } from '../young/expected-young.js';
import type { SimulatedBrood, SimulatedLine } from '../simulated/simulated-line.js';

/**
 * Breeding values as a keeper would estimate them while a simulated line goes on: from the parents' estimates, the mean score of the brood
 * and each young's own score, by regression on each of them. Errors of different broods are taken as independent, which the full equations
 * of `@linewright/merit` do not need; it is some thousand times quicker and comes close where each brood is scored whole (true values
 * regress on these with a slope of 1.04 in simulated lines of eight founders).
 */
export class RunningValues {
  readonly #line: SimulatedLine;
  /** By fish and trait. */
  #value: Float64Array;
  /** Variance of its error. */
  #error: Float64Array;

  constructor(line: SimulatedLine) {
    this.#line = line;
    this.#value = new Float64Array(0);
    this.#error = new Float64Array(0);
  }

  /** Begins with what is believed of the actual fish. */
  begin(): void {
    const { belief, founders, traits } = this.#line;
    this.#reserve(founders);
    belief.traits.forEach(({ value, error }, t) => {
      for (let i = 0; i < founders; i++) {
        this.#value[i * traits + t] = value[i]!;
        this.#error[i * traits + t] = error[i * founders + i]!;
      }
    });
  }

  of(fish: number, trait: number): number {
    return this.#value[fish * this.#line.traits + trait]!;
  }

  /** Takes in the scores of a whole brood. */
  scored(brood: SimulatedBrood, sire: number, dam: number): void {
    const { belief, traits } = this.#line;
    this.#reserve(this.#line.size);
    const parents = [this.#line.inbreedingOf(sire), this.#line.inbreedingOf(dam)] as const;
    belief.traits.forEach((trait, t) => {
      const of = (list: Float64Array, fish: number): number => list[fish * traits + t]!;
      const prior = (of(this.#value, sire) + of(this.#value, dam)) / 2;
      const doubt = (of(this.#error, sire) + of(this.#error, dam)) / 4;
      const within = mendelianVariance(...parents, trait.additive);
      const mean = meanScore(this.#line, brood, t);
      const noise = trait.commonBrood + (within + trait.residual) / brood.count;
      const trust = doubt + noise === 0 ? 0 : doubt / (doubt + noise);
      const family = prior + trust * (mean - trait.level - prior);
      const own = within + trait.residual === 0 ? 0 : within / (within + trait.residual);
      const error = doubt * (1 - trust) + within * (1 - own);
      for (let i = brood.first; i < brood.first + brood.count; i++) {
        this.#value[i * traits + t] = family + own * (of(this.#line.score, i) - mean);
        this.#error[i * traits + t] = error;
      }
    });
  }

  #reserve(fish: number): void {
    const least = fish * this.#line.traits;
    if (least <= this.#value.length) return;
    const [value, error] = [new Float64Array(2 * least), new Float64Array(2 * least)];
    value.set(this.#value);
    error.set(this.#error);
    [this.#value, this.#error] = [value, error];
  }
}

function meanScore(line: SimulatedLine, { first, count }: SimulatedBrood, trait: number): number {
  let sum = 0;
  for (let i = first; i < first + count; i++) sum += line.score[i * line.traits + trait]!;
  return sum / count;
}
