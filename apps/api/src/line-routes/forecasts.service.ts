import { type LinePurpose, wantedAlleles } from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { besideTheLoop } from '../jobs/beside.js';
import { LastUsed, workedOutOnce } from '../jobs/last-used.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { namedOfLine } from '../stock/named-rows.js';
import { purposeOfLine } from '../stock/purpose-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import type { LineRow } from '../stock/rows/line.entity.js';
import { bredSoFar } from './bred-so-far.js';
import { forecastProgram } from './forecast-program.js';
import { type ForecastAnswer, type ForecastTask, MOST_BROODS } from './forecast-task.js';
import { type BelievedLine, LineBeliefsService } from './line-beliefs.service.js';
import { type LineForecastInput, numberProblems } from './line-routes.inputs.js';

const SEED = 20_260_302;
const MOST_HELD = 20;

export interface ForecastStanding {
  readonly line: LineRow;
  readonly purpose: LinePurpose;
  readonly believed: BelievedLine;
  readonly task: ForecastTask | null;
  readonly answer: ForecastAnswer | null;
  readonly whyNone: string | null;
  readonly waiting: ComputationRow | null;
}

/** Where a line goes, under the plan and as it was bred so far: reckoned once for each state of its records. */
@Injectable()
export class ForecastsService {
  private readonly held = new LastUsed<Promise<ForecastAnswer>>(MOST_HELD);

  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly pedigrees: PedigreeService,
    private readonly beliefs: LineBeliefsService,
  ) {}

  async of(input: LineForecastInput, by: string): Promise<ForecastStanding> {
    expectInput(input);
    const manager = this.dataSource.manager;
    const line = await this.records.find(manager, lineRecord, input.lineId);
    const { content: purpose } = await purposeOfLine(manager, line.id);
    const believed = await this.beliefs.of(line.id, purpose, {
      beside: 'none',
      by,
      together: true,
    });
    const base = { line, purpose, believed, task: null, answer: null, whyNone: null };
    if (believed.waiting !== null) return { ...base, waiting: believed.waiting };
    const whyNone = whyNoForecast(believed.belief.sex);
    if (whyNone !== null) return { ...base, whyNone, waiting: null };
    const task = await this.task(input, purpose, believed);
    const key = JSON.stringify([believed.key, { ...task, belief: null }]);
    const work = (): Promise<ForecastAnswer> => besideTheLoop(forecastProgram, task);
    const answer = await workedOutOnce(this.held, key, work);
    return { ...base, task, answer, waiting: null };
  }

  private async task(
    { lineId, generations, fryPerBrood }: LineForecastInput,
    purpose: LinePurpose,
    { belief, traits, looks }: BelievedLine,
  ): Promise<ForecastTask> {
    const { pedigree } = await this.pedigrees.state();
    const members = await namedOfLine(this.dataSource, lineId);
    const bred = bredSoFar(
      pedigree,
      members.flatMap(({ id }) => (pedigree.has(id) ? [pedigree.indexOf(id)] : [])),
    );
    return {
      belief,
      purpose: { traits, looks },
      alleles: wantedAlleles(
        belief.loci.map(({ locus }) => locus),
        looks,
      ),
      generations,
      broods: Math.min(MOST_BROODS, purpose.broods),
      broodsPerFish: purpose.broodsPerFish,
      fryPerBrood,
      kinshipRise: purpose.kinshipRise,
      soFar: bred === null ? null : { ...bred, broods: Math.min(MOST_BROODS, bred.broods) },
      seed: SEED,
    };
  }
}

/** A line can be forecast with both sexes only. */
export const whyNoForecast = (sexes: readonly string[]): string | null => {
  const missing = ['male', 'female'].find((sex) => !sexes.includes(sex));
  return missing === undefined
    ? null
    : `No ${missing} of the line is in use and swims here: there is nobody to go on with.`;
};

const expectInput = (input: LineForecastInput): void => {
  const problems = [
    ...numberProblems(input, 'generations', 10),
    ...numberProblems(input, 'fryPerBrood', 100),
  ];
  if (problems.length > 0) throw fieldError(...problems);
};
