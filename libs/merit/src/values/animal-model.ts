import {
  inbreedingCoefficients,
  relationshipInverse,
  withinFamilyVariance,
} from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';
import { MeritError } from '../merit-error.js';
import type { FixedColumn, MixedModel, RandomSlot, RandomTerm } from '../mixed/mixed-model.js';
import { groupedInverse, groupShares, type FounderGroups } from './genetic-groups.js';

/** A column whose levels share something: a brood or vessel, a scorer. */
export interface SharedColumn {
  readonly name: string;
  readonly levels: readonly string[];
  /** Level of each row, -1 where it has none. */
  readonly codes: Int32Array;
}

/** Scores of fish of a pedigree, one row a look, and what else is known of each look. */
export interface AnimalScores {
  readonly pedigree: Pedigree;
  /** Index in the pedigree of each row's fish; several rows of a fish are repeated looks. */
  readonly fish: Int32Array;
  /** Columns of scores, `NaN` where not scored. */
  readonly traits: readonly { readonly name: string; readonly values: Float64Array }[];
  readonly fixed?: readonly FixedColumn[];
  readonly shared?: readonly SharedColumn[];
  /** Adds what stays with a fish from look to look but is not inherited: of several traits, to those that were looked at again. */
  readonly permanent?: boolean;
  readonly groups?: FounderGroups;
  readonly mean?: MixedModel['mean'];
  readonly weights?: Float64Array;
}

/** Name of the random term of breeding values, always the first. */
export const ADDITIVE = 'additive';
/** Name of the random term of repeated looks. */
export const PERMANENT = 'permanent';

/** A model of breeding values with what belongs to its fish. */
export interface AnimalModel {
  readonly model: MixedModel;
  readonly pedigree: Pedigree;
  readonly inbreeding: Float64Array;
}

/**
 * The animal model y = fixed + breeding value (+ permanent + shared) + residual, with the inverse of the relationship matrix,
 * inbreeding counted.
 *
 * Sources: Henderson CR (1984) Applications of Linear Models in Animal Breeding; Mrode RA (2014) Linear Models for the Prediction
 * of Animal Breeding Values, 3rd ed.; groups: Quaas RL (1988) J Dairy Sci 71:1338-1345.
 * Cost: inbreeding of the pedigree, else linear.
 * @throws MeritError MERIT_LENGTH_MISMATCH, MERIT_NOT_A_NUMBER, MERIT_OUT_OF_RANGE, MERIT_TOO_FEW.
 */
export function animalModel(scores: AnimalScores): AnimalModel {
  checkScores(scores);
  const { pedigree, fish, traits } = scores;
  const inbreeding = inbreedingCoefficients(pedigree);
  const slots = (level: Int32Array): RandomSlot[] => traits.map((_, trait) => ({ trait, level }));
  const random: RandomTerm[] = [additiveTerm(scores, inbreeding, slots(fish))];
  if (scores.permanent === true) {
    const again = traitsLookedAtAgain(scores);
    const some = again.length > 0 ? again : traits.map((_, trait) => trait);
    const ofSome = (level: Int32Array): RandomSlot[] => some.map((trait) => ({ trait, level }));
    random.push(permanentTerm(fish, pedigree.size, ofSome));
  }
  for (const { name, levels, codes } of scores.shared ?? [])
    random.push({ name, levels: levels.length, slots: slots(codes) });
  return {
    pedigree,
    inbreeding,
    model: {
      rows: fish.length,
      traits,
      fixed: scores.fixed ?? [],
      random,
      ...(scores.mean === undefined ? {} : { mean: scores.mean }),
      ...(scores.weights === undefined ? {} : { weights: scores.weights }),
    },
  };
}

