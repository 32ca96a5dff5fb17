import { generationDepth, type InbreedingBasis } from '@linewright/pedigree';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError, notFound } from '../errors/request-error.js';
import {
  factsOfLines,
  factsOfSpawns,
  fishOfLine,
  genotypesCounted,
  heritableLosses,
  labelsHere,
  labelsOfFish,
  labelsOfVessels,
  type LineFacts,
  type LineFish,
  outcrossesOf,
  type SpawnFacts,
} from '../stock/printed-rows.js';
import { compareTags } from '../stock/tag-order.js';
import { LociService } from '../loci/loci.service.js';
import { FishNames } from '../kinship/fish-names.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import type { Card } from './cards.js';
import type { JarLabel } from './jar-label.js';

export const MOST_PRINTED = 1_000;

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
    private readonly names: FishNames,
    private readonly loci: LociService,
  ) {}

  /** Of the named fish in the order given, or of a spawn's or line's fish that are still here, by tag. */
  async jarLabels(which: {
    fishIds: readonly string[];
    spawnId?: string;
    lineId?: string;
  }): Promise<JarLabel[]> {
    const here = (of: 'spawn_id' | 'line_id', id: string) =>
      labelsHere(this.dataSource, of, id, MOST_PRINTED + 1);
    const rows =
      which.spawnId !== undefined
        ? await here('spawn_id', which.spawnId)
        : which.lineId !== undefined
          ? await here('line_id', which.lineId)
          : await labelsOfFish(this.dataSource, which.fishIds);
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

  /** Of the named vessels, or of all in use. */
  async vesselLabels(personId: string, ids: readonly string[]): Promise<JarLabel[]> {
    const rows = await labelsOfVessels(this.dataSource, personId, ids, MOST_PRINTED + 1);
    return this.expectSome(rows, 'vessels');
  }

  async spawnCards(ids: readonly string[]): Promise<Card[]> {
    const rows = await factsOfSpawns(this.dataSource, ids);
    const list = await Promise.all(rows.map((row) => this.spawnCard(row)));
    return this.expectSome(list, 'spawns');
  }

  async lineCards(ids: readonly string[]): Promise<Card[]> {
    const lines = await factsOfLines(this.dataSource, ids);
    return this.expectSome(await Promise.all(lines.map((line) => this.lineCard(line))), 'lines');
  }

  private async spawnCard(row: SpawnFacts): Promise<Card> {
    const inbreeding = await this.pedigrees.inbreedingOfBrood(row.sireId, row.damId);
    const basis = await this.pedigrees.basisOfBrood(row.sireId, row.damId);
    const parents = [row.sireId, row.damId].filter((id) => id !== null);
    const names = await this.names.of(parents);
    const nameOf = (id: string | null): string =>
      id === null ? 'unknown' : (names.get(id)?.tag ?? 'unknown');
    return {
      kind: 'Spawn',
      title: row.tag,
      path: `/spawns/${row.id}`,
      facts: [
        ['Sire', nameOf(row.sireId)],
        ['Dam', nameOf(row.damId)],
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

  private async lineCard(line: LineFacts): Promise<Card> {
    const fish = await fishOfLine(this.dataSource, line.id);
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
    const rows = await heritableLosses(this.dataSource, lineId);
    return rows.map(({ reason, number, spawns }) => `${reason}: ${number} in ${spawns} spawns`);
  }

  private async genotypes(fishIds: string[]): Promise<{ items: string[]; warnings: string[] }> {
    const rows = await genotypesCounted(this.dataSource, fishIds);
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
    const rows = await outcrossesOf(this.dataSource, lineId);
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
