import { NO_PARENT, pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import { checkIndex, checkLength } from './checks.js';
import { KinshipError } from './kinship-error.js';

/**
 * What is known of founders that are inbred or related to each other, for example shop-bought fish taken for full sibs.
 * Founders not named here are non-inbred and unrelated to all others.
 */
export interface FounderRelationship {
  /** Indices of the m founders (individuals with both parents unknown). */
  readonly founders: ArrayLike<number>;
  /**
   * Coancestries among them, m x m, row-major, symmetric, each from 0 to 1. The diagonal is a founder's coancestry with
   * itself, (1 + F) / 2: 0.5 for a non-inbred one and never less. The matrix must be positive semi-definite, as that of every
   * real pedigree is; anything else is refused. Results are remembered for this object, so it must not be changed afterwards.
   */
  readonly coancestry: ArrayLike<number>;
  /**
   * True when each "founder" stands for a group of unknown parents ({@link groupUnknownParents}): the diagonal is then the mean
   * coancestry between two different fish of the group and may be below 0.5; what is told as the F of such a one is none.
   */
  readonly areGroups?: boolean;
}

/** A founder relationship checked and doubled into additive relationships. */
export interface FounderBlock {
  readonly founders: Int32Array;
  /** Founder index to its position in the block. */
  readonly positionOf: ReadonlyMap<number, number>;
  /** a_ij = 2 x coancestry, row-major. */
  readonly relationship: Float64Array;
  readonly areGroups: boolean;
}

export function readFounderRelationship(
  pedigree: Pedigree,
  given: FounderRelationship | undefined,
): FounderBlock | undefined {
  if (given === undefined || given.founders.length === 0) return undefined;
  const founders = Int32Array.from(given.founders);
  const count = founders.length;
  checkLength('The founders’ coancestry', given.coancestry.length, count * count);
  const positionOf = new Map<number, number>();
  founders.forEach((founder, position) => {
    checkIndex(pedigree, founder);
    if (pedigree.sire[founder] !== NO_PARENT || pedigree.dam[founder] !== NO_PARENT) {
      throw new KinshipError(
        'KINSHIP_NOT_A_FOUNDER',
        `"${pedigree.ids[founder]!}" has a known parent, so its relationships follow from the pedigree. Remove it from the founders.`,
      );
    }
    positionOf.set(founder, position);
  });
  if (positionOf.size !== count) {
    throw new KinshipError('KINSHIP_BAD_ARGUMENT', 'A founder is named twice. Name each once.');
  }
  const relationship = new Float64Array(count * count);
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < count; b++) {
      const value = given.coancestry[a * count + b]!;
      if (!(value >= 0 && value <= 1) || value !== given.coancestry[b * count + a]!) {
        throw new KinshipError(
          'KINSHIP_BAD_ARGUMENT',
          `The coancestry of founders ${founders[a]!} and ${founders[b]!} is ${value}; it must be from 0 to 1 and the same both ways.`,
        );
      }
      relationship[a * count + b] = 2 * value;
    }
  }
  const block = { founders, positionOf, relationship, areGroups: given.areGroups === true };
  checkPossible(pedigree, block);
  return block;
}

/** Relative to the largest diagonal: what rounding of a matrix computed elsewhere may leave below nothing. */
const ROUNDING = 1e-9;

/**
 * Refuses a matrix that no fish can have: a founder less alike with itself than a non-inbred fish is, a pair more alike than either
 * is with itself, and any other that is not positive semi-definite (a Cholesky factorisation meets a pivot below 0).
 */
function checkPossible(
  pedigree: Pedigree,
  { founders, relationship, areGroups }: FounderBlock,
): void {
  const count = founders.length;
  const name = (at: number): string => `"${pedigree.ids[founders[at]!]!}"`;
  const refuse = (message: string): never => {
    throw new KinshipError('KINSHIP_IMPOSSIBLE_FOUNDERS', message);
  };
  for (let a = 0; a < count; a++) {
    const own = relationship[a * count + a]!;
    if (!areGroups && own < 1 - ROUNDING) {
      refuse(
        `Founder ${name(a)} has coancestry ${own / 2} with itself, which gives F = ${plain(own - 1)}; it is (1 + F) / 2, so give 0.5 for a founder that is not inbred, more for an inbred one.`,
      );
    }
    for (let b = 0; b < a; b++) {
      const between = relationship[a * count + b]!;
      if (between * between <= own * relationship[b * count + b]! * (1 + ROUNDING)) continue;
      refuse(
        `Founders ${name(a)} and ${name(b)} have coancestry ${between / 2}, more than either has with itself. Raise the diagonal, (1 + F) / 2, or lower their coancestry.`,
      );
    }
  }
  const pivot = firstNegativePivot(relationship, count);
  if (pivot === null) return;
  const values = Array.from({ length: pivot.at }, (_, b) => b)
    .sort((b, c) => relationship[pivot.at * count + c]! - relationship[pivot.at * count + b]!)
    .slice(0, 4)
    .map((b) => `${plain(relationship[pivot.at * count + b]! / 2)} with ${name(b)}`);
  refuse(
    `The coancestries of founder ${name(pivot.at)} (${values.join(', ')}) cannot all be true together with those of the others: the matrix is not positive semi-definite. Two that are both close to a third must be close to each other: raise their coancestry or lower the others.`,
  );
}

const plain = (value: number): string => String(Number(value.toPrecision(6)));

