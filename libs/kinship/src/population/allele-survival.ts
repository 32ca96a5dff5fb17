import { withAncestors, type Pedigree } from '@linewright/pedigree';
import { checkIndex } from '../checks.js';
import { checkGroup, type FounderSource } from './founders.js';

export interface AlleleSurvival {
  /** Chance that one given gene of the founder is still in the group. */
  readonly oneGene: number;
  /** Chance that at least one of its two genes is; of an unknown parent, one gene is all that came in. */
  readonly anyGene: number;
}

/**
 * Exact chance that a founder's genes are still carried in a group, by following the number of copies in the fish that still
 * have young to come. `null` when too many of those live at a time, so that more than `budget` states (200,000 by default)
 * would have to be gone through: then use {@link simulatedRetention}.
 *
 * Coancestries given of founders play no part: what is followed are the founder's own genes, whoever else has genes like them.
 *
 * Fish are taken from old to young. A state says how many copies each breeding fish carries; a fish of the group that carries
 * one ends the case as survived; a fish without further young is summed out. That is variable elimination, as in Cannings C,
 * Thompson EA & Skolnick MH (1978) Adv Appl Probab 10:26-61 (from memory), on a presence question.
 *
 * Cost: descendants of the founder above or in the group x 3^(carriers that breed at a time).
 * @throws {KinshipError} `KINSHIP_BAD_INDEX`, `KINSHIP_BAD_ARGUMENT` for an empty group.
 * @example
 * // One young in the group: a given gene is there with probability 1/2.
 * alleleSurvival(pedigree, { founder: 0, unknownParent: false }, [2])?.oneGene; // 0.5
 */
export function alleleSurvival(
  pedigree: Pedigree,
  source: FounderSource,
  group: ArrayLike<number>,
  options: { readonly budget?: number } = {},
): AlleleSurvival | null {
  checkIndex(pedigree, source.founder);
  return survivalInGroup(
    pedigree,
    groupAncestry(pedigree, group),
    source,
    options.budget ?? 200_000,
  );
}

/** A group and its ancestors, found once for all founders. */
export interface GroupAncestry {
  /** Ascending. */
  readonly needed: Int32Array;
  readonly inGroup: Uint8Array;
}

export function groupAncestry(pedigree: Pedigree, group: ArrayLike<number>): GroupAncestry {
  checkGroup(pedigree, group);
  const inGroup = new Uint8Array(pedigree.size);
  for (let k = 0; k < group.length; k++) inGroup[group[k]!] = 1;
  return { needed: withAncestors(pedigree, group), inGroup };
}

/** {@link alleleSurvival} for a group whose ancestry is known. */
export function survivalInGroup(
  pedigree: Pedigree,
  ancestry: GroupAncestry,
  source: FounderSource,
  budget: number,
): AlleleSurvival | null {
  if (ancestry.inGroup[source.founder] === 1) return { oneGene: 1, anyGene: 1 };
  const plan = eliminationPlan(pedigree, source.founder, ancestry);
  const one = survival(pedigree, source.founder, 1, plan, budget);
  if (one === null) return null;
  const any = source.unknownParent ? one : survival(pedigree, source.founder, 2, plan, budget);
  return any === null ? null : { oneGene: one, anyGene: any };
}

interface EliminationPlan {
  /** The founder's descendants that are in the group or above it, ascending; without the founder. */
  readonly fish: readonly number[];
  readonly inGroup: Uint8Array;
  /** Place in `fish` of the last young of each carrier; -1 for those without young that matter. */
  readonly lastYoung: ReadonlyMap<number, number>;
}

function eliminationPlan(
  { sire, dam }: Pedigree,
  founder: number,
  { needed, inGroup }: GroupAncestry,
): EliminationPlan {
  const lastYoung = new Map([[founder, -1]]);
  const fish: number[] = [];
  for (const i of needed) {
    if (i <= founder) continue;
    const bySire = lastYoung.has(sire[i]!);
    const byDam = lastYoung.has(dam[i]!);
    if (!bySire && !byDam) continue;
    lastYoung.set(i, -1);
    if (bySire) lastYoung.set(sire[i]!, fish.length);
    if (byDam) lastYoung.set(dam[i]!, fish.length);
    fish.push(i);
  }
  return { fish, inGroup, lastYoung };
}

/** The highest power of three that fits a state into an exact number. */
const MOST_SLOTS = 33;

function survival(
  pedigree: Pedigree,
  founder: number,
  copies: 1 | 2,
  { fish, inGroup, lastYoung }: EliminationPlan,
  budget: number,
): number | null {
  if (lastYoung.get(founder)! < 0) return 0;
  const slots = new Slots();
  let lost = 0;
  let visited = 0;
  let states = new Map<number, number>([[copies * slots.take(founder), 1]]);
  for (let place = 0; place < fish.length; place++) {
    const i = fish[place]!;
    const parents = [pedigree.sire[i]!, pedigree.dam[i]!].filter((parent) => lastYoung.has(parent));
    const scales = parents.map((parent) => slots.of(parent));
    const retired = parents.filter((parent) => lastYoung.get(parent) === place);
    const breeds = lastYoung.get(i)! >= 0;
    // A parent's digit is read before it is given up, and the young must not be written into it.
    const own = breeds && inGroup[i] === 0 ? slots.take(i) : 0;
    visited += states.size;
    if (slots.used > MOST_SLOTS || visited > budget) return null;
    const next = new Map<number, number>();
    const put = (state: number, probability: number): void => {
      if (probability === 0) return;
      if (state === 0) lost += probability;
      else next.set(state, (next.get(state) ?? 0) + probability);
    };
    for (const [state, probability] of states) {
      let none = 1;
      let both = parents.length === 2 ? 1 : 0;
      let rest = state;
      scales.forEach((scale, k) => {
        const carried = Math.floor(state / scale) % 3;
        none *= 1 - carried / 2;
        both *= carried / 2;
        if (carried > 0 && retired.includes(parents[k]!) && parents.indexOf(parents[k]!) === k) {
          rest -= carried * scale;
        }
      });
      put(rest, probability * none);
      // A member of the group that carries the gene ends the case: it has survived.
      if (inGroup[i] === 1) continue;
      put(rest + own, probability * (1 - none - both));
      put(rest + 2 * own, probability * both);
    }
    for (const parent of new Set(retired)) slots.free(parent);
    states = next;
  }
  return 1 - lost;
}

/** Powers of three, lent to the fish that still have young to come. */
class Slots {
  readonly #of = new Map<number, number>();
  readonly #spare: number[] = [];
  used = 0;

  take(fish: number): number {
    const scale = this.#spare.pop() ?? 3 ** this.used++;
    this.#of.set(fish, scale);
    return scale;
  }

  /** Fish of the group that carry nothing hold no slot: their digit reads 0. */
  of(fish: number): number {
    return this.#of.get(fish) ?? Infinity;
  }

  free(fish: number): void {
    const scale = this.#of.get(fish);
    if (scale === undefined) return;
    this.#of.delete(fish);
    this.#spare.push(scale);
  }
}
