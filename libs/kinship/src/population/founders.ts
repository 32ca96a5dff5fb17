import { NO_PARENT, pedigreeFromArrays, type Pedigree } from '@linewright/pedigree';
import { checkIndices, checkLength } from '../checks.js';
import type { FounderOptions } from '../founder-relationship.js';
import { KinshipError } from '../kinship-error.js';

/** A source of genes at the top of a pedigree. */
export interface FounderSource {
  /** The founder; or, for the unknown parent of a fish whose other parent is known, that fish. */
  readonly founder: number;
  /** True when the source is the unknown parent of `founder`, not `founder` itself. */
  readonly unknownParent: boolean;
}

/** The expected share of a founder in the genes of a group. */
export interface FounderContribution extends FounderSource {
  readonly contribution: number;
}

/** A pedigree in which every unknown parent of a half-known fish has become a founder of its own. */
export interface CompletedPedigree {
  readonly pedigree: Pedigree;
  /** Added parents: they take the indices 0 to `added - 1`; fish i of the original is `added + i`. */
  readonly added: number;
  /** The original fish whose unknown parent each added one is. */
  readonly young: Int32Array;
}

/**
 * Gives each fish with one known parent a founder in the place of the other, so that the shares of all founders add up to 1.
 * Fish with both parents unknown stay founders themselves.
 *
 * Cost: one pass.
 */
export function completeWithUnknownParents(pedigree: Pedigree): CompletedPedigree {
  const { size, sire, dam } = pedigree;
  const young: number[] = [];
  for (let i = 0; i < size; i++) {
    if (sire[i]! < 0 !== dam[i]! < 0) young.push(i);
  }
  const added = young.length;
  const fullSire = new Int32Array(size + added).fill(NO_PARENT);
  const fullDam = new Int32Array(size + added).fill(NO_PARENT);
  let next = 0;
  for (let i = 0; i < size; i++) {
    const s = sire[i]!;
    const d = dam[i]!;
    if (s < 0 && d < 0) continue;
    fullSire[added + i] = s < 0 ? next++ : added + s;
    fullDam[added + i] = d < 0 ? next++ : added + d;
  }
  return {
    pedigree: pedigreeFromArrays(fullSire, fullDam),
    added,
    young: Int32Array.from(young),
  };
}

/** Names a founder of a completed pedigree by the fish of the original. */
export function sourceOf(completed: CompletedPedigree, founder: number): FounderSource {
  return founder < completed.added
    ? { founder: completed.young[founder]!, unknownParent: true }
    : { founder: founder - completed.added, unknownParent: false };
}

/**
 * Expected share of every fish in the genes of a group: the chance that a gene drawn at random from the group came down
 * through that fish. A member of the group counts with its own 1/m.
 *
 * Cost: one pass over the pedigree.
 * @throws {KinshipError} `KINSHIP_BAD_ARGUMENT` for an empty group, `KINSHIP_BAD_INDEX`.
 */
export function expectedShares(pedigree: Pedigree, group: ArrayLike<number>): Float64Array {
  checkGroup(pedigree, group);
  const share = new Float64Array(pedigree.size);
  for (let k = 0; k < group.length; k++) share[group[k]!]! += 1 / group.length;
  for (let i = pedigree.size - 1; i >= 0; i--) {
    const half = share[i]! / 2;
    if (half === 0) continue;
    const s = pedigree.sire[i]!;
    const d = pedigree.dam[i]!;
    if (s >= 0) share[s]! += half;
    if (d >= 0) share[d]! += half;
  }
  return share;
}

/**
 * Founder contributions: the expected share of each founder in the genes of a group, largest first. They add up to 1; an
 * unknown parent of a fish whose other parent is known counts as a founder of its own. Founders without a share are left out.
 *
 * p_f = mean over the group of the sum over lines of descent from f of (1/2)^generations.
 * Source: James JW (1972) Computation of genetic contributions from pedigrees, Theor. Appl. Genet. 42:272-273 (from memory);
 * Lacy RC (1989) Zoo Biology 8:111-123.
 * Cost: one pass over the pedigree.
 * @throws {KinshipError} `KINSHIP_BAD_ARGUMENT` for an empty group, `KINSHIP_BAD_INDEX`.
 * @example
 * founderContributions(pedigree, [fry])[0]; // { founder: 3, unknownParent: false, contribution: 0.5 }
 */
