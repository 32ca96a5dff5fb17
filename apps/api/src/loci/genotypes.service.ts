import { randomUUID } from 'node:crypto';
import {
  findLocus,
  formatGenotype,
  type GenotypeSet,
  type Locus,
  parsePartialGenotype,
} from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { genotypeAt, standingGenotypes } from '../stock/genotype.loader.js';
import type { GenotypeRow } from '../stock/rows/genotype.entity.js';
import type { RecordGenotypeInput } from './genotype.model.js';
import { LociService } from './loci.service.js';
import { LocusSettingsService } from './locus-settings.service.js';
import { spellOut } from './partial-genotype.js';
import { fishRecord, genotypeRecord } from '../stock/record-types.js';

@Injectable()
export class GenotypesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly loci: LociService,
    private readonly settings: LocusSettingsService,
  ) {}

  /**
   * What the heredity lib takes: the genotype by locus, for each fish asked about. One known in part (`C/-`) is spelled
   * out by the allele frequencies set for the locus; records of a withdrawn locus are left out.
   */
  async setsOf(fishIds: string[]): Promise<Map<string, GenotypeSet>> {
    const [rows, loci, settings] = await Promise.all([
      standingGenotypes(this.dataSource.manager, fishIds),
      this.loci.all(),
      this.settings.list(),
    ]);
    const known = new Map<string, Locus>(
      loci.filter((one) => one.status === 'current').map((one) => [one.id, one]),
    );
    const sets = new Map<string, Record<string, GenotypeSet[string]>>(
      fishIds.map((id) => [id, {}]),
    );
    for (const row of rows) {
      const set = sets.get(row.fishId);
      const locus = known.get(row.locusId);
      if (set === undefined || locus === undefined) continue;
      const general = settings.find((one) => one.locusId === locus.id && one.lineId === null);
      set[row.locusId] = spellOut(locus, row.genotype, general?.frequencies ?? null);
    }
    return sets;
  }

  async record(input: RecordGenotypeInput, person: SignedInPerson): Promise<GenotypeRow> {
    const locus = findLocus(input.locusId, await this.loci.all());
    const possible = parsePartialGenotype(locus, input.genotype, input.notation ?? undefined);
    // Written another way, it is kept in our symbols; a partly known one can then only be what it may be.
    const ours =
      input.notation == null || possible.length !== 1
        ? input.genotype.trim()
        : possible.map((one) => formatGenotype(locus, one)).join('');
    if (input.notation != null && possible.length !== 1) {
      throw fieldError({
        field: 'genotype',
        message: `"${input.genotype}" is known in part only: write it in the symbols used here.`,
      });
    }
    return this.dataSource.transaction(async (m): Promise<GenotypeRow> => {
      await this.records.find(m, fishRecord, input.fishId);
      const fields = {
        genotype: ours,
        basis: input.basis,
        note: trimmed(input.note) ?? null,
      };
      const standing = await genotypeAt(m, input.fishId, locus.id);
      if (standing !== null) {
        return this.records.correct<GenotypeRow>(
          m,
          genotypeRecord,
          standing.id,
          input.revision ?? undefined,
          fields,
          person.name,
        );
      }
      const row = {
        id: input.id ?? randomUUID(),
        fishId: input.fishId,
        locusId: locus.id,
        ...fields,
      };
      return this.records.create<GenotypeRow>(m, genotypeRecord, row, person.name);
    });
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<GenotypeRow> {
    return this.dataSource.transaction((m) =>
      this.records.withdraw<GenotypeRow>(
        m,
        genotypeRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      ),
    );
  }
}
