import { DAY } from '@linewright/care';
import { generationInterval } from '@linewright/kinship';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { toComputation } from '../jobs/computation.mapper.js';
import { toTrait } from '../shapes/score.mapper.js';
import { scoredTraits } from '../stock/merit-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import type { Refusal } from './merit-answer.js';
import { selectionOf } from './selection.js';
import { toRefusal } from './trait-merit.mapper.js';
import { TraitMeritService, type TraitStanding } from './trait-merit.service.js';
import type { TraitStock } from './trait-records.service.js';
import type { TraitTrendModel } from './trait-trend.model.js';

/** Whether lines are moving. */
@Injectable()
export class TraitTrendService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly merit: TraitMeritService,
  ) {}

  async of(traitId: string, lineId: string, by: string): Promise<TraitTrendModel> {
    const line = await this.records.find(this.dataSource.manager, lineRecord, lineId);
    return trendOf(await this.merit.of(traitId, by), line.id);
  }

  /** Of every scored trait, by name. */
  async ofLine(lineId: string, by: string): Promise<TraitTrendModel[]> {
    const line = await this.records.find(this.dataSource.manager, lineRecord, lineId);
    const found: TraitTrendModel[] = [];
    for (const { id } of await scoredTraits(this.dataSource))
      found.push(trendOf(await this.merit.of(id, by), line.id));
    return found;
  }
}

const TOO_MANY: Refusal = {
  code: 'MERIT_TOO_LARGE',
  message: 'There are too many fish on record to work out how each line moves.',
};

const trendOf = ({ stock, answer, waiting }: TraitStanding, lineId: string): TraitTrendModel => {
  const trend = answer?.trends.find((one) => one.lineId === lineId);
  return {
    trait: toTrait(stock.trait),
    lineId,
    generations: [...(trend?.generations ?? [])],
    realisedHeritability: trend?.realisedHeritability?.value ?? null,
    realisedHeritabilityError: trend?.realisedHeritability?.standardError ?? null,
    generationInterval: intervalOf(stock, lineId),
    selectionCaution: selectionOf(stock).message,
    refusal:
      answer === null ? null : toRefusal(answer.wholeStock ? answer.linearRefusal : TOO_MANY),
    waiting: waiting === null ? null : toComputation(waiting),
  };
};

const intervalOf = ({ pedigree, facts }: TraitStock, lineId: string): number | null => {
  const bornOn = Float64Array.from(pedigree.ids, (id) => {
    const date = facts.get(id)?.hatchDate ?? null;
    return date === null ? NaN : Date.parse(date) / DAY;
  });
  const ofLine = pedigree.ids.flatMap((id, i) => {
    const one = facts.get(id);
    return one?.standing === true && one.lineId === lineId ? [i] : [];
  });
  return generationInterval(pedigree, bornOn, ofLine).interval;
};
