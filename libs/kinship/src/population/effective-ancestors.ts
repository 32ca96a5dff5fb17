import { NO_PARENT, type Pedigree } from '@linewright/pedigree';
import { refuseRelatedFounders, type FounderOptions } from '../founder-relationship.js';
import {
  checkGroup,
  completeWithUnknownParents,
  expectedShares,
  sourceOf,
  type FounderSource,
} from './founders.js';

/** An ancestor, founder or not, and what it alone explains of a group's genes. */
export interface AncestorContribution extends FounderSource {
  /** Share of the group's genes that came down through this ancestor and through none listed before it. */
  readonly marginal: number;
  /** Share that came down through it at all, whoever else it came through. */
  readonly total: number;
}

export interface EffectiveAncestors {
  /** f_a = 1 / sum of squared marginal contributions. */
  readonly effective: number;
  /** Bounds on f_a when the list was cut off; both equal to `effective` when `explained` is 1. */
  readonly lowest: number;
  readonly highest: number;
  /** Largest marginal contribution first. */
  readonly ancestors: readonly AncestorContribution[];
  /** Sum of the marginal contributions listed: 1 when the list is whole. */
  readonly explained: number;
}

/**
 * Effective number of ancestors: how many equally contributing ancestors would explain the group's variety. Where f_e sees
 * only the founders, f_a also sees the narrow places since: a single sire of a generation explains half of all that follows.
 * As a rule f_a <= f_e; where generations overlap much it can come out a little above, since the choice is one at a time.
 *
 * Ancestors are chosen one at a time, always the one with the largest marginal contribution; its own parents are then cut off,
 * and the genes it brought are taken off the others' account. Members of the group are no candidates, except as founders of
 * themselves; unknown parents of half-known fish are.
 *
 * Source: Boichard D, Maignel L & Verrier E (1997) Genet. Sel. Evol. 29:5-23.
 * Cost: two passes over the group's ancestry for each ancestor listed (at most `limit`, 500 by default); with the list cut
 * off the bounds tell what is not known.
 * @throws {KinshipError} `KINSHIP_BAD_ARGUMENT` for an empty group, `KINSHIP_BAD_INDEX`; `KINSHIP_RELATED_FOUNDERS` with founders given as
 * related or inbred: the ancestors they share, which would have to be candidates, are not on record.
 */
export function effectiveAncestors(
  pedigree: Pedigree,
  group: ArrayLike<number>,
  options: FounderOptions & { readonly limit?: number } = {},
): EffectiveAncestors {
  checkGroup(pedigree, group);
  refuseRelatedFounders(
    pedigree,
    options.founders,
    'The effective number of ancestors',
    'the ancestors that related founders share are not on record. Record them, or leave the founders’ coancestries out.',
  );
  const limit = options.limit ?? 500;
  const completed = completeWithUnknownParents(pedigree);
  const shifted = Array.from(group, (fish) => fish + completed.added);
  const ancestry = new Ancestry(completed.pedigree, shifted);
  const ancestors: AncestorContribution[] = [];
  let explained = 0;
  while (ancestors.length < limit) {
    const best = ancestry.takeLargest();
    if (best === undefined) break;
    ancestors.push({
      ...sourceOf(completed, best.fish),
      marginal: best.marginal,
      total: best.total,
    });
    explained += best.marginal;
    // What is left is rounding.
    if (explained > 1 - 1e-12) break;
  }
  return { ancestors, explained: Math.min(1, explained), ...bounds(ancestors, ancestry.founders) };
}

function bounds(
  ancestors: readonly AncestorContribution[],
  founders: number,
): Pick<EffectiveAncestors, 'effective' | 'lowest' | 'highest'> {
  let squares = 0;
  let explained = 0;
  for (const { marginal } of ancestors) {
    squares += marginal * marginal;
    explained += marginal;
  }
  const left = Math.max(0, 1 - explained);
  if (left < 1e-12) return { effective: 1 / squares, lowest: 1 / squares, highest: 1 / squares };
  // The rest in parts as large as the last one found; or spread evenly over as many sources as there can be.
  const last = ancestors.at(-1)?.marginal ?? 1;
  const sources = Math.max(1, founders - ancestors.length);
  const lowest = 1 / (squares + left * last);
  const highest = 1 / (squares + (left * left) / sources);
  return { effective: (lowest + highest) / 2, lowest, highest };
}

