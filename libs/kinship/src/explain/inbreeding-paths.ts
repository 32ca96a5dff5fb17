import { NO_PARENT, type Pedigree } from '@linewright/pedigree';
import { checkIndex } from '../checks.js';
import { inbreedingCoefficients, knownInbreeding } from '../inbreeding.js';
import { KinshipError } from '../kinship-error.js';
import { readFounderRelationship, type FounderOptions } from '../founder-relationship.js';
import { bestFromEachState, pathsBestFirst } from './best-first.js';
import { countWays, exactCount, sumByAncestor, type CommonAncestor } from './common-ancestors.js';
import { localAncestry, type LocalAncestry } from './local-ancestry.js';
import { coancestryAtEnds, explorePair, type PairLattice } from './pair-lattice.js';

/**
 * One of Wright's paths: up from the sire to a common ancestor and down to the dam, no fish twice. Where founders are given as
 * related, a path may also go up to one of them and down from the other.
 */
export interface InbreedingPath {
  /** The common ancestor, or the founder on the sire's side. */
  readonly ancestor: number;
  /** The founder on the dam's side, given as related to `ancestor`; `null` where that is the common ancestor itself. */
  readonly otherFounder: number | null;
  /**
   * Sire ... common ancestor ... dam, or sire ... founder, other founder ... dam. A parent that is itself the common ancestor stands
   * at its end of the list.
   */
  readonly fish: readonly number[];
  /** Generations from the sire up to the ancestor; 0 when the sire is the ancestor. */
  readonly sireSteps: number;
  /** Generations from the dam up to the ancestor, or to the other founder. */
  readonly damSteps: number;
  readonly ancestorInbreeding: number;
  /**
   * (1/2)^(sireSteps + damSteps + 1) x (1 + F of the ancestor); between two founders (1/2)^(sireSteps + damSteps) x their given
   * coancestry, which is the same with the one ancestor's coancestry with itself.
   */
  readonly contribution: number;
}

/** Why a brood's inbreeding coefficient is what it is. */
export interface PathExplanation {
  /** F of the brood, by the fast method: not a sum over the paths listed. */
  readonly coefficient: number;
  /** Largest contribution first. */
  readonly paths: readonly InbreedingPath[];
  /** Exact number of all paths; `null` when it was too costly to count or above 2^53. */
  readonly pathCount: number | null;
  /** Sum of the contributions listed, divided by the coefficient; 1 when the list is complete. */
  readonly explained: number;
  /** Whether every path is in the list. */
  readonly complete: boolean;
  /** The same F by common ancestor, largest first: sums over all paths that were counted, not only over those listed. */
  readonly ancestors: readonly CommonAncestor[];
}

export interface PathOptions extends FounderOptions {
  /** Most paths to list; 100 by default. */
  readonly limit?: number;
  /**
   * Most pairs of ancestors to look at; 400,000 by default. Beyond it the nearest are explained, `pathCount` is `null` and
   * `complete` is false.
   */
  readonly budget?: number;
}

const DEFAULT_LIMIT = 100;
const DEFAULT_BUDGET = 400_000;

/**
 * Explains the inbreeding coefficient of a brood from `sire` x `dam` by Wright's path method:
 * F = sum over paths of (1/2)^n (1 + F_A), n the number of fish on the path from sire to dam through the common ancestor A.
 *
 * Source: Wright S (1922) American Naturalist 56:330-338. Assumes a neutral autosomal locus, founders unrelated and not
 * inbred unless `founders` says otherwise: then a path may go through two related founders and adds (1/2)^steps x their
 * coancestry, as all paths through their unknown ancestors together would. The brood need not exist. Paths come best first and only as many as asked for; counts and sums by ancestor cover
 * all of them without listing them.
 *
 * Cost: pairs (ancestor of the sire, ancestor of the dam) that two climbing lines can stand on, plus the paths listed.
 * @throws {PedigreeError} `PEDIGREE_BAD_INDEX`. @throws {KinshipError} `KINSHIP_BAD_ARGUMENT` for a limit or budget that is
 * not a whole number of at least 0.
 * @example
 * // Full sibs with unrelated parents: two paths of 1/8 each.
 * inbreedingPaths(pedigree, brother, sister).paths.map((path) => path.contribution); // [0.125, 0.125]
 */
export function inbreedingPaths(
  pedigree: Pedigree,
  sire: number,
  dam: number,
  options: PathOptions = {},
): PathExplanation {
  const { limit = DEFAULT_LIMIT, budget = DEFAULT_BUDGET } = options;
  checkCount('limit', limit);
  const prepared = prepare(pedigree, sire, dam, budget, options);
  const { lattice, inbreeding, ends } = prepared;
  const { original } = prepared.local;
  const paths: InbreedingPath[] = [];
  const listing = list(prepared);
  while (paths.length < limit) {
    const next = listing.next();
    if (next.done === true) break;
    paths.push(next.value);
  }
  const pathCount = lattice.complete ? exactCount(countWays(lattice, ends)[0] ?? 0) : null;
  const coefficient = inbreeding[prepared.local.brood]!;
  const complete = pathCount === paths.length;
  // Summed smallest first, which loses least to rounding.
  const listed = paths.reduceRight((sum, path) => sum + path.contribution, 0);
  return {
    coefficient,
    paths,
    pathCount,
    explained: complete || coefficient === 0 ? 1 : listed / coefficient,
    complete,
    ancestors: sumByAncestor(lattice, inbreeding, ends).map((entry) => ({
      ...entry,
      ancestor: original[entry.ancestor]!,
      otherFounder: entry.otherFounder === null ? null : original[entry.otherFounder]!,
    })),
  };
}

