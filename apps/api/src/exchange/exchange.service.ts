import { createHash, randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { insertRecords } from '../database/bulk-insert.js';
import { RequestError, notFound } from '../errors/request-error.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { readTable } from './csv-table.js';
import {
  type ExportFish,
  type ExportScore,
  type ExportTrait,
  pedigreeCsv,
} from './export-pedigree.js';
import type { ColumnChoice } from './import-columns.js';
import { loadStock, STANDING_SCORES } from './load-stock.js';
import { type ImportPlan, planImport } from './plan-import.js';

export interface ImportCounts {
  readonly fish: number;
  readonly spawns: number;
  readonly lines: number;
  readonly scores: number;
  readonly traits: number;
  readonly unchanged: number;
}

/** Problems that one answer carries; `problemCount` tells them all. */
export const PROBLEMS_SHOWN = 2_000;

/** The calendar day on the clock of the machine that keeps the records. */
const today = (): string => new Date().toLocaleDateString('sv-SE');

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
    s.sire_id AS "sireId", s.dam_id AS "damId", k.name AS "keeperName", f.keeper_id = $1 AS own
  FROM wanted w JOIN fish f ON f.id = w.id JOIN keeper k ON k.id = f.keeper_id
  LEFT JOIN line l ON l.id = f.line_id LEFT JOIN spawn s ON s.id = f.spawn_id`;

/** Pedigree files in and out. */
@Injectable()
export class ExchangeService {
  constructor(private readonly dataSource: DataSource) {}

  /** Reads and checks a file; writes nothing. */
  async plan(
    text: string,
    choices: readonly ColumnChoice[],
    keeper: SignedInKeeper,
    manager: EntityManager = this.dataSource.manager,
  ): Promise<ImportPlan> {
    return planImport(readTable(text), choices, await loadStock(manager, keeper.id), randomUUID);
  }

  tokenOf(text: string): string {
    return createHash('sha256').update(text).digest('hex');
  }

  /** First rows of the file, for the eye. */
  sampleRows(text: string): string[][] {
    return readTable(text.slice(0, 100_000))
      .rows.slice(0, 5)
      .map((row) => [...row.cells]);
  }

  /** Takes the whole file in, in one transaction, or nothing of it. */
  async confirm(
    fileName: string,
    text: string,
    choices: readonly ColumnChoice[],
    keeper: SignedInKeeper,
  ): Promise<ImportCounts> {
    return this.dataSource.transaction(async (manager) => {
      // Two imports at once would both be checked against the same stock.
      await manager.query(`SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE`);
      const plan = await this.plan(text, choices, keeper, manager);
      if (plan.problems.length > 0) throw refusal(plan);
      await this.write(manager, plan, fileName, keeper);
      return {
        fish: plan.fish.length,
        spawns: plan.spawns.length,
        lines: plan.lines.length,
        scores: plan.scores.length,
        traits: plan.traits.length,
        unchanged: plan.knownFish,
      };
    });
  }

  private async write(
    manager: EntityManager,
    plan: ImportPlan,
    fileName: string,
    keeper: SignedInKeeper,
  ): Promise<void> {
    const by = keeper.name;
    const keeperId = keeper.id;
    const start = Date.now();
    const note = `from ${fileName}, which gives no day of scoring: dated on the day of import`;
    const scoredOn = today();
    const insert = insertRecords.bind(null, manager);
    const action = 'imported';
    await insert(
      'line',
      'line',
      plan.lines.map((l) => ({ ...l, keeperId, name: l.code })),
      by,
      action,
    );
    await insert(
      'spawn',
      'spawn',
      plan.spawns.map((s) => ({ ...s, keeperId })),
      by,
      action,
    );
    await insert(
      'fish',
      'fish',
      plan.fish.map((f) => ({ ...f, keeperId, disposition: 'keeper' })),
      by,
      action,
    );
    // A millisecond apart, so that an export has the traits in the file's order.
    const traits = plan.traits.map((t, i) => ({
      ...t,
      keeperId,
      createdAt: new Date(start + i).toISOString(),
    }));
    await insert('trait_definition', 'trait', traits, by, action);
    await insert(
      'score',
      'score',
      plan.scores.map((s) => ({ ...s, scoredOn, scorer: by, note })),
      by,
      action,
    );
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

const refusal = (plan: ImportPlan): RequestError => {
  const count = plan.problems.length;
  const first = plan.problems[0]!;
  return new RequestError(
    'IMPORT_INVALID',
    `Nothing was imported: ${count === 1 ? 'one problem' : `${count} problems`}. Line ${first.line}: ${first.message} ${first.remedy}`,
    { problemCount: count, problems: plan.problems.slice(0, PROBLEMS_SHOWN) },
  );
};