/** The group's ancestry, in which chosen ancestors are cut off from their parents. */
class Ancestry {
  /** Fish with a share in the group, ascending, as parallel arrays: index, and places of the parents in these arrays. */
  readonly #fish: Int32Array;
  readonly #sire: Int32Array;
  readonly #dam: Int32Array;
  readonly #own: Float64Array;
  /** Share of the group's genes, before anyone was chosen. */
  readonly #total: Float64Array;
  readonly #candidate: Uint8Array;
  readonly #chosen: Uint8Array;
  readonly #share: Float64Array;
  readonly #accounted: Float64Array;
  readonly founders: number;

  constructor(pedigree: Pedigree, group: readonly number[]) {
    const all = expectedShares(pedigree, group);
    const place = new Int32Array(pedigree.size).fill(NO_PARENT);
    const kept: number[] = [];
    for (let i = 0; i < pedigree.size; i++) if (all[i]! > 0) place[i] = kept.push(i) - 1;
    this.#fish = Int32Array.from(kept);
    const at = (parent: number): number => (parent < 0 ? NO_PARENT : place[parent]!);
    this.#sire = this.#fish.map((fish) => at(pedigree.sire[fish]!));
    this.#dam = this.#fish.map((fish) => at(pedigree.dam[fish]!));
    this.#own = new Float64Array(kept.length);
    this.#total = Float64Array.from(this.#fish, (fish) => all[fish]!);
    for (const fish of group) this.#own[place[fish]!]! += 1 / group.length;
    this.#candidate = Uint8Array.from(this.#fish, (_, k) =>
      Number(this.#own[k] === 0 || this.#sire[k]! < 0),
    );
    this.founders = this.#sire.filter((sire) => sire < 0).length;
    this.#chosen = new Uint8Array(kept.length);
    this.#share = new Float64Array(kept.length);
    this.#accounted = new Float64Array(kept.length);
  }

  /** Chooses the ancestor with the largest marginal contribution (of equals the oldest), or none when nothing is left. */
  takeLargest(): { fish: number; marginal: number; total: number } | undefined {
    this.#update();
    let best = -1;
    let bestMarginal = 0;
    for (let k = 0; k < this.#fish.length; k++) {
      if (this.#candidate[k] === 0 || this.#chosen[k] === 1) continue;
      const marginal = this.#share[k]! * (1 - this.#accounted[k]!);
      // A hair above, so that rounding does not decide between equals.
      if (marginal > bestMarginal * (1 + 1e-12)) {
        best = k;
        bestMarginal = marginal;
      }
    }
    if (best < 0) return undefined;
    this.#chosen[best] = 1;
    return { fish: this.#fish[best]!, marginal: bestMarginal, total: this.#total[best]! };
  }

  #update(): void {
    const share = this.#share;
    const accounted = this.#accounted;
    const chosen = this.#chosen;
    const sire = this.#sire;
    const dam = this.#dam;
    share.set(this.#own);
    for (let k = share.length - 1; k >= 0; k--) {
      if (chosen[k] === 1) continue;
      const half = share[k]! / 2;
      const s = sire[k]!;
      const d = dam[k]!;
      if (s >= 0) share[s]! += half;
      if (d >= 0) share[d]! += half;
    }
    for (let k = 0; k < share.length; k++) {
      const s = sire[k]!;
      const d = dam[k]!;
      accounted[k] =
        chosen[k] === 1 ? 1 : ((s < 0 ? 0 : accounted[s]!) + (d < 0 ? 0 : accounted[d]!)) / 2;
    }
  }
}
