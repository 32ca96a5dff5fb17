import { generationDepth, type InbreedingBasis } from '@linewright/pedigree';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError, notFound } from '../errors/request-error.js';
import { aliveHereSql, inUseSql, placePartnerSql } from '../stock/fish-place.js';
import { compareTags } from '../stock/tag-order.js';
import { LociService } from '../loci/loci.service.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import type { Card } from './cards.js';
import type { JarLabel } from './jar-label.js';

export const MOST_PRINTED = 1_000;

const LABELS = `
  SELECT f.id, f.tag, f.name, f.sex, coalesce(f.hatch_date, s.hatch_date)::text AS "hatchDate",
    l.code AS line, s.tag AS spawn,
    CASE WHEN ${placePartnerSql('f')} THEN (SELECT name FROM keeper WHERE id = f.swims_with_id) END AS "swimsWith",
    (SELECT name FROM keeper WHERE id = f.keeper_id AND NOT here) AS "recordOf"
  FROM fish f LEFT JOIN spawn s ON s.id = f.spawn_id LEFT JOIN line l ON l.id = f.line_id
  WHERE f.withdrawn_at IS NULL AND `;

const SPAWNS = `
  SELECT s.id, s.tag, s.spawned_on::text AS "spawnedOn", s.hatch_date::text AS "hatchDate", s.purpose,
    s.sire_id AS "sireId", s.dam_id AS "damId", sire.tag AS sire, dam.tag AS dam, l.code AS line,
    coalesce((SELECT json_agg(json_build_object('stage', c.stage, 'on', c.counted_on::text, 'number', c.number)
        ORDER BY c.counted_on, c.created_at)
      FROM spawn_count c WHERE c.spawn_id = s.id AND c.withdrawn_at IS NULL), '[]') AS counts
  FROM spawn s LEFT JOIN fish sire ON sire.id = s.sire_id LEFT JOIN fish dam ON dam.id = s.dam_id
    LEFT JOIN line l ON l.id = s.line_id
  WHERE s.withdrawn_at IS NULL AND s.id = ANY($1::uuid[]) ORDER BY s.tag`;

interface SpawnFacts {
  readonly id: string;
  readonly tag: string;
  readonly spawnedOn: string | null;
  readonly hatchDate: string | null;
  readonly purpose: string | null;
  readonly sireId: string | null;
  readonly damId: string | null;
  readonly sire: string | null;
  readonly dam: string | null;
  readonly line: string | null;
  readonly counts: readonly {
    readonly stage: string;
    readonly on: string;
    readonly number: number;
  }[];
}

interface LineFish {
  readonly id: string;
  readonly tag: string;
  readonly name: string | null;
  readonly spawnId: string | null;
  readonly inUse: boolean;
}

/** An F that rests on fish of unknown origin is told as a lowest value, one of unknown parents not at all. */
const inbreedingText = (value: number, basis: InbreedingBasis): string => {
  if (basis === 'unknown') return 'not known (a parent is unknown)';
  const text = `${(100 * value).toFixed(2)} %`;
  return basis === 'known' ? text : `at least ${text} (fish of unknown origin behind it)`;
};
const stageWord = (stage: string): string => stage.replaceAll('_', ' ');

