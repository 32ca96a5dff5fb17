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
   * itself, (1 + F) / 2: 0.5 for a non-inbred one. The matrix must be one that a real pedigree could give (positive
   * semi-definite); of that only the pairs are checked: two founders cannot be more alike than either is with itself. Results are
   * remembered for this object, so it must not be changed afterwards.
   */
  readonly coancestry: ArrayLike<number>;
}

/** A founder relationship checked and doubled into additive relationships. */
export interface FounderBlock {
  readonly founders: Int32Array;
  /** Founder index to its position in the block. */
  readonly positionOf: ReadonlyMap<number, number>;
  /** a_ij = 2 x coancestry, row-major. */
  readonly relationship: Float64Array;
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
  checkPairs(founders, relationship);
  return { founders, positionOf, relationship };
}

/** The two-by-two minors: cov(a, b)^2 <= var(a) var(b). */
function checkPairs(founders: Int32Array, relationship: Float64Array): void {
  const count = founders.length;
  for (let a = 0; a < count; a++) {
    const own = relationship[a * count + a]!;
    for (let b = 0; b < a; b++) {
      const between = relationship[a * count + b]!;
      if (between * between <= own * relationship[b * count + b]! * (1 + 1e-12)) continue;
      throw new KinshipError(
        'KINSHIP_BAD_ARGUMENT',
        `Founders ${founders[a]!} and ${founders[b]!} have coancestry ${between / 2}, more than either has with itself. Raise the diagonal, (1 + F) / 2, or lower their coancestry.`,
      );
    }
  }
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
    },
    groups,
  };
}