function additiveTerm(
  { pedigree, groups }: AnimalScores,
  inbreeding: Float64Array,
  slots: readonly RandomSlot[],
): RandomTerm {
  const within = withinFamilyVariance(pedigree, inbreeding);
  const logDeterminant = within.reduce((sum, value) => sum + Math.log(value), 0);
  if (groups === undefined) {
    const inverse = { ...relationshipInverse(pedigree), logDeterminant };
    return { name: ADDITIVE, levels: pedigree.size, slots, inverse };
  }
  return {
    name: ADDITIVE,
    levels: pedigree.size + groups.names.length,
    slots,
    inverse: { ...groupedInverse(pedigree, within, groups), logDeterminant },
    groups: { names: groups.names, shares: groupShares(pedigree, groups) },
  };
}

/** Traits of which some fish has two scores or more: of the others nothing tells a lasting effect from the rest. */
export function traitsLookedAtAgain({
  fish,
  traits,
}: Pick<AnimalScores, 'fish' | 'traits'>): number[] {
  return traits.flatMap(({ values }, trait) => {
    const seen = new Set<number>();
    const again = values.some((value, row) => {
      if (Number.isNaN(value)) return false;
      if (seen.has(fish[row]!)) return true;
      seen.add(fish[row]!);
      return false;
    });
    return again ? [trait] : [];
  });
}

/** Only fish that were looked at have an effect of their own. */
function permanentTerm(
  fish: Int32Array,
  size: number,
  slots: (level: Int32Array) => RandomSlot[],
): RandomTerm {
  const number = new Int32Array(size).fill(-1);
  let count = 0;
  const level = fish.map((index) => {
    if (number[index]! < 0) number[index] = count++;
    return number[index]!;
  });
  return { name: PERMANENT, levels: count, slots: slots(level) };
}

function checkScores({ pedigree, fish, traits, fixed, shared, weights }: AnimalScores): void {
  const rows = fish.length;
  const expectRows = (name: string, length: number): void => {
    if (length === rows) return;
    throw new MeritError(
      'MERIT_LENGTH_MISMATCH',
      `"${name}" has ${length} values for ${rows} rows: give one a row.`,
      { name, length, rows },
    );
  };
  for (const { name, values } of traits) {
    expectRows(name, values.length);
    if (values.some((value) => value === Infinity || value === -Infinity))
      throw new MeritError(
        'MERIT_NOT_A_NUMBER',
        `A score of "${name}" is not a number: correct or remove it.`,
      );
  }
  if (traits.every(({ values }) => values.every((value) => Number.isNaN(value)))) {
    const names = traits.map(({ name }) => `"${name}"`).join(', ');
    throw new MeritError('MERIT_TOO_FEW', `No fish has a score of ${names}: score some.`);
  }
  for (const index of fish) {
    if (index >= 0 && index < pedigree.size) continue;
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `There is no fish ${index}; indices run from 0 to ${pedigree.size - 1}.`,
      { index },
    );
  }
  const isScored = (row: number): boolean =>
    traits.some(({ values }) => !Number.isNaN(values[row]!));
  for (const column of fixed ?? []) {
    expectRows(column.name, column.kind === 'classes' ? column.codes.length : column.values.length);
    for (let row = 0; row < rows; row++) {
      if (!isScored(row)) continue;
      const missing =
        column.kind === 'classes'
          ? !(column.codes[row]! >= 0 && column.codes[row]! < column.levels.length)
          : !Number.isFinite(column.values[row]!);
      if (!missing) continue;
      throw new MeritError(
        'MERIT_NOT_A_NUMBER',
        `"${pedigree.ids[fish[row]!]!}" was scored, but its "${column.name}" is not given: fill it in, or leave the score out.`,
        { row, column: column.name },
      );
    }
  }
  for (const { name, codes, levels } of shared ?? []) {
    expectRows(name, codes.length);
    if (codes.some((code) => code >= levels.length || code < -1))
      throw new MeritError('MERIT_OUT_OF_RANGE', `A level of "${name}" is not in its list.`, {
        name,
      });
  }
  if (weights === undefined) return;
  expectRows('weights', weights.length);
  if (!weights.every((weight) => weight > 0 && Number.isFinite(weight)))
    throw new MeritError('MERIT_OUT_OF_RANGE', 'Each weight must lie above 0.');
}
