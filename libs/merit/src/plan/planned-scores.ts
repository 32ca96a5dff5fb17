import { pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import { MeritError } from '../merit-error.js';
import type { AnimalScores, SharedColumn } from '../values/animal-model.js';
import type { FixedColumn } from '../mixed/mixed-model.js';

/** A brood that might be made: its parents' indices in the pedigree, -1 for one outside it, and how many of its young would be scored. */
export interface PlannedBrood {
  readonly sire: number;
  readonly dam: number;
  readonly scored: number;
}

/** Scores that might be taken. */
export interface ScorePlan {
  /** Fish of the pedigree that would get one score more. */
  readonly fish?: readonly number[];
  readonly broods?: readonly PlannedBrood[];
}

/** Scores with a plan's rows behind them, at 0: only where scores stand matters. */
export interface PlannedScores {
  readonly scores: AnimalScores;
  /** Rows that the plan adds. */
  readonly added: number;
}

/** The most young and looks that one plan may add. */
const MOST_ADDED = 100_000;

/**
 * Adds a plan's rows. A planned look stands in the level that most scores have in each column of classes, at the mean of each covariate, and
 * in no shared level; the young of a planned brood share a new level of every shared column. Unknown parents belong to no group.
 *
 * @throws MeritError MERIT_OUT_OF_RANGE, MERIT_TOO_LARGE.
 */
export function plannedScores(scores: AnimalScores, plan: ScorePlan): PlannedScores {
  checkPlan(scores.pedigree, plan);
  const { fish = [], broods = [] } = plan;
  const broodOf = broods.flatMap(({ scored }, brood) => new Array<number>(scored).fill(brood));
  const parents = broodOf.map((brood) => broods[brood]!);
  const added = fish.length + parents.length;
  const first = scores.pedigree.size;
  const { fixed, shared, weights, groups } = scores;
  return {
    added,
    scores: {
      ...scores,
      pedigree: withYoung(scores.pedigree, parents),
      fish: Int32Array.from([...scores.fish, ...fish, ...parents.map((_, k) => first + k)]),
      traits: scores.traits.map(({ name, values }) => ({ name, values: padded(values, added, 0) })),
      ...(fixed && { fixed: fixed.map((column) => longerFixed(column, scores, added)) }),
      ...(shared && {
        shared: shared.map((column): SharedColumn => {
          const codes = broodOf.map((brood) => column.levels.length + brood);
          return {
            name: column.name,
            levels: [...column.levels, ...broods.map((_, k) => `planned ${k + 1}`)],
            codes: Int32Array.from([...column.codes, ...fish.map(() => -1), ...codes]),
          };
        }),
      }),
      ...(weights && { weights: padded(weights, added, 1) }),
      ...(groups && {
        groups: {
          names: groups.names,
          sire: Int32Array.from([...groups.sire, ...parents.map(() => -1)]),
          dam: Int32Array.from([...groups.dam, ...parents.map(() => -1)]),
        },
      }),
    },
  };
}

function padded(values: Float64Array, added: number, by: number): Float64Array {
  const longer = new Float64Array(values.length + added).fill(by);
  longer.set(values);
  return longer;
}

function withYoung(pedigree: Pedigree, parents: readonly PlannedBrood[]): Pedigree {
  if (parents.length === 0) return pedigree;
  return pedigreeFromArrays(
    Int32Array.from([...pedigree.sire, ...parents.map(({ sire }) => sire)]),
    Int32Array.from([...pedigree.dam, ...parents.map(({ dam }) => dam)]),
  );
}

function longerFixed(column: FixedColumn, scores: AnimalScores, added: number): FixedColumn {
  const isScored = (row: number): boolean =>
    scores.traits.some(({ values }) => !Number.isNaN(values[row]!));
  if (column.kind === 'covariate') {
    const seen = column.values.filter((_, row) => isScored(row));
    const mean = seen.reduce((sum, value) => sum + value, 0) / seen.length;
    return { ...column, values: padded(column.values, added, mean) };
  }
  const counts = new Array<number>(column.levels.length).fill(0);
  column.codes.forEach((code, row) => {
    if (isScored(row)) counts[code]!++;
  });
  const usual = counts.indexOf(Math.max(...counts));
  return {
    ...column,
    codes: Int32Array.from([...column.codes, ...new Array<number>(added).fill(usual)]),
  };
}

function checkPlan({ size }: Pedigree, { fish = [], broods = [] }: ScorePlan): void {
  const refuse = (message: string): never => {
    throw new MeritError('MERIT_OUT_OF_RANGE', message);
  };
  for (const index of fish)
    if (!(Number.isInteger(index) && index >= 0 && index < size))
      refuse(`There is no fish ${index}; indices run from 0 to ${size - 1}.`);
  let young = 0;
  for (const { sire, dam, scored } of broods) {
    for (const parent of [sire, dam])
      if (!(Number.isInteger(parent) && parent >= -1 && parent < size))
        refuse(`There is no fish ${parent}; indices run from 0 to ${size - 1}, -1 is unknown.`);
    if (!(Number.isInteger(scored) && scored >= 0))
      refuse(`${scored} young cannot be scored: give a whole number.`);
    young += scored;
  }
  if (fish.length + young <= MOST_ADDED) return;
  throw new MeritError(
    'MERIT_TOO_LARGE',
    `The plan adds ${fish.length + young} scores; at most ${MOST_ADDED} can be added.`,
  );
}
