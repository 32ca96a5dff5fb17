import { Injectable } from '@nestjs/common';
import { besideTheLoop } from '../jobs/beside.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { beliefProgram } from './merit-programs.js';
import type { TraitBelief } from './trait-belief.js';
import { fishOfLevel } from './trait-figures.js';
import { TraitMeritService } from './trait-merit.service.js';

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
    const { shares, variance } = answer.linear;
    return {
      belief: await besideTheLoop(
        beliefProgram,
        stock.task,
        { shares, variance },
        fish,
        fishOfLevel(stock, lineId),
      ),
    };
  }
}
