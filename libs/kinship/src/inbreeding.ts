import { KinshipError } from './kinship-error.js';
import type { Pedigree } from '@linewright/pedigree';
import { traceFamilies } from './ancestor-trace.js';
import { foldFamilies, type Families } from './families.js';
import {
  readFounderRelationship,
  type FounderBlock,
  type FounderRelationship,
} from './founder-relationship.js';
import { levelPass } from './level-pass.js';
import { levelPassPlan } from './level-pass-plan.js';

export interface InbreedingOptions {
  /** Founders that are inbred or related; all others are neither. */
  readonly founders?: FounderRelationship;
  /**
   * `auto` (the default) takes the tabular pass when its matrices fit into `memoryLimit` and it is not more work than
   * tracing; the two others are there for checking one against the other.
   */
  readonly method?: 'auto' | 'tabular' | 'trace';
  /** Bytes the tabular pass may use for its matrices. Default 1 GiB. */
  readonly memoryLimit?: number;
}

const DEFAULT_MEMORY_LIMIT = 2 ** 30;

/**
 * Inbreeding coefficient F of every individual: the probability that its two genes at a locus are identical by descent
 * from the founders; half the relationship of its parents. 0 where a parent is unknown.
 *
 * Chooses between {@link tabularInbreeding} and {@link tracedInbreeding}, which give the same figures.
 *
 * @returns `F[i]`, 0 to 1.
 * @throws {KinshipError} for founder relationships that do not fit the pedigree.
 * Cost: with the tabular pass, the pedigree once plus, for each level, breeding families x live families.
 * @example
 * inbreedingCoefficients(pedigree)[pedigree.indexOf('fry')]; // 0.25 for the young of full sibs
 */
export function inbreedingCoefficients(
  pedigree: Pedigree,
  options: InbreedingOptions = {},
): Float64Array {
  const block = readFounderRelationship(pedigree, options.founders);
  const families = foldFamilies(pedigree);
  const method = options.method ?? 'auto';
  const byTable =
    method === 'tabular' ||
    (method === 'auto' && tabularFits(families, options.memoryLimit ?? DEFAULT_MEMORY_LIMIT));
  const perFamily = byTable
    ? levelPass(families, block).inbreeding
    : traceFamilies(families, block);
  return spread(pedigree, families, block, perFamily);
}

/**
 * All F by the tabular method (Emik & Terrill 1949), level by level, keeping only the rows of parents that still have young
 * to come; full sibs without young share one.
 *
 * Cost and memory: see {@link inbreedingCoefficients}; memory grows with the square of the families alive at a time.
 */
export function tabularInbreeding(
  pedigree: Pedigree,
  options: Pick<InbreedingOptions, 'founders'> = {},
): Float64Array {
  return inbreedingCoefficients(pedigree, { ...options, method: 'tabular' });
}

/**
 * All F by the method of Meuwissen THE & Luo Z (1992) Genet Sel Evol 24:305-313, with one trace for each pair of parents.
 *
 * Cost: pairs x their ancestors. Memory: linear.
 */
export function tracedInbreeding(
  pedigree: Pedigree,
  options: Pick<InbreedingOptions, 'founders'> = {},
): Float64Array {
  return inbreedingCoefficients(pedigree, { ...options, method: 'trace' });
}

/** A trace visits at most all parents of the levels above; an entry of the table costs about a fifth of a visit. */
function tabularFits(families: Families, memoryLimit: number): boolean {
  const plan = levelPassPlan(families);
  if (plan.bytes > memoryLimit) return false;
  if (plan.work < 50_000_000) return true;
  return plan.work < 5 * estimateTraceVisits(families);
}

/** Ancestors visited, judged by counting them exactly for a few families spread over the levels. */
function estimateTraceVisits({
  count,
  order,
  sire,
  dam,
  parentCount,
  parentFamily,
}: Families): number {
  const samples = Math.min(count, 40);
  const seen = new Int32Array(parentCount).fill(-1);
  let visits = 0;
  for (let sample = 0; sample < samples; sample++) {
    const stack = [order[Math.floor(((sample + 0.5) * count) / samples)]!];
    for (let family = stack.pop(); family !== undefined; family = stack.pop()) {
      for (const parent of [sire[family]!, dam[family]!]) {
        if (parent < 0 || seen[parent] === sample) continue;
        seen[parent] = sample;
        visits++;
        stack.push(parentFamily[parent]!);
      }
    }
  }
  return (visits / Math.max(1, samples)) * count;
}

function spread(
  pedigree: Pedigree,
  { familyOf }: Families,
  block: FounderBlock | undefined,
  perFamily: Float64Array,
): Float64Array {
  const inbreeding = new Float64Array(pedigree.size);
  for (let i = 0; i < familyOf.length; i++) {
    const family = familyOf[i]!;
    if (family >= 0) inbreeding[i] = perFamily[family]!;
  }
  if (block !== undefined) {
    const { founders, relationship } = block;
    founders.forEach((fish, at) => {
      inbreeding[fish] = relationship[at * founders.length + at]! - 1;
    });
  }
  return inbreeding;
}

/** What has been worked out for a pedigree, and for a pedigree with given founders; kept no longer than they are. */
export class PerPedigree<Value> {
  readonly #plain = new WeakMap<Pedigree, Value>();
  readonly #given = new WeakMap<Pedigree, WeakMap<FounderRelationship, Value>>();

  get(pedigree: Pedigree, founders: FounderRelationship | undefined, make: () => Value): Value {
    if (founders === undefined) return found(this.#plain, pedigree, make);
    return found(
      found(this.#given, pedigree, () => new WeakMap()),
      founders,
      make,
    );
  }
}

const remembered = new PerPedigree<Float64Array>();

/**
 * Tells F of all individuals of a pedigree where it was worked out before, such as in another thread or step by step as fish came: coancestries then
 * do not begin with a pass over the whole pedigree. Founders count as unrelated. What was known already stays.
 *
 * @param inbreeding F by individual, as {@link inbreedingCoefficients} gives it; it must not be changed afterwards.
 * @throws {KinshipError} `KINSHIP_LENGTH_MISMATCH`.
 * Cost: none.
 */
export function tellInbreeding(pedigree: Pedigree, inbreeding: Float64Array): void {
  if (inbreeding.length !== pedigree.size)
    throw new KinshipError(
      'KINSHIP_LENGTH_MISMATCH',
      `F of ${inbreeding.length} individuals was given for a pedigree of ${pedigree.size}: give one for each.`,
    );
  remembered.get(pedigree, undefined, () => inbreeding);
}

function found<Key extends object, Value>(
  map: WeakMap<Key, Value>,
  key: Key,
  make: () => Value,
): Value {
  let value = map.get(key);
  if (value === undefined) {
    value = make();
    map.set(key, value);
  }
  return value;
}

/** All F, remembered for a pedigree and its given founders; callers must not change the array. */
export function knownInbreeding(
  pedigree: Pedigree,
  founders: FounderRelationship | undefined,
): Float64Array {
  return remembered.get(pedigree, founders, () =>
    inbreedingCoefficients(pedigree, founders === undefined ? {} : { founders }),
  );
}
