import { createHash } from 'node:crypto';
import {
  chooseOutcrossFish,
  type OutcrossCourse,
  outcrossCourse,
  type OutcrossFish,
  wantedAlleles,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { ComputationsService, EvidenceMoved, type Watcher } from '../jobs/computations.service.js';
import { runInThread, threadFile } from '../jobs/thread.js';
import { type PurposeInForce, purposeOfLine } from '../stock/purpose-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import type { LineRow } from '../stock/rows/line.entity.js';
import { MOST_BROODS } from './forecast-task.js';
import { whyNoForecast } from './forecasts.service.js';
import { parentGenerations } from './generation-days.js';
import { type BelievedLine, LineBeliefsService } from './line-beliefs.service.js';
import { expectOutcrossInput } from './outcross-input.js';
import { type PartnerStanding, partnerOnRecord, withDescribed } from './outcross-partner.js';
import { type OutcrossAnswer, type OutcrossTask, runOutcrossTask } from './outcross-task.js';
import type { LineOutcrossInput } from './outcross.inputs.js';
import { whyNoTarget } from './route-search.service.js';

const KIND = 'outcross';
const threadProgram = threadFile('outcross-worker.js');
/** The same simulations for the same records: a figure must not move when the page is read again. */
const SEED = 20_260_303;
/** Raised whenever the answer gets another shape. */
const SHAPE = '1';
const NOT_SIMULATED: OutcrossAnswer = { chance: null, forecast: null };

/** What is known of the fish of an outcross; without them, why. */
interface Prepared {
  readonly purpose: PurposeInForce;
  readonly partner: PartnerStanding | null;
  readonly believed: BelievedLine | null;
  readonly fish: OutcrossFish | null;
  readonly whyNone: string | null;
  readonly whyNoChance: string | null;
  readonly whyNoForecast: string | null;
  readonly waiting: ComputationRow | null;
}

export interface OutcrossStanding extends Prepared {
  readonly line: LineRow;
  readonly courses: { readonly back: OutcrossCourse; readonly within: OutcrossCourse } | null;
  readonly task: OutcrossTask | null;
  readonly answer: OutcrossAnswer | null;
}

/** An outcross of a line to one partner: exact by generation at once, simulated in a long computation. */
@Injectable()
export class LineOutcrossService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly beliefs: LineBeliefsService,
    private readonly computations: ComputationsService,
  ) {
    computations.register(KIND, (subject, state, watcher) => this.workOut(subject, state, watcher));
  }

  async of(input: LineOutcrossInput, by: string): Promise<OutcrossStanding> {
    expectOutcrossInput(input);
    const line = await this.records.find(this.dataSource.manager, lineRecord, input.lineId);
    const prepared = await this.prepared({ ...input, lineId: line.id }, by);
    const { believed, fish } = prepared;
    const base = { ...prepared, line, courses: null, task: null, answer: null };
    if (believed === null || fish === null) return base;
    const task = taskOf(input, prepared, believed, fish);
    const found = { ...base, task, courses: coursesOf(input, believed, task) };
    if (!input.simulated || (task.goal === null && task.generations === null))
      return { ...found, answer: NOT_SIMULATED };
    const subject = JSON.stringify([{ ...input, lineId: line.id }, by]);
    const wanted = { kind: KIND, subject, evidence: stateOf(task, believed, input) };
    const { answer, waiting } = await this.computations.standing(wanted, by);
    return { ...found, answer: answer as OutcrossAnswer | null, waiting };
  }

  private async prepared(input: LineOutcrossInput, by: string): Promise<Prepared> {
    const { lineId, described } = input;
    const { manager } = this.dataSource;
    const purpose = await purposeOfLine(manager, lineId);
    const partner =
      input.partnerId == null ? null : await partnerOnRecord(manager, input.partnerId, lineId);
    const none = {
      ...{ purpose, partner, believed: null, fish: null, waiting: null },
      ...{ whyNoChance: null, whyNoForecast: null },
    };
    if (partner !== null && partner.whyNone !== null) return { ...none, whyNone: partner.whyNone };
    const beside = partner === null ? 'none' : { partnerId: partner.id };
    const known = await this.beliefs.of(lineId, purpose.content, { beside, by, together: false });
    if (known.waiting !== null) return { ...none, whyNone: null, waiting: known.waiting };
    const believed = described == null ? known : withDescribed(known, described);
    const fish = fishOf(input, believed);
    if (fish === null) return { ...none, believed, whyNone: whyNoMate(believed) };
    return {
      ...{ purpose, partner, believed, fish, whyNone: null, waiting: null },
      whyNoChance: whyNoTarget(believed),
      whyNoForecast: whyNoForecast(sexesOfLine(believed)),
    };
  }

  private async workOut(subject: string, state: string, watcher: Watcher): Promise<OutcrossAnswer> {
    const [input, by] = JSON.parse(subject) as [LineOutcrossInput, string];
    const prepared = await this.prepared(input, by);
    const { believed, fish } = prepared;
    if (believed === null || fish === null) throw new EvidenceMoved();
    const task = taskOf(input, prepared, believed, fish);
    if (stateOf(task, believed, input) !== state) throw new EvidenceMoved();
    return threadProgram === undefined
      ? runOutcrossTask(task, { onProgress: watcher.onProgress, soFar: watcher.onSoFar })
      : runInThread<OutcrossAnswer>(threadProgram, task, watcher);
  }
}

