import { createHash } from 'node:crypto';
import { DAY } from '@linewright/care';
import { Inject, Injectable } from '@nestjs/common';
import { subset, withAncestors } from '@linewright/pedigree';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { ComputationsService, EvidenceMoved, type Watcher } from '../jobs/computations.service.js';
import { runInThread, threadFile } from '../jobs/thread.js';
import { namedFish } from '../kinship/named-fish.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { namedOfLine } from '../stock/named-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import { DataSource } from 'typeorm';
import { toFigures } from './line-health.mapper.js';
import type { LineFiguresModel } from './line-health.model.js';
import { type LineAnswer, type LineTask, runLineTask } from './line-task.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import type { LineStock, LineStanding } from './line-stock.js';

const KIND = 'line health';
const threadProgram = threadFile('line-worker.js');

/**
 * Works out a line's figures from the records as they are now: within the request for a line of ordinary size, through a long
 * computation that all processes share for a large one.
 */
@Injectable()
export class LineHealthService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly pedigrees: PedigreeService,
    private readonly computations: ComputationsService,
    @Inject(CONFIG) private readonly config: Config,
  ) {
    computations.register(KIND, (subject, state, watcher) => this.workOut(subject, state, watcher));
  }

  async of(lineId: string, includeUnsorted: boolean, by: string): Promise<LineStanding> {
    const line = await this.records.find(this.dataSource.manager, lineRecord, lineId);
    const { members, inUse } = await this.fishOf(line.id, includeUnsorted);
    const counts = { line, fishCount: members.length, inUseCount: inUse.length };
    if (inUse.length === 0) return { ...counts, figures: null, waiting: null };
    const stock = await this.read(members, inUse);
    if (stock.pedigree.size < this.config.longFromFish) {
      return { ...counts, figures: toFigures(stock, runLineTask(stock.task)), waiting: null };
    }
    const subject = JSON.stringify([line.id, includeUnsorted]);
    const wanted = { kind: KIND, subject, evidence: stateOf(stock) };
    const stored = await this.computations.answer(wanted);
    if (stored !== null) return { ...counts, figures: stored as LineFiguresModel, waiting: null };
    return { ...counts, figures: null, waiting: await this.computations.want(wanted, by) };
  }

  private async workOut(
    subject: string,
    state: string,
    watcher: Watcher,
  ): Promise<LineFiguresModel> {
    const [lineId, includeUnsorted] = JSON.parse(subject) as [string, boolean];
    const { members, inUse } = await this.fishOf(lineId, includeUnsorted);
    if (inUse.length === 0) throw new EvidenceMoved();
    const stock = await this.read(members, inUse);
    if (stateOf(stock) !== state) throw new EvidenceMoved();
    const answer =
      threadProgram === undefined
        ? runLineTask(stock.task, watcher.onProgress)
        : await runInThread<LineAnswer>(threadProgram, stock.task, watcher);
    return toFigures(stock, answer);
  }

  private async fishOf(lineId: string, includeUnsorted: boolean) {
    const members = await namedOfLine(this.dataSource, lineId);
    const counts = (fish: NamedFishModel): boolean =>
      fish.inUse === true || (includeUnsorted && fish.disposition === 'unsorted');
    return { members, inUse: members.filter(counts) };
  }

  private async read(
    members: readonly NamedFishModel[],
    inUse: readonly NamedFishModel[],
  ): Promise<LineStock> {
    // Asked for after the fish, so that it has every one of them.
    const { pedigree: whole, unknown } = await this.pedigrees.state();
    const pedigree = subset(
      whole,
      withAncestors(
        whole,
        members.map(({ id }) => whole.indexOf(id)),
      ),
    );
    const fish = new Map(members.map((one) => [one.id, one]));
    const others = pedigree.ids.filter((id) => !fish.has(id));
    for (const [id, one] of await namedFish(this.dataSource, others)) fish.set(id, one);
    const at = (list: readonly NamedFishModel[]): Int32Array =>
      Int32Array.from(list, ({ id }) => pedigree.indexOf(id));
    const task: LineTask = {
      sire: pedigree.sire,
      dam: pedigree.dam,
      members: at(members),
      inUse: at(inUse),
      sex: inUse.map(({ sex }) => (sex === 'male' || sex === 'female' ? sex : 'unknown')),
      unknown: Uint8Array.from(pedigree.ids, (id) => unknown[whole.indexOf(id)] ?? 0),
      ...(pedigree.hidden !== undefined && { hidden: pedigree.hidden }),
      bornOn: Float64Array.from(pedigree.ids, (id) => daysOf(fish.get(id)?.hatchDate ?? null)),
    };
    return { pedigree, fish, task };
  }
}

const daysOf = (date: string | null): number => (date === null ? NaN : Date.parse(date) / DAY);

/** Raised whenever the figures get another shape: those stored in an older one are not served. */
const SHAPE = '2';

/** Changes with everything that the figures are made from or written with. */
const stateOf = ({ pedigree, fish, task }: LineStock): string => {
  const hash = createHash('sha256').update(SHAPE);
  hash.update(task.sire).update(task.dam).update(task.members).update(task.inUse);
  hash.update(task.unknown).update(task.hidden ?? '');
  for (const id of pedigree.ids) hash.update(JSON.stringify(fish.get(id) ?? null));
  return hash.digest('hex');
};
