import { HeredityError } from '../heredity-error.js';
import { CliqueTree, type Watch } from './clique-tree.js';
import { factorsByFish, fullDomains, strikeOut, type Domains } from './domains.js';
import { eliminationOrder } from './elimination-order.js';
import type { Factor, Network } from './network.js';
import { reduceNetwork, relevantFish } from './reduced-network.js';

/** Answers whether records, named by their places, can all be true; counts its exact checks. */
export class RecordChecker {
  checks = 0;
  readonly #network: Network;
  readonly #limit: number;
  readonly #watch: Watch;
  readonly #factors: readonly Factor[];
  readonly #touching: readonly (readonly number[])[];
  readonly #inherited: Domains;

  constructor(network: Network, limit: number, watch: Watch) {
    // Only what is zero matters: ones and zeros cannot underflow.
    const seen = network.seen.map((factor) => ({
      ...factor,
      table: factor.table.map((x) => (x > 0 ? 1 : 0)),
    }));
    this.#network = { ...network, seen };
    this.#limit = limit;
    this.#watch = watch;
    this.#factors = [...network.inheritance, ...seen];
    const fish = network.input.pedigree.size;
    this.#touching = factorsByFish(this.#factors, fish);
    this.#inherited = fullDomains(fish, network.tables.size);
    strikeOut(this.#factors, network.tables.size, this.#inherited, {
      touching: this.#touching,
      active: this.#active([]),
    });
  }

  get spent(): boolean {
    return this.checks >= this.#limit;
  }

  /** Whether the records at these places can all be true. */
  possible(places: readonly number[]): boolean {
    if (this.#watch.signal?.aborted) cancelled();
    this.#watch.onProgress?.(this.checks, this.#limit);
    this.checks++;
    if (this.#propagate(this.#inherited, [], places) === null) return false;
    const part: Network = {
      ...this.#network,
      seen: places.flatMap((i) => this.#network.seen[i] ?? []),
    };
    const reduced = reduceNetwork(part, relevantFish(part, []));
    if (!reduced) return false;
    const order = eliminationOrder(reduced.graph, { rule: 'fewest-new-ties', limit: 2 ** 20 });
    // Too tangled to be sure: nothing wrong was found step by step, and a clash is not claimed without proof.
    if (!order) return true;
    const tree = CliqueTree.build(reduced.graph.states, order, reduced.tables, {}, cancelled);
    return tree.logTotal > -Infinity;
  }

  /** As many further records as can be true with those of `start`, which can all be true together. */
  grow(start: readonly number[], all: readonly number[]): number[] {
    let domains = this.#propagate(this.#inherited, [], start);
    let grown = [...start];
    for (const place of all) {
      if (!domains || grown.includes(place)) continue;
      const next = this.#propagate(domains, grown, [place]);
      if (!next) continue;
      domains = next;
      grown.push(place);
    }
    if (this.possible(grown)) return grown;
    // Loops hid a clash from the quick way: add one by one with exact checks.
    grown = [...start];
    for (const place of all) {
      if (!grown.includes(place) && !this.spent && this.possible([...grown, place]))
        grown.push(place);
    }
    return grown;
  }

  #active(places: readonly number[]): Uint8Array {
    const active = new Uint8Array(
      this.#network.inheritance.length + this.#network.seen.length,
    ).fill(1);
    active.fill(0, this.#network.inheritance.length);
    for (const place of places) active[this.#network.inheritance.length + place] = 1;
    return active;
  }

  /** What is left possible when `added` joins the records in force; null when some fish has nothing left. */
  #propagate(
    domains: Domains,
    inForce: readonly number[],
    added: readonly number[],
  ): Domains | null {
    const next = domains.slice();
    const consistent = strikeOut(this.#factors, this.#network.tables.size, next, {
      touching: this.#touching,
      active: this.#active([...inForce, ...added]),
      first: added.map((place) => this.#network.inheritance.length + place),
    });
    return consistent ? next : null;
  }
}

const cancelled = (): never => {
  throw new HeredityError('CANCELLED', 'The search was stopped before its end.');
};