export function founderContributions(
  pedigree: Pedigree,
  group: ArrayLike<number>,
): FounderContribution[] {
  const share = expectedShares(pedigree, group);
  const found: FounderContribution[] = [];
  for (let i = 0; i < pedigree.size; i++) {
    if (share[i] === 0) continue;
    const unknown = Number(pedigree.sire[i]! < 0) + Number(pedigree.dam[i]! < 0);
    if (unknown === 0) continue;
    found.push({
      founder: i,
      unknownParent: unknown === 1,
      contribution: unknown === 1 ? share[i]! / 2 : share[i]!,
    });
  }
  return found.sort((a, b) => b.contribution - a.contribution || a.founder - b.founder);
}

/**
 * Effective number of founders: how many founders with equal contributions would keep the same variety at the start.
 * f_e = 1 / sum of p_f squared. Loses nothing to drift: see {@link founderGenomeEquivalents} for that.
 *
 * With `founders` related or inbred f_e = 1 / (2 sum of p_f p_g coancestry(f, g)): so many unrelated founders, not inbred and
 * contributing equally, would be as seldom alike. That extension is ours; it comes back to the formula above when each has 1/2 with
 * itself and 0 with the others.
 *
 * Source: Lacy RC (1989) Zoo Biology 8:111-123.
 * @throws {KinshipError} `KINSHIP_LENGTH_MISMATCH` for coancestries that are not founders x founders.
 * @example
 * effectiveFounders(founderContributions(pedigree, group));
 */
export function effectiveFounders(
  contributions: Iterable<
    Pick<FounderContribution, 'contribution'> & Partial<Omit<FounderContribution, 'contribution'>>
  >,
  { founders: given }: FounderOptions = {},
): number {
  const count = given?.founders.length ?? 0;
  if (given !== undefined) {
    checkLength('The founders’ coancestry', given.coancestry.length, count * count);
  }
  const position = new Map(Array.from(given?.founders ?? [], (founder, at) => [founder, at]));
  const part = new Float64Array(count);
  let squares = 0;
  for (const { founder = -1, unknownParent, contribution } of contributions) {
    const at = unknownParent === true ? undefined : position.get(founder);
    if (at === undefined) squares += contribution * contribution;
    else part[at]! += contribution;
  }
  for (let a = 0; a < count; a++) {
    for (let b = 0; b < count; b++) {
      squares += 2 * part[a]! * part[b]! * given!.coancestry[a * count + b]!;
    }
  }
  return 1 / squares;
}

/**
 * The share of each fish's genes that comes from one source: 1 for the source itself, then the mean of the parents.
 *
 * Cost: one pass over the pedigree.
 */
export function sharesFromSource(pedigree: Pedigree, source: FounderSource): Float64Array {
  const share = new Float64Array(pedigree.size);
  const { founder, unknownParent } = source;
  for (let i = founder; i < pedigree.size; i++) {
    if (i === founder && !unknownParent) {
      share[i] = 1;
      continue;
    }
    const s = pedigree.sire[i]!;
    const d = pedigree.dam[i]!;
    const given = (s < 0 ? 0 : share[s]!) + (d < 0 ? 0 : share[d]!);
    share[i] = (given + (i === founder ? 1 : 0)) / 2;
  }
  return share;
}

/** Refuses an empty group and indices that are not in the pedigree. */
export function checkGroup(pedigree: Pedigree, group: ArrayLike<number>): void {
  if (group.length === 0) {
    throw new KinshipError(
      'KINSHIP_BAD_ARGUMENT',
      'The group of fish is empty; name at least one fish.',
    );
  }
  checkIndices(pedigree, group);
}