/**
 * {@link inbreedingPaths} of a fish that exists: the paths between its parents. With a parent unknown F is 0 by assumption, or
 * what is given of a founder, and there are no paths.
 *
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 */
export function inbreedingPathsOf(
  pedigree: Pedigree,
  fish: number,
  options: PathOptions = {},
): PathExplanation {
  checkIndex(pedigree, fish);
  const sire = pedigree.sire[fish]!;
  const dam = pedigree.dam[fish]!;
  if (sire === NO_PARENT || dam === NO_PARENT) {
    const coefficient = knownInbreeding(pedigree, options.founders)[fish]!;
    const explained = coefficient === 0 ? 1 : 0;
    return { coefficient, paths: [], pathCount: 0, explained, complete: true, ancestors: [] };
  }
  return inbreedingPaths(pedigree, sire, dam, options);
}

/**
 * The paths of {@link inbreedingPaths} one at a time, largest contribution first, for as long as the caller asks: for lists
 * that grow on demand and for sums that stop at a share. With a budget that runs out it ends after the paths it can see.
 *
 * @example
 * for (const path of eachInbreedingPath(pedigree, sire, dam)) {
 *   if (path.contribution < 1e-4) break;
 * }
 */
export function* eachInbreedingPath(
  pedigree: Pedigree,
  sire: number,
  dam: number,
  options: Pick<PathOptions, 'budget' | 'founders'> = {},
): Generator<InbreedingPath, void, undefined> {
  yield* list(prepare(pedigree, sire, dam, options.budget ?? DEFAULT_BUDGET, options));
}

interface Prepared {
  readonly local: LocalAncestry;
  readonly lattice: PairLattice;
  readonly inbreeding: Float64Array;
  readonly ends: Float64Array;
}

function prepare(
  pedigree: Pedigree,
  sire: number,
  dam: number,
  budget: number,
  options: FounderOptions,
): Prepared {
  checkCount('budget', budget);
  const block = readFounderRelationship(pedigree, options.founders);
  const local = localAncestry(pedigree, sire, dam, Infinity, block);
  const [first, second] = local.roots;
  const useful = belowCommonAncestors(local, first, second);
  const lattice = explorePair(local.pedigree, first, second, useful, budget);
  const { founders } = local;
  const inbreeding = inbreedingCoefficients(local.pedigree, founders && { founders });
  return { local, lattice, inbreeding, ends: coancestryAtEnds(lattice, inbreeding, founders) };
}

function* list({ local, lattice, inbreeding, ends }: Prepared): Generator<InbreedingPath, void> {
  const [sire, dam] = local.roots;
  const best = bestFromEachState(lattice, ends);
  const listing = pathsBestFirst(lattice, best, ends, sire, dam, local.pedigree);
  for (const { fish, top, damTop, end } of listing) {
    const damSteps = fish.length - 1 - damTop;
    yield {
      ancestor: local.original[fish[top]!]!,
      otherFounder: damTop === top ? null : local.original[fish[damTop]!]!,
      fish: fish.map((index) => local.original[index]!),
      sireSteps: top,
      damSteps,
      ancestorInbreeding: inbreeding[fish[top]!]!,
      contribution: 2 ** -(top + damSteps) * end,
    };
  }
}

/**
 * Marks the fish that are, or descend from, an ancestor of both, or a founder related to one of the other's (each fish its own
 * ancestor here).
 */
function belowCommonAncestors(
  { pedigree, founders }: LocalAncestry,
  first: number,
  second: number,
): Uint8Array {
  const ofFirst = climb(pedigree, first);
  const ofSecond = climb(pedigree, second);
  const useful = new Uint8Array(pedigree.size);
  const given = founders?.founders.length ?? 0;
  for (let a = 0; a < given; a++) {
    for (let b = 0; b < given; b++) {
      if (a === b || ofFirst[a] === 0 || ofSecond[b] === 0) continue;
      if (founders!.coancestry[a * given + b]! > 0) useful[a] = useful[b] = 1;
    }
  }
  for (let i = 0; i < pedigree.size; i++) {
    const s = pedigree.sire[i]!;
    const d = pedigree.dam[i]!;
    const common = ofFirst[i] === 1 && ofSecond[i] === 1;
    if (common || (s >= 0 && useful[s] === 1) || (d >= 0 && useful[d] === 1)) useful[i] = 1;
  }
  return useful;
}

function climb(pedigree: Pedigree, root: number): Uint8Array {
  const marks = new Uint8Array(pedigree.size);
  marks[root] = 1;
  for (let i = root; i >= 0; i--) {
    if (marks[i] === 0) continue;
    const s = pedigree.sire[i]!;
    const d = pedigree.dam[i]!;
    if (s >= 0) marks[s] = 1;
    if (d >= 0) marks[d] = 1;
  }
  return marks;
}

function checkCount(name: string, value: number): void {
  if (value === Infinity || (Number.isInteger(value) && value >= 0)) return;
  throw new KinshipError(
    'KINSHIP_BAD_ARGUMENT',
    `${name} is ${value}; give a whole number of at least 0.`,
  );
}
