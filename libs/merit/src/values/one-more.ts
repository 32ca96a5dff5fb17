import { MeritError } from '../merit-error.js';
import type { Equations } from '../mixed/equations.js';
import { iterate, iterationForSides } from '../mixed/iterate.js';
import type { AnimalModel } from './animal-model.js';
import { breedingValues, type BreedingValues, type SolvedModel } from './breeding-values.js';

/** One score more of a fish that is already in the pedigree. */
export interface OneScore {
  readonly fish: number;
  readonly value: number;
  /** Level of each fixed column of classes and value of each covariate, in the model's order of fixed columns. */
  readonly fixed?: readonly number[];
  /** Level of each shared column, -1 for one that has not been met, null where it has none. */
  readonly shared?: readonly (number | null)[];
}

/** A solved model to which scores are added: its solution, and how its equations are solved for other right-hand sides. */
export interface KeptModel extends Pick<
  SolvedModel,
  'animal' | 'equations' | 'variances' | 'solution' | 'errorVariances' | 'scale'
> {
  /** Residual variance that the equations are written with. */
  readonly residual: number;
  readonly solve: (side: Float64Array) => Float64Array;
}

/** A model with its factor. */
const keptWithFactor = (solved: SolvedModel): KeptModel => ({
  ...solved,
  residual: solved.fit.variances.residual[0]![0]!,
  solve: (side) => solved.fit.factor.solve(side),
});

/** What is told of a large stock without its factor. */
export interface ToldOfStock {
  /** Of each random variance to the residual's. */
  readonly ratios: readonly number[];
  /** Residual variance. */
  readonly residual: number;
  /** Of breeding values, by place in the pedigree. */
  readonly standardError: ArrayLike<number>;
}

/** What is left of a right-hand side at which its solution counts as found. */
const REMAINDER = 1e-8;

/**
 * A model that is too large for its factor: solved by iteration, its errors as they were told. One trait.
 * @throws MeritError as {@link iterationForSides}. Cost: an iteration, and one for each score that is added.
 */
export function keptByIteration(
  animal: AnimalModel,
  equations: Equations,
  { ratios, residual, standardError }: ToldOfStock,
): KeptModel {
  const atOne = { random: ratios.map((ratio) => [[ratio]]), residual: [[1]] };
  const bySide = iterationForSides(equations, atOne);
  const { solution } = iterate(equations, atOne, { tolerance: REMAINDER });
  const errorVariances = new Float64Array(equations.size).fill(NaN);
  for (let i = 0; i < animal.pedigree.size; i++)
    errorVariances[equations.termEquation[0]![i]!] = standardError[i]! ** 2;
  return {
    ...{ animal, equations, solution, errorVariances, residual: 1, scale: residual },
    variances: {
      random: ratios.map((ratio) => [[residual * ratio]]),
      residual: [[residual]],
    },
    solve: (side) => bySide(side, { tolerance: REMAINDER }).solution,
  };
}

/**
 * A solution that is kept ready: a score more is answered from it, exactly, for the variances as they are.
 *
 * With w what the row holds of the equations and x = C^-1 w, the solution moves by x (y - w's) / (V_E + w'x), and error variances
 * shrink by x^2 / (V_E + w'x) (Sherman J & Morrison WJ 1950, Ann Math Stat 21:124-127). Levels that have not been met add their
 * variance to the residual's. One trait.
 */
export class KeptSolution {
  readonly #solution: Float64Array;
  readonly #errors: Float64Array;
  readonly #added: { readonly x: Float64Array; readonly spread: number }[] = [];

  readonly solved: KeptModel;

  constructor(solved: SolvedModel | KeptModel) {
    this.solved = 'solve' in solved ? solved : keptWithFactor(solved);
    if (solved.equations.model.traits.length !== 1)
      throw new MeritError('MERIT_OUT_OF_RANGE', 'Scores are added to a model of one trait.');
    this.#solution = solved.solution.slice();
    this.#errors = solved.errorVariances.slice();
  }

  /**
   * Takes the score in. @throws MeritError MERIT_OUT_OF_RANGE for a fish or a fixed level that is not in the model. Cost: one
   * solution by the factor, or an iteration.
   */
  add(score: OneScore): void {
    const { w, extra } = rowOf(this.solved, score);
    const { residual, scale, solve } = this.solved;
    const x = solve(w);
    for (const { x: before, spread } of this.#added) {
      const share = inner(before, w) / spread;
      for (let k = 0; k < x.length; k++) x[k]! -= share * before[k]!;
    }
    const spread = residual + extra / scale + inner(w, x);
    const surprise = score.value - inner(w, this.#solution);
    for (let k = 0; k < x.length; k++) {
      this.#solution[k]! += (x[k]! * surprise) / spread;
      this.#errors[k]! -= (scale * x[k]! ** 2) / spread;
    }
    this.#added.push({ x, spread });
  }

  /** Breeding values with all scores so far. */
  get values(): BreedingValues {
    const [values] = breedingValues({
      ...this.solved,
      solution: this.#solution,
      errorVariances: this.#errors,
    });
    return values!;
  }
}

/**
 * What a score's row holds of the equations, and the variance of what it shares with nobody yet.
 *
 * @throws MeritError MERIT_OUT_OF_RANGE for a fish or a fixed level that is not in the model.
 */
export function rowOf(
  { equations, animal, variances }: Pick<SolvedModel, 'equations' | 'animal' | 'variances'>,
  { fish, fixed = [], shared = [] }: OneScore,
): { readonly w: Float64Array; readonly extra: number } {
  const { design, model } = equations;
  const w = new Float64Array(equations.size);
  const refuse = (what: string): never => {
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `${what} is not in the model: solve the model again with it.`,
    );
  };
  if (!(fish >= 0 && fish < animal.pedigree.size)) refuse(`Fish ${fish}`);
  for (const { column, firstPlace, places } of design.columns) {
    const given = column === 'mean' ? 1 : fixed[model.fixed.indexOf(column)];
    if (given === undefined || Number.isNaN(given)) refuse('A fixed column of the score');
    const isClass = column !== 'mean' && column.kind === 'classes';
    const place = firstPlace + (isClass ? given! : 0);
    if (isClass && !(given! >= 0 && given! < places)) refuse(`Level ${given} of "${column.name}"`);
    const equation = design.equationOf[0]![place]!;
    if (equation >= 0) w[equation]! += isClass ? 1 : given!;
  }
  let extra = 0;
  let sharedAt = 0;
  model.random.forEach(({ name, slots }, term) => {
    const level =
      term === 0
        ? fish
        : name === 'permanent'
          ? lookedAt(slots[0]!.level, model.random[0]!.slots[0]!.level, fish)
          : shared[sharedAt++];
    if (level === null) return;
    if (level === undefined || level < 0) extra += variances.random[term]![0]![0]!;
    else w[equations.termEquation[term]![level]!] = 1;
  });
  return { w, extra };
}

/** The level of a fish's permanent effect, -1 when it has not been looked at. */
function lookedAt(permanent: Int32Array, fishOf: Int32Array, fish: number): number {
  const row = fishOf.indexOf(fish);
  return row < 0 ? -1 : permanent[row]!;
}

export function inner(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) if (b[k] !== 0) sum += a[k]! * b[k]!;
  return sum;
}