const partnerAt = ({ ofLine }: BelievedLine): number => ofLine.indexOf(0);

const sexesOfLine = ({ belief, ofLine }: BelievedLine): string[] =>
  belief.sex.filter((_, at) => ofLine[at] === 1);

const whyNoMate = (believed: BelievedLine): string => {
  const mate = believed.belief.sex[partnerAt(believed)] === 'male' ? 'female' : 'male';
  return `No ${mate} of the line is in use and swims here: this partner has no mate.`;
};

const fishOf = (
  { mateId, backId }: LineOutcrossInput,
  { belief, ofLine, traits }: BelievedLine,
): OutcrossFish | null => {
  const partner = ofLine.indexOf(0);
  const place = (field: 'mateId' | 'backId', id: string | null | undefined) => {
    if (id == null) return {};
    const at = belief.fish.indexOf(id.toLowerCase());
    const fits = ofLine[at] === 1 && (field === 'backId' || belief.sex[at] !== belief.sex[partner]);
    if (fits) return { [field === 'mateId' ? 'mate' : 'back']: at };
    const message = `"${id}": choose a fish of the line that is in use and swims here${field === 'mateId' ? ', of the other sex than the partner' : ''}.`;
    throw fieldError({ field, message });
  };
  const named = { ...place('mateId', mateId), ...place('backId', backId) };
  return chooseOutcrossFish({ belief, ofLine, aims: traits }, partner, named);
};

const coursesOf = (
  { generations }: LineOutcrossInput,
  { belief, ofLine, traits: aims }: BelievedLine,
  { fish, alleles }: OutcrossTask,
): NonNullable<OutcrossStanding['courses']> => {
  const asked = { belief, ofLine, fish, aims, alleles, generations };
  return {
    back: outcrossCourse({ ...asked, after: 'back' }),
    within: outcrossCourse({ ...asked, after: 'within' }),
  };
};

const taskOf = (
  { generations, forecastGenerations, fryPerBrood, share }: LineOutcrossInput,
  { purpose: { content }, whyNoChance, whyNoForecast }: Prepared,
  believed: BelievedLine,
  fish: OutcrossFish,
): OutcrossTask => {
  const { belief, traits, looks } = believed;
  const { ceiling, broods, broodsPerFish, kinshipRise, rules } = content;
  const loci = belief.loci.map(({ locus }) => locus);
  return {
    belief,
    fish,
    purpose: { traits, looks, ceiling },
    alleles: wantedAlleles(loci, looks),
    goal: whyNoChance === null ? { share, ceiling } : null,
    lengths: { generations, parentGenerations: parentGenerations(rules) },
    generations: whyNoForecast === null ? forecastGenerations : null,
    broods: Math.min(MOST_BROODS, broods),
    broodsPerFish,
    fryPerBrood,
    kinshipRise,
    seed: SEED,
  };
};

const stateOf = (
  { belief: _, ...figures }: OutcrossTask,
  { key }: BelievedLine,
  { described }: LineOutcrossInput,
): string =>
  createHash('sha256')
    .update(SHAPE)
    .update(key)
    .update(JSON.stringify([figures, described ?? null]))
    .digest('hex');
