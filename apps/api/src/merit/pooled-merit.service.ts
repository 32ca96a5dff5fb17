import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { besideTheLoop } from '../jobs/beside.js';
import { LastUsed, workedOutOnce } from '../jobs/last-used.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { countedBroods } from '../stock/merit-rows.js';
import { type BroodStage, stagesOf } from './brood-stages.js';
import { levelsOf } from './level-column.js';
import type { StageCounts, StageLoad } from './line-load.js';
import { MOST_BROODS } from './line-load.service.js';
import type { HeritabilityAnswer, Refusal } from './merit-answer.js';
import { loadProgram, meritProgram } from './merit-programs.js';
import { taskOfRows } from './task-of-rows.js';
import { latestRows } from './trait-load.service.js';
import { TraitRecordsService } from './trait-records.service.js';

const MOST_HELD = 20;
/** The latest looks of a trait that are gone over. */
const MOST_LOOKS = 2_000;

/** How much of a trait is inherited over several lines; nothing of single fish. */
export interface PooledHeritability {
  readonly heritability: HeritabilityAnswer | null;
  readonly refusal: Refusal | null;
}

/** Looks at fish of several lines. */
export interface PooledLooks {
  /** Line and fish of each row. */
  readonly rows: readonly { readonly lineId: string; readonly fishId: string }[];
  /** Works it out from these of the rows. */
  readonly workOut: (rows: readonly number[]) => Promise<PooledHeritability>;
}

/** Figures over several lines together, for whoever may see all of them. Held by this process alone; no value of a fish leaves it. */
@Injectable()
export class PooledMeritService {
  private readonly loads = new LastUsed<Promise<readonly StageLoad[]>>(MOST_HELD);
  private readonly heritabilities = new LastUsed<Promise<PooledHeritability>>(MOST_HELD);

  constructor(
    private readonly dataSource: DataSource,
    private readonly pedigrees: PedigreeService,
    private readonly records: TraitRecordsService,
  ) {}

  /** Counted broods of the lines by stage, the latest 800 of all. */
  async stages(lineIds: readonly string[]): Promise<readonly BroodStage[]> {
    const all = await countedBroods(this.dataSource, lineIds, MOST_BROODS);
    const { pedigree } = await this.pedigrees.state();
    return stagesOf(all, pedigree).stages;
  }

  /** What inbreeding costs, from rows with their line by number. Cost: seconds for hundreds of broods, beside the loop. */
  loadsOf(counts: readonly StageCounts[]): Promise<readonly StageLoad[]> {
    const key = createHash('sha256').update(JSON.stringify(counts)).digest('hex');
    return workedOutOnce(this.loads, key, () => besideTheLoop(loadProgram, counts));
  }

  /** Looks at fish of the lines under the trait's present version, the latest 2,000. Each line has a level of its own. */
  async looks(traitId: string, lineIds: readonly string[]): Promise<PooledLooks> {
    const stock = await this.records.of(traitId);
    const { task, looksTaken, pedigree, facts } = stock;
    const wanted = new Set(lineIds);
    const lineOf = (row: number): string => facts.get(pedigree.ids[task.fish[row]!]!)?.lineId ?? '';
    const all = [...task.fish.keys()].filter((row) => wanted.has(lineOf(row)));
    const rows = latestRows(all, looksTaken, MOST_LOOKS);
    return {
      rows: rows.map((row) => ({
        lineId: lineOf(row),
        fishId: pedigree.ids[task.fish[row]!]!,
      })),
      workOut: (some) => {
        const taken = some.map((k) => rows[k]!);
        const lines = levelsOf('line', taken.map(lineOf));
        const part = taskOfRows(task, pedigree, taken);
        const given = {
          ...part,
          fixed: [...part.fixed, ...(lines.levels.length > 1 ? [lines] : [])],
        };
        const key = createHash('sha256').update(stock.key).update(JSON.stringify(taken));
        return workedOutOnce(this.heritabilities, key.digest('hex'), async () => {
          const { linear, threshold, shown, linearRefusal } = await besideTheLoop(
            meritProgram,
            given,
          );
          const model = shown === 'threshold' ? threshold : linear;
          return { heritability: model?.heritability ?? null, refusal: linearRefusal };
        });
      },
    };
  }
}
