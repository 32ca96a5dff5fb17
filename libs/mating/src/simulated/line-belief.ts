import type { Genotype, Locus } from '@linewright/heredity';
import { MatingError } from '../mating-error.js';
import type { TraitVariation } from '../young/expected-young.js';

/** What is believed of one trait of some actual fish, and how it is inherited. */
export interface BelievedTrait extends TraitVariation {
  readonly traitId: string;
  /** Expected breeding value of each fish. */
  readonly value: Float64Array;
  /** Covariances of the errors of these, fish x fish: errors of relatives go together. */
  readonly error: Float64Array;
}

/** Genotypes of some fish together at one locus. */
export interface JointGenotypes {
  /** Places in {@link LineBelief.fish}. */
  readonly fish: readonly number[];
  readonly outcomes: readonly {
    /** One for each of `fish`. */
    readonly genotypes: readonly Genotype[];
    readonly probability: number;
  }[];
}

/** Genotypes of some fish drawn together from all that is known of them: as many draws as one likes, all of one weight. */
export interface DrawnGenotypes {
  /** Places in {@link LineBelief.fish}. */
  readonly fish: readonly number[];
  readonly genotypes: readonly Genotype[];
  /** Places in `genotypes`, draw by draw, one for each of `fish`. Run k of a simulation takes draw k, and begins again after the last. */
  readonly draws: Uint8Array;
}

/** What is believed of one locus. Groups are independent of each other, and each fish stands in one of them. */
export interface BelievedLocus {
  readonly locus: Locus;
  readonly groups: readonly (JointGenotypes | DrawnGenotypes)[];
}

/** All that is believed of the actual fish that a simulation starts from. */
export interface LineBelief {
  readonly fish: readonly string[];
  readonly sex: readonly ('male' | 'female')[];
  /** Fish x fish, row by row; of a fish with itself (1 + F) / 2. */
  readonly coancestry: Float64Array;
  readonly traits: readonly BelievedTrait[];
  /** Correlations of what is inherited of the traits, traits x traits; independent unless given. */
  readonly correlation?: Float64Array;
  readonly loci: readonly BelievedLocus[];
}

/**
 * Checks that a belief fits together.
 *
 * @throws MatingError MATING_BAD_BELIEF, its subject naming the part.
 */
export function checkBelief(belief: LineBelief): void {
  const { fish, sex, coancestry, traits, correlation, loci } = belief;
  const size = fish.length;
  expectLength('sex', sex.length, size);
  expectNumbers('coancestry', coancestry, size * size);
  if (correlation !== undefined) expectNumbers('correlation', correlation, traits.length ** 2);
  for (const { traitId, level, value, error, additive, commonBrood, residual } of traits) {
    expectNumbers(traitId, value, size);
    expectNumbers(traitId, error, size * size);
    for (const variance of [additive, commonBrood, residual])
      if (!(variance >= 0 && Number.isFinite(variance)))
        throw bad(traitId, `a variance of ${String(variance)}; give 0 or more`);
    if (!Number.isFinite(level)) throw bad(traitId, 'a level that is not a number; give one');
  }
  for (const { locus, groups } of loci) {
    const told = groups.flatMap((group) => group.fish).toSorted((a, b) => a - b);
    if (told.length !== size || told.some((one, k) => one !== k))
      throw bad(locus.id, 'fish told twice or not at all; tell the genotypes of each fish once');
    for (const group of groups) {
      if ('draws' in group) {
        expectDraws(locus.id, group);
        continue;
      }
      const { fish: members, outcomes } = group;
      const sum = outcomes.reduce((total, { probability }) => total + probability, 0);
      if (!(Math.abs(sum - 1) < 1e-6))
        throw bad(locus.id, `probabilities that sum to ${String(sum)}; they must sum to 1`);
      for (const { genotypes } of outcomes)
        expectLength(locus.id, genotypes.length, members.length);
    }
  }
}

function expectDraws(subject: string, { fish, genotypes, draws }: DrawnGenotypes): void {
  if (draws.length === 0 || draws.length % fish.length !== 0)
    throw bad(subject, `${String(draws.length)} drawn genotypes; give one for each fish and draw`);
  if (draws.some((one) => one >= genotypes.length))
    throw bad(subject, 'a drawn genotype that is none of those listed; give its place in the list');
}

function expectLength(subject: string, length: number, wanted: number): void {
  if (length !== wanted)
    throw bad(subject, `${String(length)} entries; give ${String(wanted)}, as many as fish`);
}

function expectNumbers(subject: string, list: Float64Array, wanted: number): void {
  expectLength(subject, list.length, wanted);
  if (list.some((one) => !Number.isFinite(one)))
    throw bad(subject, 'an entry that is not a number; give one for each fish');
}

const bad = (subject: string, what: string): MatingError =>
  new MatingError('MATING_BAD_BELIEF', subject, `What is believed of "${subject}" has ${what}.`);
