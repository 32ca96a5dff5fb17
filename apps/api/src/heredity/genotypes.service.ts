import { randomUUID } from 'node:crypto';
import { type GenotypeSet, findLocus, parsePartialGenotype } from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { DataSource, In, IsNull } from 'typeorm';
import { trimmed } from '../database/given.js';
import { RecordStore, type RecordType } from '../database/record-store.js';
import { fishRecord } from '../fish/fish.service.js';
import type { SignedInKeeper } from '../graphql/request-context.js';
import { rowsByOwner } from '../graphql/row-loader.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { GenotypeRow } from './genotype.entity.js';
import type { RecordGenotypeInput } from './genotype.model.js';

const genotypeRecord: RecordType<GenotypeRow> = {
  target: GenotypeRow,
  kind: 'genotype',
  word: 'genotype',
};

@Injectable()
export class GenotypesService {
  readonly byFish;

  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {
    this.byFish = rowsByOwner(
      (ids) => this.inForce(ids),
      (row) => row.fishId,
    );
  }

  inForce(fishIds: string[]): Promise<GenotypeRow[]> {
    return this.dataSource.getRepository(GenotypeRow).find({
      where: { fishId: In(fishIds), withdrawnAt: IsNull() },
      order: { locusId: 'ASC' },
    });
  }

  /** What the heredity lib takes: genotype text by locus, for each fish asked about. */
  async setsOf(fishIds: string[]): Promise<Map<string, GenotypeSet>> {
    const sets = new Map<string, Record<string, string>>(fishIds.map((id) => [id, {}]));
    for (const row of await this.inForce(fishIds)) {
      const set = sets.get(row.fishId);
      if (set !== undefined) set[row.locusId] = row.genotype;
    }
    return sets;
  }

  record(input: RecordGenotypeInput, keeper: SignedInKeeper): Promise<GenotypeRow> {
    const locus = findLocus(input.locusId);
    parsePartialGenotype(locus, input.genotype);
    return this.dataSource.transaction(async (m): Promise<GenotypeRow> => {
      await this.records.find(m, fishRecord, input.fishId);
      const fields = {
        genotype: input.genotype.trim(),
        basis: input.basis,
        note: trimmed(input.note) ?? null,
      };
      const standing = await m.findOneBy(GenotypeRow, {
        fishId: input.fishId,
        locusId: locus.id,
        withdrawnAt: IsNull(),
      });
      if (standing !== null) {
        return this.records.correct<GenotypeRow>(
          m,
          genotypeRecord,
          standing.id,
          input.revision ?? undefined,
          fields,
          keeper.name,
        );
      }
      const row = {
        id: input.id ?? randomUUID(),
        fishId: input.fishId,
        locusId: locus.id,
        ...fields,
      };
      return this.records.create<GenotypeRow>(m, genotypeRecord, row, keeper.name);
    });
  }

  withdraw(input: WithdrawInput, keeper: SignedInKeeper): Promise<GenotypeRow> {
    return this.dataSource.transaction((m) =>
      this.records.withdraw<GenotypeRow>(
        m,
        genotypeRecord,
        input.id,
        input.reason,
        keeper.name,
        input.revision,
      ),
    );
  }
}
