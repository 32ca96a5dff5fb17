import type { Draws } from '../simulated/draws.js';
import type { FishJudge } from '../simulated/fish-judge.js';
import type { SimulatedBrood, SimulatedLine } from '../simulated/simulated-line.js';
import { RunningValues } from './running-values.js';
import type { Pair, Strategy } from './strategies.js';

export interface CourseSettings {
  /** Broods in each generation. */
  readonly broods: number;
  readonly broodsPerFish: number;
  /** Young of a brood that live to be sorted; all are scored. */
  readonly fryPerBrood: number;
  /** Best of each sex of each brood that contributions are worked out for; the others give nothing. */
  readonly keptPerBrood: number;
  /** By how much mean kinship may rise a generation, as a share of what is left to lose; `null`: no limit. */
  readonly kinshipRise: number | null;
}

/** Estimates of the breeding value of a fish for a trait, taken in brood by brood. */
export interface EstimatedValues {
  begin(): void;
  /** The brood's scores are known now. */
  scored(brood: SimulatedBrood, sire: number, dam: number): void;
  of(fish: number, trait: number): number;
}

/** One simulated line on its way, a generation after the other. Generations do not overlap. */
export class LineCourse {
  readonly #line: SimulatedLine;
  readonly #judge: FishJudge;
  readonly #settings: CourseSettings;
  readonly #draws: Draws;
  readonly #values: EstimatedValues;
  readonly #firstKinship: number;
  #generation = 0;
  #broods: readonly SimulatedBrood[] = [];
  /** All fish of the present generation: the actual ones, later all young that were raised. */
  fish: readonly number[];
  /** Pairs that the present generation came from. */
  pairs: readonly Pair[] = [];

  constructor(
    line: SimulatedLine,
    judge: FishJudge,
    settings: CourseSettings,
    draws: Draws,
    values: EstimatedValues = new RunningValues(line),
  ) {
    [this.#line, this.#judge, this.#settings, this.#draws] = [line, judge, settings, draws];
    this.#values = values;
    line.begin(draws);
    values.begin();
    this.fish = Array.from({ length: line.founders }, (_, k) => k);
    this.#firstKinship = this.meanKinship();
  }

  get broods(): readonly SimulatedBrood[] {
    return this.#broods;
  }

  /** Breeds the next generation. */
  next(choose: Strategy): void {
    const line = this.#line;
    const { broods, broodsPerFish, fryPerBrood, kinshipRise } = this.#settings;
    this.#generation++;
    const chosen = choose({
      males: this.fish.filter((one) => line.male[one] === 1),
      females: this.fish.filter((one) => line.male[one] === 0),
      broodOf: (one) => (one < line.founders ? -1 - one : this.#placeOf(one)),
      bestOfBroods: () => this.#bestOfBroods(),
      worth: (one) => this.worthOf(one),
      scored: (one) => this.#scored(one),
      coancestry: (a, b) => line.coancestry(a, b),
      broods,
      broodsPerFish,
      kinshipLimit:
        kinshipRise === null
          ? null
          : 1 - (1 - this.#firstKinship) * (1 - kinshipRise) ** this.#generation,
      draws: this.#draws,
    });
    this.pairs = chosen;
    const made = chosen.map(([sire, dam]) => line.spawn(sire, dam, fryPerBrood));
    made.forEach((brood, k) => this.#values.scored(brood, ...chosen[k]!));
    this.#broods = made;
    this.#bothSexes();
    this.fish = made.flatMap(({ first, count }) =>
      Array.from({ length: count }, (_, k) => first + k),
    );
  }

  /** Mean coancestry of the present fish, each with itself included. */
  meanKinship(): number {
    const line = this.#line;
    const { fish } = this;
    if (this.#broods.length === 0) {
      let sum = 0;
      for (const a of fish) for (const b of fish) sum += line.coancestry(a, b);
      return sum / fish.length ** 2;
    }
    let sum = 0;
    for (const a of this.#broods) {
      // Within a brood: two different young, and each with itself.
      const self = (1 + a.inbreeding) / 2;
      sum += a.count * self + a.count * (a.count - 1) * line.coancestry(a.first, a.first + 1);
      for (const b of this.#broods)
        if (b !== a) sum += a.count * b.count * line.coancestry(a.first, b.first);
    }
    return sum / fish.length ** 2;
  }

  /** Estimated worth of a fish in points: its looks, and its traits by their estimated breeding values. */
  worthOf(fish: number): number {
    const { traits } = this.#line.belief;
    return this.#judge.pointsAt(fish, (t) => traits[t]!.level + this.#values.of(fish, t));
  }

  /** The actual fish have no scores in a simulation: what is believed of them stands for it. */
  #scored(fish: number): number {
    return fish < this.#line.founders ? this.worthOf(fish) : this.#judge.points(fish);
  }

  #placeOf(fish: number): number {
    return this.#broods.findIndex(({ first, count }) => fish >= first && fish < first + count);
  }

  /** With few young all may be of one sex: then the last counts as the other, so that the line can go on. */
  #bothSexes(): void {
    const { male } = this.#line;
    const young = this.#broods.flatMap(({ first, count }) => [first, first + count - 1]);
    const [least, most] = [Math.min(...young), Math.max(...young)];
    const males = male.subarray(least, most + 1).reduce((sum, one) => sum + one, 0);
    if (males === 0) male[most] = 1;
    else if (males === most - least + 1) male[most] = 0;
  }

  /** The actual fish all; of each brood the best of each sex by estimated worth. */
  #bestOfBroods(): readonly number[] {
    if (this.#broods.length === 0) return this.fish;
    const { keptPerBrood } = this.#settings;
    return this.#broods.flatMap(({ first, count }) => {
      const young = Array.from({ length: count }, (_, k) => first + k);
      const worth = young.map((one) => this.worthOf(one));
      const order = young.toSorted((a, b) => worth[b - first]! - worth[a - first]! || a - b);
      return [1, 0].flatMap((sex) =>
        order.filter((one) => this.#line.male[one] === sex).slice(0, keptPerBrood),
      );
    });
  }
}
