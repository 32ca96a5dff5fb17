import {
  animalModel,
  Equations,
  errorsTogether,
  solveAt,
  type SolvedModel,
} from '@linewright/merit';
import type {
  EstimatedValues,
  LineBelief,
  SimulatedBrood,
  SimulatedLine,
} from '@linewright/mating';
import { pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';

/** Parents of the fish that a simulated line begins with, and which of them these are. */
export interface History {
  readonly sire: readonly number[];
  readonly dam: readonly number[];
  readonly actual: readonly number[];
}

/** Breeding values by the full equations, from the scores of a simulated line so far, at the true variances: one trait at a time. */
export class MeritValues implements EstimatedValues {
  readonly #line: SimulatedLine;
  readonly #history: History;
  #sire: number[] = [];
  #dam: number[] = [];
  /** Place in the pedigree of each fish of the line. */
  #place: number[] = [];
  #solved: (SolvedModel | undefined)[] = [];

  constructor(line: SimulatedLine, history: History) {
    this.#line = line;
    this.#history = history;
  }

  begin(): void {
    this.#sire = [...this.#history.sire];
    this.#dam = [...this.#history.dam];
    this.#place = [...this.#history.actual];
    this.#solved = [];
  }

  scored({ first, count }: SimulatedBrood, sire: number, dam: number): void {
    for (let i = first; i < first + count; i++) {
      this.#place[i] = this.#sire.length;
      this.#sire.push(this.#place[sire]!);
      this.#dam.push(this.#place[dam]!);
    }
    this.#solved = [];
  }

  of(fish: number, trait: number): number {
    const { equations, solution } = this.solved(trait);
    return solution[equations.termEquation[0]![this.#place[fish]!]!]!;
  }

  /** What is believed of the fish that the line begins with, out of their scores. */
  beliefOfFounders(belief: LineBelief): LineBelief {
    const fish = Int32Array.from({ length: this.#line.founders }, (_, k) => this.#place[k]!);
    return {
      ...belief,
      traits: belief.traits.map((trait, t) => ({
        ...trait,
        value: Float64Array.from(fish, (_, k) => this.of(k, t)),
        error: errorsTogether(this.solved(t), fish),
      })),
    };
  }

  solved(trait: number): SolvedModel {
    return (this.#solved[trait] ??= this.#solve(trait));
  }

  #solve(trait: number): SolvedModel {
    const line = this.#line;
    const { traitId, level, additive, residual } = line.belief.traits[trait]!;
    const animal = animalModel({
      pedigree: this.#pedigree(),
      fish: Int32Array.from(this.#place),
      traits: [
        {
          name: traitId,
          values: Float64Array.from(
            this.#place,
            (_, k) => line.score[k * line.traits + trait]! - level,
          ),
        },
      ],
      mean: 'known',
    });
    return solveAt(animal, new Equations(animal.model), {
      random: [[[additive]]],
      residual: [[residual]],
    });
  }

  #pedigree(): Pedigree {
    return pedigreeFromArrays(Int32Array.from(this.#sire), Int32Array.from(this.#dam));
  }
}
