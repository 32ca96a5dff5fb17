import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { notFound } from '../errors/request-error.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { readTable } from './csv-table.js';
import type { ImportPreviewModel } from './exchange.model.js';
import {
  type ExportFish,
  type ExportScore,
  type ExportTrait,
  pedigreeCsv,
} from './export-pedigree.js';
import type { ColumnChoice } from '../stock/rows/import-column-choice.js';
import type { ImportProblem } from './import-problem.js';
import { doImport } from './do-import.js';
import { type ImportCounts, type ImportTask } from './import-task.js';
import { loadStock, STANDING_SCORES } from './load-stock.js';
import { planImport } from './plan-import.js';

export interface PedigreeFile {
  readonly fileName: string;
  readonly text: string;
  /** What columns are to be read as; the others are read as their headers suggest. */
  readonly columns: readonly ColumnChoice[];
}

const EXPORT_FISH = `
  WITH RECURSIVE wanted(id) AS (
    SELECT id FROM fish
    WHERE withdrawn_at IS NULL AND CASE WHEN $2::uuid IS NULL THEN keeper_id = $1 ELSE line_id = $2 END
    UNION
    SELECT p.parent FROM wanted w
      JOIN fish f ON f.id = w.id JOIN spawn s ON s.id = f.spawn_id
      CROSS JOIN LATERAL (VALUES (s.sire_id), (s.dam_id)) AS p(parent)
    WHERE p.parent IS NOT NULL
  )
  SELECT f.id, f.tag, f.sex, f.hatch_date::text AS "hatchDate", l.code AS "lineCode",
    s.sire_id AS "sireId", s.dam_id AS "damId", k.name AS "keeperName", f.keeper_id = $1 AS own,
    f.declared_unrelated IS TRUE AS "declaredUnrelated",
    CASE WHEN s.id IS NOT NULL THEN json_build_object('id', s.id, 'tag', s.tag, 'mixedOrigin', s.mixed_origin IS TRUE,
      'keeperName', sk.name, 'own', s.keeper_id = $1) END AS spawn
  FROM wanted w JOIN fish f ON f.id = w.id JOIN keeper k ON k.id = f.keeper_id
  LEFT JOIN line l ON l.id = f.line_id LEFT JOIN spawn s ON s.id = f.spawn_id LEFT JOIN keeper sk ON sk.id = s.keeper_id`;

/** Pedigree files in and out. */
@Injectable()
export class ExchangeService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  /** Every problem of a file, however many. */
  async problems(text: string, keeper: SignedInKeeper): Promise<readonly ImportProblem[]> {
    const stock = await loadStock(this.dataSource.manager, keeper.id);
    return planImport(readTable(text), [], stock, randomUUID).problems;
  }

  /** What taking a file in would do; writes nothing. */
  async look(file: PedigreeFile, keeper: SignedInKeeper): Promise<ImportPreviewModel> {
    const task = {
      ...file,
      purpose: 'look',
      keeper,
      ...this.moment(),
      computationId: null,
    } as const;
    return (await doImport(this.dataSource, task, {})).preview!;
  }

  /** Takes the whole file in, in one transaction, or nothing of it. */
  async take(file: PedigreeFile, keeper: SignedInKeeper): Promise<ImportCounts> {
    const task = {
      ...file,
      purpose: 'take',
      keeper,
      ...this.moment(),
      computationId: null,
    } as const;
    return (await doImport(this.dataSource, task, {})).counts!;
  }

  private moment(): Pick<ImportTask, 'at' | 'day'> {
    return { at: this.clock.now().getTime(), day: this.clock.today() };
  }

  /** The pedigree as CSV in pieces; with a line, its fish and the ancestors they need. */
  async exportPedigree(keeper: SignedInKeeper, lineId?: string): Promise<Generator<string>> {
    return this.dataSource.transaction('REPEATABLE READ', async (manager) => {
      if (lineId !== undefined) {
        const found = (await manager.query(`SELECT 1 FROM line WHERE id = $1`, [
          lineId,
        ])) as unknown[];
        if (found.length === 0) throw notFound('line', lineId);
      }
      const fish: ExportFish[] = await manager.query(EXPORT_FISH, [keeper.id, lineId ?? null]);
      const scores: ExportScore[] = await manager.query(STANDING_SCORES, [fish.map((f) => f.id)]);
      const traits: ExportTrait[] = await manager.query(
        `SELECT id, name FROM trait_definition WHERE id = ANY($1::uuid[]) ORDER BY created_at, name, id`,
        [[...new Set(scores.map((s) => s.traitId))]],
      );
      return pedigreeCsv(fish, traits, scores);
    });
  }
}
