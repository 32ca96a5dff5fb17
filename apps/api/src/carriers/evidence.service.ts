import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { LociService } from '../loci/loci.service.js';
import { LocusSettingsService } from '../loci/locus-settings.service.js';
import { hiddenParent, hiddenParentTag, pedigreeOfRows } from '../kinship/hidden-parents.js';
import { stateOfPart } from '../kinship/pedigree-part.js';
import type { LocusEvidence, StockEvidence } from './evidence.js';
import { type EvidenceRows, readEvidenceRows, readState } from '../stock/evidence-rows.js';
import { locusEvidence } from './locus-evidence.js';

/** Reads the records behind carrier probabilities, all from one state of the database, and keeps the last state read. */
@Injectable()
export class EvidenceService {
  private held: { state: string; stock: Promise<StockEvidence> } | null = null;

  constructor(
    private readonly dataSource: DataSource,
    private readonly loci: LociService,
    private readonly settings: LocusSettingsService,
  ) {}

  state(): Promise<string> {
    return readState(this.dataSource.manager);
  }

  async stock(): Promise<StockEvidence> {
    const state = await this.state();
    if (this.held?.state === state) return this.held.stock;
    const stock = this.read();
    this.held = { state, stock };
    try {
      const read = await stock;
      // A change between the two reads: what was read is kept under the state it was read from.
      if (this.held.stock === stock) this.held = { state: read.state, stock };
    } catch (error) {
      this.held = null;
      throw error;
    }
    return stock;
  }

  private read(): Promise<StockEvidence> {
    return this.dataSource.transaction('REPEATABLE READ', async (m) => {
      const rows = await readEvidenceRows(m);
      const loci = await this.loci.all(m);
      const settings = await this.settings.list(m);
      const pedigree = pedigreeOfRows(rows.fish);
      const parentage = stateOfPart(pedigree);
      const inPedigree = new Set(pedigree.ids);
      const byLocus = new Map<string, LocusEvidence>();
      const notComputed: StockEvidence['notComputed'][number][] = [];
      for (const id of namedLoci(rows)) {
        const locus = loci.find((one) => one.id === id);
        if (locus === undefined) {
          notComputed.push({
            locusId: id,
            name: id,
            code: 'LOCUS_UNKNOWN',
            reason: `"${id}" is no locus known here: define it under Loci.`,
          });
        } else if (locus.status === 'withdrawn') {
          notComputed.push({
            locusId: id,
            name: locus.name,
            code: 'LOCUS_WITHDRAWN',
            reason: `${locus.name} was withdrawn, and records still use it: restore it, or move its records to another locus.`,
          });
        } else if (!locus.computable) {
          notComputed.push({
            locusId: id,
            name: locus.name,
            code: 'LOCUS_NOT_COMPUTABLE',
            reason: locus.whyNot ?? 'Recorded only.',
          });
        } else byLocus.set(id, keyed(locusEvidence(locus, rows, settings, inPedigree), parentage));
      }
      return {
        state: rows.state,
        pedigree,
        lineOf: new Map(rows.fish.map((one) => [one.id, one.lineId])),
        spawnOf: new Map(rows.fish.map((one) => [one.id, one.spawnId])),
        tags: tagsOf(rows.fish, pedigree.ids),
        byLocus,
        notComputed,
      };
    });
  }
}

const tagsOf = (fish: EvidenceRows['fish'], ids: readonly string[]): Map<string, string> => {
  const tags = new Map(fish.map((one) => [one.id, one.tag]));
  const spawns = new Map(fish.map((one) => [one.spawnId, one.spawnTag]));
  for (const id of ids) {
    const hidden = hiddenParent(id);
    if (hidden !== null) {
      tags.set(id, hiddenParentTag(hidden.role, spawns.get(hidden.spawnId) ?? hidden.spawnId));
    }
  }
  return tags;
};

const digest = (value: unknown): string =>
  createHash('sha256').update(JSON.stringify(value)).digest('hex').slice(0, 32);

const keyed = (evidence: Omit<LocusEvidence, 'key' | 'base'>, parentage: string): LocusEvidence => {
  const base = digest([parentage, evidence.locus, evidence.founders]);
  return { ...evidence, base, key: digest([base, evidence.records.map((one) => one.evidence)]) };
};

const namedLoci = (rows: EvidenceRows): string[] =>
  [
    ...new Set([
      ...rows.genotypes.map((one) => one.locusId),
      ...rows.seen.map((one) => one.locusId),
      ...rows.counts.flatMap((one) => one.locusIds),
      ...rows.culls.map((one) => one.locusId),
    ]),
  ].sort();
