import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import type { Repairs } from '@linewright/repair';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { askerGone } from '../jobs/asker.js';
import { inTurn } from '../jobs/beside.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { readTable } from './csv-table.js';
import type { ImportPreviewModel } from './import.model.js';
import type { ColumnChoice } from '../stock/rows/import-column-choice.js';
import type { ImportProblem } from './import-problem.js';
import { doImport } from './do-import.js';
import { runImport } from './import-in-thread.js';
import type { ImportAnswer, ImportCounts, ImportTask } from './import-task.js';
import { loadStock } from './load-stock.js';
import { MOST_ROUNDS, planImport } from './plan-import.js';

export interface PedigreeFile {
  readonly fileName: string;
  readonly text: string;
  /** What columns are to be read as; the others are read as their headers suggest. */
  readonly columns: readonly ColumnChoice[] | null;
  /** What was decided about it; a look with neither goes by the last file of the same columns. */
  readonly repairs: Repairs | null;
}

/** Letters of a file that is read and checked in a few hundredths of a second; a longer one would hold everybody else up. */
const MOST_ON_THE_LOOP = 50_000;

/** Pedigree files looked at and taken in. */
@Injectable()
export class ImportsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  /** Every problem of a file, however many. */
  async problems(text: string, account: SignedInPerson): Promise<readonly ImportProblem[]> {
    const stock = await loadStock(this.dataSource.manager, account.keepsFor);
    return planImport(readTable(text), [], stock, {
      newId: randomUUID,
      latestDay: this.clock.latestDay(),
    }).problems;
  }

  /** What taking a file in would do; writes nothing. */
  async look(file: PedigreeFile, account: SignedInPerson): Promise<ImportPreviewModel> {
    const task = {
      ...file,
      purpose: 'look',
      account,
      ...this.moment(),
      computationId: null,
    } as const;
    return (await this.work(task, askerGone())).preview!;
  }

  /** Takes the whole file in, in one transaction, or nothing of it. */
  async take(file: PedigreeFile, account: SignedInPerson): Promise<ImportCounts> {
    const task = {
      ...file,
      purpose: 'take',
      account,
      ...this.moment(),
      computationId: null,
    } as const;
    return (await this.work(task)).counts!;
  }

  private work(task: ImportTask, signal?: AbortSignal): Promise<ImportAnswer> {
    // Each round of answers checks the file again.
    const rounds = (task.repairs?.answers.length ?? 0) === 0 ? 1 : MOST_ROUNDS + 1;
    if (task.text.length * rounds <= MOST_ON_THE_LOOP) return doImport(this.dataSource, task, {});
    return inTurn(() => runImport(this.dataSource, task, signal === undefined ? {} : { signal }));
  }

  private moment(): Pick<ImportTask, 'at' | 'day' | 'latestDay'> {
    return {
      at: this.clock.now().getTime(),
      day: this.clock.today(),
      latestDay: this.clock.latestDay(),
    };
  }
}