/** The first row at which Cholesky's factorisation fails; `null` for a positive semi-definite matrix. Cost: count^3 / 6. */
function firstNegativePivot(matrix: Float64Array, count: number): { readonly at: number } | null {
  const lower = new Float64Array(count * count);
  for (let row = 0; row < count; row++) {
    for (let column = 0; column <= row; column++) {
      let rest = matrix[row * count + column]!;
      for (let k = 0; k < column; k++) {
        rest -= lower[row * count + k]! * lower[column * count + k]!;
      }
      const scale = matrix[row * count + row]!;
      if (column === row) {
        if (rest < -ROUNDING * scale) return { at: row };
        lower[row * count + row] = rest <= ROUNDING * scale ? 0 : Math.sqrt(rest);
        continue;
      }
      const pivot = lower[column * count + column]!;
      // Beside a pivot of 0 a positive semi-definite matrix has nothing left; a square root of rounding may be.
      if (pivot === 0 && Math.abs(rest) > Math.sqrt(ROUNDING) * scale) return { at: row };
      lower[row * count + column] = pivot === 0 ? 0 : rest / pivot;
    }
  }
  return null;
}

/** Options of functions that take given coancestries of founders. */
export interface FounderOptions {
  /** Founders that are inbred or related; all others are neither. */
  readonly founders?: FounderRelationship;
}

/**
 * Refuses founders given as related or inbred, for figures that have no meaning then; a relationship that only says what is
 * assumed anyhow (0.5 with itself, 0 with others) passes.
 *
 * @throws {KinshipError} `KINSHIP_RELATED_FOUNDERS`.
 */
export function refuseRelatedFounders(
  pedigree: Pedigree,
  given: FounderRelationship | undefined,
  figure: string,
  reason: string,
): void {
  const block = readFounderRelationship(pedigree, given);
  if (block === undefined) return;
  const count = block.founders.length;
  const plain = block.relationship.every((value, at) => value === (at % (count + 1) === 0 ? 1 : 0));
  if (plain) return;
  throw new KinshipError('KINSHIP_RELATED_FOUNDERS', `${figure}: ${reason}`);
}

/** Which group each unknown parent comes from. Groups are numbered from 0; -1 is a parent unrelated to all. */
export interface UnknownParentGroups {
  /** Group of each individual's sire where that is unknown; entries of known sires are not read. */
  readonly sireGroup: ArrayLike<number>;
  readonly damGroup: ArrayLike<number>;
  /** Mean coancestry between two different fish of the groups, g x g, row-major, symmetric, 0 to 1. */
  readonly coancestry: ArrayLike<number>;
  readonly groups: number;
}

/** A pedigree in which every group stands as a founder. */
export interface GroupedPedigree {
  /** The groups at indices 0 to `groups - 1`, then the individuals: old index + `groups`. */
  readonly pedigree: Pedigree;
  /** To be passed as the option `founders` to every function that gets this pedigree. */
  readonly founders: FounderRelationship;
  readonly groups: number;
}

/**
 * Puts groups in the place of unknown parents, so that fish bought from one source need not be called unrelated.
 *
 * Every unknown parent is taken for a different fish of its group, drawn at random. Two genes from groups g and h are then
 * identical by descent with the given probability, so a founder with both parents from g has F = coancestry(g, g), and two
 * such founders have that coancestry with each other. A group behaves as one founder whose relationship with itself is
 * 2 x coancestry(g, g); with 0 everywhere nothing changes against plain unknown parents.
 *
 * Source of the idea: Legarra A, Christensen OF, Vitezica ZG, Aguilar I & Misztal I (2015) Genetics 200:455-468, in which
 * such founders stand for ancestral populations (from memory, confirmed by independent computation).
 * Cost: one pass.
 * @throws {KinshipError} `KINSHIP_LENGTH_MISMATCH`, `KINSHIP_BAD_ARGUMENT` for a group that does not exist.
 */
export function groupUnknownParents(
  pedigree: Pedigree,
  unknown: UnknownParentGroups,
): GroupedPedigree {
  const { groups } = unknown;
  checkLength('sireGroup', unknown.sireGroup.length, pedigree.size);
  checkLength('damGroup', unknown.damGroup.length, pedigree.size);
  checkLength('The groups’ coancestry', unknown.coancestry.length, groups * groups);
  const place = (parent: number, group: number): number => {
    if (parent !== NO_PARENT) return parent + groups;
    if (Number.isInteger(group) && group >= -1 && group < groups) return group;
    throw new KinshipError(
      'KINSHIP_BAD_ARGUMENT',
      `There is no group ${group}; groups run from 0 to ${groups - 1}, and -1 is none.`,
    );
  };
  const size = pedigree.size + groups;
  const sire = new Int32Array(size).fill(NO_PARENT);
  const dam = new Int32Array(size).fill(NO_PARENT);
  for (let i = 0; i < pedigree.size; i++) {
    sire[i + groups] = place(pedigree.sire[i]!, unknown.sireGroup[i]!);
    dam[i + groups] = place(pedigree.dam[i]!, unknown.damGroup[i]!);
  }
  const names = Array.from({ length: groups }, (_, group) => `unknown parents ${group}`);
  return {
    pedigree: pedigreeFromArrays(sire, dam, [...names, ...pedigree.ids]),
    founders: {
      founders: Array.from({ length: groups }, (_, group) => group),
      coancestry: unknown.coancestry,
      areGroups: true,
    },
    groups,
  };
}
