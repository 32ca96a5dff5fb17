import { normalDensity } from '@linewright/merit';
import { MatingError } from '../mating-error.js';

/** What one parent passes on of a trait, in the trait's unit, and its own F. */
export interface ParentValue {
  /** Breeding value, its genetic group's part in it. */
  readonly value: number;
  /** Standard error of that value. */
  readonly standardError: number;
  /** F of the parent itself, 0 to 1. */
  readonly inbreeding: number;
}

/** Where a trait stands and what it varies by, in its unit and the square of its unit. */
export interface TraitVariation {
  /** What a fish with a breeding value of 0 is scored on average. */
  readonly level: number;
  /** Additive variance of fish that are not inbred, V_A. */
  readonly additive: number;
  /** Variance between broods that is not inherited: vessel, season, what the young of a brood share. */
  readonly commonBrood: number;
  /** All else that is not inherited, the scorer's error in it. */
  readonly residual: number;
}

/** What a pair's young are expected to be scored for one trait. */
export interface ExpectedYoung {
  readonly mean: number;
  /** Variance of the mean of the whole brood: what is shared by all its young and not known yet. */
  readonly between: number;
  /** Variance of single young round the mean of their brood. */
  readonly within: number;
  /** The parts of both. */
  readonly parts: {
    /** Errors of the parents' values, in `between`. */
    readonly parentsErrors: number;
    /** What a brood shares without inheriting it, in `between`. */
    readonly commonBrood: number;
    /** What the draw of the parents' alleles makes of each young, in `within`. */
    readonly mendelian: number;
    /** What is not inherited, in `within`. */
    readonly residual: number;
  };
}

/**
 * Variance that the draw of alleles gives to the young of one pair: (1/2)(1 - (F_sire + F_dam) / 2) V_A.
 *
 * Source: Henderson CR (1976) Biometrics 32:69-83; Mrode RA (2014), chapter 2. The pair's own relationship is not in it.
 */
export const mendelianVariance = (sireF: number, damF: number, additive: number): number =>
  0.5 * (1 - (sireF + damF) / 2) * additive;

/**
 * Mean and spread of a pair's young for one trait.
 *
 * Mean: level + (value of the sire + value of the dam) / 2. The errors of both values, a quarter of each, are shared by all young, like
 * what the brood shares of its surroundings; each young has its own draw of alleles and its own chance on top. Only the second spread
 * gives something to choose from within a brood.
 *
 * @param errorCovariance of the two parents' values; 0 when left out, which understates the spread for parents that are related.
 * @throws MatingError MATING_BAD_VALUE for a figure that is no number, a variance below 0, or an F outside 0 to 1.
 */
export function expectedYoung(
  sire: ParentValue,
  dam: ParentValue,
  trait: TraitVariation,
  errorCovariance = 0,
): ExpectedYoung {
  checkParent('sire', sire);
  checkParent('dam', dam);
  checkVariation(trait);
  const errors = sire.standardError ** 2 + dam.standardError ** 2 + 2 * errorCovariance;
  const parentsErrors = Math.max(0, errors) / 4;
  const mendelian = mendelianVariance(sire.inbreeding, dam.inbreeding, trait.additive);
  return {
    mean: trait.level + (sire.value + dam.value) / 2,
    between: parentsErrors + trait.commonBrood,
    within: mendelian + trait.residual,
    parts: {
      parentsErrors,
      commonBrood: trait.commonBrood,
      mendelian,
      residual: trait.residual,
    },
  };
}

/** A point of a curve: a score, and how thick the young stand there, for one unit of the trait. */
export interface CurvePoint {
  readonly at: number;
  readonly density: number;
}

/** How far a curve is drawn beyond its mean, in standard deviations. */
const REACH = 3.5;

/**
 * The curve of a normal spread, for drawing: evenly spaced from 3.5 standard deviations below its mean to as many above.
 * A spread of 0 has no curve, and gives none.
 */
export function normalCurve(mean: number, variance: number, points = 61): CurvePoint[] {
  const deviation = Math.sqrt(variance);
  if (!(deviation > 0)) return [];
  return Array.from({ length: points }, (_, k) => {
    const z = -REACH + (2 * REACH * k) / (points - 1);
    return { at: mean + z * deviation, density: normalDensity(z) / deviation };
  });
}

/** Refuses a trait whose level is no number or whose variances are below 0. */
export function checkVariation(trait: TraitVariation): void {
  if (!Number.isFinite(trait.level)) refuse('level', trait.level, 'a number');
  for (const name of ['additive', 'commonBrood', 'residual'] as const)
    if (!(Number.isFinite(trait[name]) && trait[name] >= 0))
      refuse(name, trait[name], 'a variance of 0 or more');
}

function checkParent(who: string, { value, standardError, inbreeding }: ParentValue): void {
  if (!Number.isFinite(value)) refuse(`${who}.value`, value, 'a number');
  if (!(Number.isFinite(standardError) && standardError >= 0))
    refuse(`${who}.standardError`, standardError, '0 or more');
  if (!(inbreeding >= 0 && inbreeding <= 1))
    refuse(`${who}.inbreeding`, inbreeding, 'an F from 0 to 1');
}

function refuse(name: string, value: number, wanted: string): never {
  throw new MatingError(
    'MATING_BAD_VALUE',
    name,
    `${name} of the expected young is ${String(value)}; it must be ${wanted}.`,
  );
}
