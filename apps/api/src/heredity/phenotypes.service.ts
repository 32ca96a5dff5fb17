import { daysBetween } from '@linewright/care';
import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { expectDayHappened } from '../clock/expect-happened.js';
import { trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { LociService } from '../loci/loci.service.js';
import type { PhenotypeRow } from '../stock/rows/phenotype.entity.js';
import type { RecordPhenotypeInput } from './phenotype.model.js';
import { readPhenotype } from '../loci/phenotype-reading.js';
import { fishRecord, phenotypeRecord } from '../stock/record-types.js';

@Injectable()
export class PhenotypesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly loci: LociService,
    private readonly clock: Clock,
  ) {}

  async record(input: RecordPhenotypeInput, person: SignedInPerson): Promise<PhenotypeRow> {
    expectDayHappened(this.clock, 'seenOn', input.seenOn);
    const locus = await this.loci.find(input.locusId);
    const phenotype = readPhenotype(locus, input.phenotype);
    return this.dataSource.transaction(async (m): Promise<PhenotypeRow> => {
      const fish = await this.records.find(m, fishRecord, input.fishId);
      if (fish.withdrawnAt !== null) {
        throw fieldError({ field: 'fishId', message: `${fish.tag} was withdrawn.` });
      }
      const ageDays =
        fish.hatchDate === null
          ? (input.ageDays ?? null)
          : daysBetween(fish.hatchDate, input.seenOn);
      if (ageDays !== null && ageDays < 0) {
        throw fieldError({
          field: 'seenOn',
          message: `${fish.tag} had not hatched on ${input.seenOn}: correct the day.`,
        });
      }
      const row = {
        id: input.id ?? randomUUID(),
        fishId: fish.id,
        locusId: locus.id,
        phenotype: phenotype.id,
        seenOn: input.seenOn,
        ageDays,
        note: trimmed(input.note) ?? null,
      };
      return this.records.create<PhenotypeRow>(m, phenotypeRecord, row, person.name);
    });
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<PhenotypeRow> {
    return this.dataSource.transaction((m) =>
      this.records.withdraw<PhenotypeRow>(
        m,
        phenotypeRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      ),
    );
  }
}