/** What is printed, read from the records. */
@Injectable()
export class PrintContentService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly pedigrees: PedigreeService,
    private readonly loci: LociService,
  ) {}

  /** Of the named fish in the order given, or of a spawn's or line's fish that are still here, by tag. */
  async jarLabels(which: {
    fishIds: readonly string[];
    spawnId?: string;
    lineId?: string;
  }): Promise<JarLabel[]> {
    const here = `${aliveHereSql('f')} ORDER BY f.tag LIMIT ${MOST_PRINTED + 1}`;
    const rows: JarLabel[] =
      which.spawnId !== undefined
        ? await this.dataSource.query(`${LABELS} f.spawn_id = $1 AND ${here}`, [which.spawnId])
        : which.lineId !== undefined
          ? await this.dataSource.query(`${LABELS} f.line_id = $1 AND ${here}`, [which.lineId])
          : await this.dataSource.query(`${LABELS} f.id = ANY($1::uuid[])`, [which.fishIds]);
    if (which.fishIds.length === 0) return this.expectSome(rows.sort(compareTags), 'fish');
    const byId = new Map(rows.map((row) => [row.id, row]));
    return this.expectSome(
      which.fishIds.map((id) => {
        const row = byId.get(id);
        if (row === undefined) throw notFound('fish', id);
        return row;
      }),
      'fish',
    );
  }

  async spawnCards(ids: readonly string[]): Promise<Card[]> {
    const rows: SpawnFacts[] = await this.dataSource.query(SPAWNS, [ids]);
    const list = await Promise.all(rows.map((row) => this.spawnCard(row)));
    return this.expectSome(list, 'spawns');
  }

  async lineCards(ids: readonly string[]): Promise<Card[]> {
    const lines: { id: string; code: string; name: string; goal: string | null }[] =
      await this.dataSource.query(
        `SELECT id, code, name, goal FROM line WHERE withdrawn_at IS NULL AND id = ANY($1::uuid[]) ORDER BY code`,
        [ids],
      );
    return this.expectSome(await Promise.all(lines.map((line) => this.lineCard(line))), 'lines');
  }

  private async spawnCard(row: SpawnFacts): Promise<Card> {
    const inbreeding = await this.pedigrees.inbreedingOfBrood(row.sireId, row.damId);
    const basis = await this.pedigrees.basisOfBrood(row.sireId, row.damId);
    return {
      kind: 'Spawn',
      title: row.tag,
      path: `/spawns/${row.id}`,
      facts: [
        ['Sire', row.sire ?? 'unknown'],
        ['Dam', row.dam ?? 'unknown'],
        ['F of brood', inbreedingText(inbreeding, basis)],
        ['Line', row.line ?? ''],
        ['Purpose', row.purpose ?? ''],
        ['Spawned', row.spawnedOn ?? ''],
        ['Hatched', row.hatchDate ?? ''],
      ],
      lists: [
        {
          title: 'Counted',
          items: row.counts.map(
            ({ stage, on, number }) => `${stageWord(stage)}: ${number} (${on})`,
          ),
        },
      ],
      toWrite: ['Date, stage, count', '', 'Date, lost, why', '', 'Water: °C, pH, NH3'],
    };
  }

  private async lineCard(line: {
    id: string;
    code: string;
    name: string;
    goal: string | null;
  }): Promise<Card> {
    const fish: LineFish[] = await this.dataSource.query(
      `SELECT id, tag, name, spawn_id AS "spawnId", ${inUseSql('f')} AS "inUse"
       FROM fish f WHERE line_id = $1 AND withdrawn_at IS NULL ORDER BY hatch_date NULLS FIRST, tag`,
      [line.id],
    );
    const inUse = fish.filter((one) => one.inUse);
    const genotypes = await this.genotypes(inUse.map(({ id }) => id));
    return {
      kind: 'Line',
      title: `${line.code} ${line.name}`,
      path: `/lines/${line.id}`,
      facts: [
        ['Goal', line.goal ?? ''],
        ['Generation', await this.generation(inUse)],
        ['Fish in use', String(inUse.length)],
      ],
      lists: [
        { title: 'Warnings', items: genotypes.warnings, whole: true },
        {
          title: 'Founders and bought fish',
          items: fish
            .filter((one) => one.spawnId === null)
            .map(({ tag, name }) => (name === null ? tag : `${tag} ${name}`)),
          running: true,
        },
        {
          title: 'Faults met, thought heritable',
          items: await this.faults(line.id),
          running: true,
        },
        { title: 'Recorded genotypes in use', items: genotypes.items, running: true },
        { title: 'Outcrosses', items: await this.outcrosses(line.id), running: true },
      ],
      toWrite: ['Notes'],
    };
  }

  /** Generations since fish of unknown parents, over the fish in use. */
  private async generation(inUse: readonly LineFish[]): Promise<string> {
    const { pedigree } = await this.pedigrees.state();
    const depth = generationDepth(pedigree);
    const depths = inUse
      .filter(({ id }) => pedigree.has(id))
      .map(({ id }) => depth[pedigree.indexOf(id)] ?? 0);
    if (depths.length === 0) return 'no fish in use';
    const [least, most] = [Math.min(...depths), Math.max(...depths)];
    return least === most ? `${most} since bought fish` : `${least} to ${most} since bought fish`;
  }

  private async faults(lineId: string): Promise<string[]> {
    const rows: { reason: string; number: number; spawns: number }[] = await this.dataSource.query(
      `SELECT l.reason, sum(l.number)::int AS number, count(DISTINCT l.spawn_id)::int AS spawns
       FROM spawn_loss l JOIN spawn s ON s.id = l.spawn_id
       WHERE s.line_id = $1 AND l.heritable AND l.withdrawn_at IS NULL AND s.withdrawn_at IS NULL
       GROUP BY l.reason ORDER BY number DESC, l.reason`,
      [lineId],
    );
    return rows.map(({ reason, number, spawns }) => `${reason}: ${number} in ${spawns} spawns`);
  }

  private async genotypes(fishIds: string[]): Promise<{ items: string[]; warnings: string[] }> {
    const rows: { locusId: string; genotype: string; number: number }[] =
      await this.dataSource.query(
        `SELECT locus_id AS "locusId", genotype, count(*)::int AS number FROM genotype
         WHERE fish_id = ANY($1::uuid[]) AND withdrawn_at IS NULL
         GROUP BY locus_id, genotype ORDER BY locus_id, genotype`,
        [fishIds],
      );
    const known = await this.loci.all();
    const named = new Set(rows.map(({ locusId }) => locusId));
    const nameOf = (id: string): string => known.find((locus) => locus.id === id)?.name ?? id;
    return {
      items: rows.map(
        ({ locusId, genotype, number }) => `${nameOf(locusId)}: ${genotype} in ${number} fish`,
      ),
      warnings: known.filter((locus) => named.has(locus.id)).flatMap((locus) => locus.risks),
    };
  }

  private async outcrosses(lineId: string): Promise<string[]> {
    const rows: { tag: string; other: string; on: string | null }[] = await this.dataSource.query(
      `SELECT s.tag, p.tag AS other, s.spawned_on::text AS on FROM spawn s
       JOIN fish p ON p.id IN (s.sire_id, s.dam_id)
       WHERE s.line_id = $1 AND s.withdrawn_at IS NULL AND (
         p.line_id IS DISTINCT FROM s.line_id
         OR (p.spawn_id IS NULL AND EXISTS (
           SELECT 1 FROM fish q WHERE q.id IN (s.sire_id, s.dam_id) AND q.spawn_id IS NOT NULL)))
       ORDER BY s.spawned_on DESC NULLS LAST, s.tag`,
      [lineId],
    );
    return rows.map(({ tag, other, on }) => `${tag}${on === null ? '' : ` (${on})`} to ${other}`);
  }

  private expectSome<T>(list: T[], what: string): T[] {
    if (list.length === 0) {
      throw fieldError({
        field: what,
        message: `There is nothing to print: choose ${what} first.`,
      });
    }
    if (list.length > MOST_PRINTED) {
      throw fieldError({
        field: what,
        message: `More than ${MOST_PRINTED} ${what} at once: choose fewer.`,
      });
    }
    return list;
  }
}
