import { Injectable } from '@nestjs/common';
import { besideTheLoop } from '../jobs/beside.js';
import { LastUsed, workedOutOnce } from '../jobs/last-used.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { beliefProgram } from './merit-programs.js';
import type { TraitBelief } from './trait-belief.js';
import { fishOfLevel } from './trait-figures.js';
import { TraitMeritService } from './trait-merit.service.js';

/** Beliefs kept in memory, the last asked for: pages that wait ask for the same ones again and again. */
const MOST_HELD = 24;

/** What is believed of a trait in some fish; why nothing is, or what is waited for first. */
export type TraitBeliefAnswer =
  | { readonly belief: TraitBelief }
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

  constructor(private readonly merit: TraitMeritService) {}

  /** @param lineId line whose scored fish tell the level, where there are enough of them. */
  async of(
    traitId: string,
    lineId: string | null,
    fishIds: readonly string[],
    by: string,
  ): Promise<TraitBeliefAnswer> {
    const { stock, answer, waiting } = await this.merit.of(traitId, by);
    const { name } = stock.trait;
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
    const fish = fishIds.map((id) => stock.pedigree.indexOf(id));
    const level = fishOfLevel(stock, lineId);
    const { shares, variance } = answer.linear;
    const key = JSON.stringify([traitId, stock.key, shares, variance, fish, [...level]]);
    const work = (): Promise<TraitBelief> =>
      besideTheLoop(beliefProgram, stock.task, { shares, variance }, fish, level);
    return { belief: await workedOutOnce(this.held, key, work) };
  }
}
