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
  checkGroup(pedigree, group);
  checkIndex(pedigree, source.founder);
  const plan = eliminationPlan(pedigree, source.founder, group);
  const budget = options.budget ?? 200_000;
  const one = survival(pedigree, source.founder, 1, plan, budget);
  if (one === null) return null;
  const any = source.unknownParent ? one : survival(pedigree, source.founder, 2, plan, budget);
  return any === null ? null : { oneGene: one, anyGene: any };
}

interface EliminationPlan {
  /** The founder's descendants that are in the group or above it, ascending; without the founder. */
  readonly fish: Int32Array;
  readonly inGroup: Uint8Array;
  /** Place in `fish` of the last young of each carrier; -1 for those without young that matter. */
  readonly lastYoung: Int32Array;
  readonly carrier: Uint8Array;
}

function eliminationPlan(
  pedigree: Pedigree,
  founder: number,
  group: ArrayLike<number>,
): EliminationPlan {
  const { size, sire, dam } = pedigree;
  const inGroup = new Uint8Array(size);
  for (let k = 0; k < group.length; k++) inGroup[group[k]!] = 1;
  const carrier = new Uint8Array(size);
  carrier[founder] = 1;
  const fish: number[] = [];
  const lastYoung = new Int32Array(size).fill(-1);
  for (const i of withAncestors(pedigree, group)) {
    const s = sire[i]!;
    const d = dam[i]!;
    const bySire = s >= 0 && carrier[s] === 1;
    const byDam = d >= 0 && carrier[d] === 1;
    if (!bySire && !byDam) continue;
    carrier[i] = 1;
    if (bySire) lastYoung[s] = fish.length;
    if (byDam) lastYoung[d] = fish.length;
    fish.push(i);
  }
  return { fish: Int32Array.from(fish), inGroup, lastYoung, carrier };
}

/** The highest power of three that fits a state into an exact number. */
const MOST_SLOTS = 33;

function survival(
  pedigree: Pedigree,
  founder: number,
  copies: 1 | 2,
  { fish, inGroup, lastYoung, carrier }: EliminationPlan,
  budget: number,
): number | null {
  if (inGroup[founder] === 1) return 1;
  if (lastYoung[founder]! < 0) return 0;
  const slots = new Slots();
  let lost = 0;
  let visited = 0;
  let states = new Map<number, number>([[copies * slots.take(founder), 1]]);
  for (let place = 0; place < fish.length; place++) {
    const i = fish[place]!;
    const parents = [pedigree.sire[i]!, pedigree.dam[i]!].filter((p) => p >= 0 && carrier[p] === 1);
    const scales = parents.map((parent) => slots.of(parent));
    const retired = parents.filter((parent) => lastYoung[parent] === place);
    const breeds = lastYoung[i]! >= 0;
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
