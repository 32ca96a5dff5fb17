import { NO_PARENT, type Pedigree } from '@linewright/pedigree';
import { checkIndices } from './checks.js';
import type { CoancestryOptions } from './coancestry.js';
import { readFounderRelationship, type FounderBlock } from './founder-relationship.js';
import { knownInbreeding } from './inbreeding.js';
import { applyRelationship, type RelationshipFactors } from './relationship-product.js';

/** Vectors multiplied together: one cache line of doubles. */
const VECTORS = 8;

/**
 * Coancestries of all `rows` with all `columns`, for example all males by all females.
 *
 * Products A x of the ancestors' relationship matrix, eight columns at a time (Colleau 2002); full sibs without young among
 * the ancestors share one product.
 *
 * @returns rows x columns, row-major.
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`.
 * Cost: distinct families on the smaller side x ancestors of all candidates.
 * @example
 * const block = coancestryBlock(pedigree, males, females);
 * block[m * females.length + f]; // F of the young of males[m] and females[f]
 */
export function coancestryBlock(
  pedigree: Pedigree,
  rows: ArrayLike<number>,
  columns: ArrayLike<number>,
  options: CoancestryOptions = {},
): Float64Array {
  checkIndices(pedigree, rows);
  checkIndices(pedigree, columns);
  const inbreeding = knownInbreeding(pedigree, options.founders);
  const block = readFounderRelationship(pedigree, options.founders);
  const ancestry = ancestryOf(pedigree, [rows, columns], inbreeding, block);
  const rowSources = sourcesOf(pedigree, rows, ancestry.place);
  const columnSources = sourcesOf(pedigree, columns, ancestry.place);
  const result = new Float64Array(rows.length * columns.length);
  if (rowSources.count < columnSources.count) {
    fill(ancestry, rowSources, columnSources, (row, column, value) => {
      result[row * columns.length + column] = value;
    });
  } else {
    fill(ancestry, columnSources, rowSources, (column, row, value) => {
      result[row * columns.length + column] = value;
    });
  }
  correctSelf(rows, columns, inbreeding, result);
  return result;
}

interface Ancestry extends RelationshipFactors {
  /** Place of each individual among the ancestors, -1 for those that are none. */
  readonly place: Int32Array;
}

/** All ancestors of the candidates (not the candidates as such), with founders of given relationship. */
function ancestryOf(
  pedigree: Pedigree,
  candidates: readonly ArrayLike<number>[],
  inbreeding: Float64Array,
  block: FounderBlock | undefined,
): Ancestry {
  const { size, sire, dam } = pedigree;
  const place = new Int32Array(size).fill(-1);
  const markParents = (i: number): void => {
    if (sire[i]! >= 0) place[sire[i]!] = 0;
    if (dam[i]! >= 0) place[dam[i]!] = 0;
  };
  for (const list of candidates) for (let k = 0; k < list.length; k++) markParents(list[k]!);
  for (const founder of block?.founders ?? []) place[founder] = 0;
  for (let i = size - 1; i >= 0; i--) if (place[i]! >= 0) markParents(i);
  let count = 0;
  for (let i = 0; i < size; i++) if (place[i]! >= 0) place[i] = count++;
  const ownSire = new Int32Array(count);
  const ownDam = new Int32Array(count);
  const variance = new Float64Array(count);
  for (let i = 0; i < size; i++) {
    const at = place[i]!;
    if (at < 0) continue;
    const s = sire[i]!;
    const d = dam[i]!;
    ownSire[at] = s < 0 ? NO_PARENT : place[s]!;
    ownDam[at] = d < 0 ? NO_PARENT : place[d]!;
    const bySire = s < 0 ? -1 : inbreeding[s]!;
    const byDam = d < 0 ? -1 : inbreeding[d]!;
    variance[at] = 0.5 - 0.25 * (bySire + byDam);
  }
  const placed = block && { ...block, founders: block.founders.map((founder) => place[founder]!) };
  return { place, sire: ownSire, dam: ownDam, variance, block: placed };
}

/** Candidates folded to what their relationship is read from: themselves, if they are ancestors, or their two parents. */
interface Sources {
  readonly count: number;
  /** Source of each candidate. */
  readonly of: Int32Array;
  /** Two places each source is the mean of; -1 adds nothing. */
  readonly first: Int32Array;
  readonly second: Int32Array;
}

function sourcesOf(pedigree: Pedigree, candidates: ArrayLike<number>, place: Int32Array): Sources {
  const of = new Int32Array(candidates.length);
  const first: number[] = [];
  const second: number[] = [];
  const known = new Map<number, number>();
  for (let k = 0; k < candidates.length; k++) {
    const i = candidates[k]!;
    const own = place[i]!;
    const a = own >= 0 ? own : parentPlace(pedigree.sire[i]!, place);
    const b = own >= 0 ? own : parentPlace(pedigree.dam[i]!, place);
    const key = (a + 1) * (pedigree.size + 1) + b + 1;
    let source = known.get(key);
    if (source === undefined) {
      source = first.length;
      known.set(key, source);
      first.push(a);
      second.push(b);
    }
    of[k] = source;
  }
  return {
    count: first.length,
    of,
    first: Int32Array.from(first),
    second: Int32Array.from(second),
  };
}

function parentPlace(parent: number, place: Int32Array): number {
  return parent < 0 ? -1 : place[parent]!;
}

function fill(
  ancestry: Ancestry,
  vectors: Sources,
  readers: Sources,
  write: (vectorCandidate: number, reader: number, coancestry: number) => void,
): void {
  const candidatesOf = groupBySource(vectors);
  const x = new Float64Array(ancestry.sire.length * VECTORS);
  const read = new Float64Array(readers.count);
  for (let from = 0; from < vectors.count; from += VECTORS) {
    const to = Math.min(from + VECTORS, vectors.count);
    x.fill(0);
    for (let source = from; source < to; source++) {
      for (const at of [vectors.first[source]!, vectors.second[source]!]) {
        if (at >= 0) x[at * VECTORS + source - from]! += 0.5;
      }
    }
    applyRelationship(ancestry, x, VECTORS);
    for (let source = from; source < to; source++) {
      const v = source - from;
      for (let r = 0; r < readers.count; r++) {
        const a = readers.first[r]!;
        const b = readers.second[r]!;
        // Half for the mean of two places, half again from relationship to coancestry.
        read[r] = ((a < 0 ? 0 : x[a * VECTORS + v]!) + (b < 0 ? 0 : x[b * VECTORS + v]!)) / 4;
      }
      for (const candidate of candidatesOf[source]!) {
        for (let k = 0; k < readers.of.length; k++) write(candidate, k, read[readers.of[k]!]!);
      }
    }
  }
}

function groupBySource({ count, of }: Sources): number[][] {
  const groups: number[][] = Array.from({ length: count }, () => []);
  of.forEach((source, candidate) => groups[source]!.push(candidate));
  return groups;
}

/** The sources take a fish met twice for two sibs. */
function correctSelf(
  rows: ArrayLike<number>,
  columns: ArrayLike<number>,
  inbreeding: Float64Array,
  result: Float64Array,
): void {
  const columnsOf = new Map<number, number[]>();
  for (let c = 0; c < columns.length; c++) {
    const list = columnsOf.get(columns[c]!);
    if (list === undefined) columnsOf.set(columns[c]!, [c]);
    else list.push(c);
  }
  for (let r = 0; r < rows.length; r++) {
    for (const c of columnsOf.get(rows[r]!) ?? []) {
      result[r * columns.length + c] = (1 + inbreeding[rows[r]!]!) / 2;
    }
  }
}
