import { createHash } from 'node:crypto';
import type { LinePurpose } from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { ComputationsService, EvidenceMoved, type Watcher } from '../jobs/computations.service.js';
import { besideTheLoop } from '../jobs/beside.js';
import { LastUsed, workedOutOnce } from '../jobs/last-used.js';
import { runInThread, threadFile } from '../jobs/thread.js';
import { purposeOfLine } from '../stock/purpose-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import type { LineRow } from '../stock/rows/line.entity.js';
import { parentGenerations } from './generation-days.js';
import { type BelievedLine, LineBeliefsService } from './line-beliefs.service.js';
import { type RouteAnswer, type RouteTask, runRouteTask } from './route-task.js';
import { firstRoutesProgram } from './route-program.js';
import { type RouteSearchInput, numberProblems, shareProblems } from './line-routes.inputs.js';

const KIND = 'routes';
const threadProgram = threadFile('route-worker.js');
/** The same simulations for the same records: a figure must not move when the page is read again. */
const SEED = 20_260_301;
/** Raised whenever the answer gets another shape. */
const SHAPE = '2';

export interface RoutesStanding {
  readonly line: LineRow;
  readonly purpose: { readonly version: number; readonly content: LinePurpose };
  readonly leftOut: readonly string[];
  readonly whyNone: string | null;
  readonly waiting: ComputationRow | null;
  readonly answer: RouteAnswer | null;
  /** What is taken until values are worked out, in sentences; routes are searched again then. */
  readonly forNow: readonly string[];
}

/** First answers kept in memory, the last asked for: a page that waits asks for the same one again and again. */
const MOST_HELD = 12;

/** Searches routes of a line in a long computation whose answer can be read while it gets better. */
@Injectable()
export class RouteSearchService {
  private readonly first = new LastUsed<Promise<RouteAnswer>>(MOST_HELD);

  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly beliefs: LineBeliefsService,
    private readonly computations: ComputationsService,
  ) {
    computations.register(KIND, (subject, state, watcher) => this.workOut(subject, state, watcher));
  }

  async of(input: RouteSearchInput, by: string): Promise<RoutesStanding> {
    expectInput(input);
    const manager = this.dataSource.manager;
    const line = await this.records.find(manager, lineRecord, input.lineId);
    const purpose = await purposeOfLine(manager, line.id);
    const believed = await this.believed(input, purpose.content, by);
    const { leftOut, forNow } = believed;
    const base = { line, purpose, leftOut, answer: null, forNow: forNow?.said ?? [] };
    if (believed.waiting !== null) return { ...base, whyNone: null, waiting: believed.waiting };
    const whyNone = whyNoRoute(believed);
    if (whyNone !== null) return { ...base, whyNone, waiting: null };
    const task = taskOf(input, purpose.content, believed);
    const wanted = {
      kind: KIND,
      subject: JSON.stringify([input, by]),
      evidence: stateOf(task, believed),
    };
    const { answer, waiting } = await this.computations.standing(wanted, by);
    return {
      ...base,
      whyNone,
      answer: (answer as RouteAnswer | null) ?? (await this.firstAnswer(task, wanted.evidence)),
      // Once the search has ended there is still another to come.
      waiting: waiting ?? forNow?.until ?? null,
    };
  }

  /** Each route tried a few times, at once: the search itself may wait for its turn behind other long computations. */
  private firstAnswer(task: RouteTask, state: string): Promise<RouteAnswer> {
    return workedOutOnce(this.first, state, () => besideTheLoop(firstRoutesProgram, task));
  }

  private believed(
    input: RouteSearchInput,
    purpose: LinePurpose,
    by: string,
  ): Promise<BelievedLine> {
    const beside = input.withOutcross ? 'other-lines' : 'none';
    return this.beliefs.of(input.lineId, purpose, { beside, by, together: true, forNow: true });
  }

  private async workOut(subject: string, state: string, watcher: Watcher): Promise<RouteAnswer> {
    const [input, by] = JSON.parse(subject) as [RouteSearchInput, string];
    const { content } = await purposeOfLine(this.dataSource.manager, input.lineId);
    const believed = await this.believed(input, content, by);
    if (believed.waiting !== null) throw new EvidenceMoved();
    const task = taskOf(input, content, believed);
    if (stateOf(task, believed) !== state) throw new EvidenceMoved();
    return threadProgram === undefined
      ? runRouteTask(task, { onProgress: watcher.onProgress, soFar: watcher.onSoFar })
      : runInThread<RouteAnswer>(threadProgram, task, watcher);
  }
}

const taskOf = (
  { share, generations, fryPerBrood }: RouteSearchInput,
  { ceiling, broods, rules }: LinePurpose,
  { belief, ofLine, traits, looks }: BelievedLine,
): RouteTask => ({
  belief,
  ofLine,
  purpose: { traits, looks, ceiling },
  goal: { share, ceiling },
  lengths: { generations, parentGenerations: parentGenerations(rules) },
  broods,
  fryPerBrood,
  seed: SEED,
});

const stateOf = ({ belief: _, ofLine: __, ...figures }: RouteTask, { key }: BelievedLine): string =>
  createHash('sha256').update(SHAPE).update(key).update(JSON.stringify(figures)).digest('hex');

/** A route needs something that a young can pass or not. */
export const whyNoTarget = ({
  traits,
  looks,
}: Pick<LinePurpose, 'traits' | 'looks'>): string | null =>
  looks.some(({ required }) => required) ||
  traits.some(({ low, high }) => low !== null || high !== null)
    ? null
    : 'There is no target to search for: say what the line is for, with the value a trait has to reach or a look that a young has to show.';

const whyNoRoute = ({ belief, ofLine, traits, looks }: BelievedLine): string | null => {
  const has = (sex: 'male' | 'female'): boolean =>
    belief.sex.some((one, k) => one === sex && ofLine[k] === 1);
  if (!has('male') || !has('female'))
    return 'A route begins with a male and a female of the line that are in use and swim here: one of them is missing.';
  return whyNoTarget({ traits, looks });
};

const expectInput = (input: RouteSearchInput): void => {
  const problems = [
    ...shareProblems(input.share),
    ...numberProblems(input, 'generations', 8),
    ...numberProblems(input, 'fryPerBrood', 200),
  ];
  if (problems.length > 0) throw fieldError(...problems);
};
