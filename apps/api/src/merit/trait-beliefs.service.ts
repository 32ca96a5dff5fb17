import { Injectable } from '@nestjs/common';
import { besideTheLoop } from '../jobs/beside.js';
import { LastUsed, workedOutOnce } from '../jobs/last-used.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { beliefProgram, usualBeliefProgram } from './merit-programs.js';
import type { ModelAnswer } from './merit-answer.js';
import type { TraitBelief } from './trait-belief.js';
import { fishOfLevel } from './trait-figures.js';
import { TraitMeritService, type TraitStanding } from './trait-merit.service.js';
import type { TraitStock } from './trait-records.service.js';

/** Beliefs kept in memory, the last asked for: pages that wait ask for the same ones again and again. */
const MOST_HELD = 24;
/** Fish on record whose values are told before they were worked out: some tenths of a second. */
const MOST_FOR_NOW = 20_000;

/** What is believed of a trait in some fish; why nothing is, or what is waited for first. */
export type TraitBeliefAnswer =
  | {
      readonly belief: TraitBelief;
      readonly name: string;
      /** It holds until these values are worked out; null: they are. */
      readonly until: ComputationRow | null;
    }
  | {
      readonly belief: null;
      readonly name: string;
      readonly why: string;
      readonly waiting: ComputationRow | null;
    };

/** Breeding values of fish together with how their errors go together, for what simulates them. */
@Injectable()
export class TraitBeliefsService {
  private readonly held = new LastUsed<Promise<TraitBelief>>(MOST_HELD);
  private readonly heldForNow = new LastUsed<Promise<TraitBelief | null>>(MOST_HELD);

  constructor(private readonly merit: TraitMeritService) {}

  /**
   * @param lineId line whose scored fish tell the level, where there are enough of them.
   * @param forNow while values are worked out, what the scores say at the shares known last, or the usual ones.
   */
  async of(
    traitId: string,
    lineId: string | null,
    fishIds: readonly string[],
    by: string,
    forNow = false,
  ): Promise<TraitBeliefAnswer> {
    const standing = await this.merit.of(traitId, by);
    const { stock, answer, waiting } = standing;
    const { name } = stock.trait;
    const fish = fishIds.map((id) => stock.pedigree.indexOf(id));
    const level = fishOfLevel(stock, lineId);
    const soon = answer === null && forNow ? await this.forNow(standing, fish, level) : null;
    if (soon !== null) return { belief: soon, name, until: waiting };
    if (answer === null)
      return { belief: null, name, waiting, why: 'its values are being worked out.' };
    if (answer.linear === null)
      return {
        belief: null,
        name,
        waiting: null,
        why: answer.linearRefusal?.message ?? 'no reason given',
      };
    if (!answer.wholeStock)
      return {
        ...{ belief: null, name, waiting: null },
        why: 'there are too many fish on record to know how the errors of their values go together.',
      };
    return { belief: await this.at(answer.linear, stock, fish, level), name, until: null };
  }

  private at(
    { shares, variance }: Pick<ModelAnswer, 'shares' | 'variance'>,
    stock: TraitStock,
    fish: readonly number[],
    level: readonly number[],
  ): Promise<TraitBelief> {
    const key = JSON.stringify([stock.trait.id, stock.key, shares, variance, fish, level]);
    return workedOutOnce(this.held, key, () =>
      besideTheLoop(beliefProgram, stock.task, { shares, variance }, fish, level),
    );
  }

  private forNow(
    { stock, fromLast }: TraitStanding,
    fish: readonly number[],
    level: readonly number[],
  ): Promise<TraitBelief | null> {
    const last = fromLast?.answer;
    if (last != null && last.wholeStock && last.linear !== null)
      return this.at(last.linear, stock, fish, level);
    if (stock.pedigree.size > MOST_FOR_NOW) return Promise.resolve(null);
    const key = JSON.stringify(['usual', stock.trait.id, stock.key, fish, level]);
    return workedOutOnce(this.heldForNow, key, () =>
      besideTheLoop(usualBeliefProgram, stock.task, fish, level),
    );
  }
}
