import { randomUUID } from 'node:crypto';
import { HeredityError, type Locus } from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { RecordStore } from '../stock/record-store.js';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { locusSettingFor, locusSettings } from '../stock/locus-rows.js';
import { LociService } from './loci.service.js';
import type { LocusSettingRow } from '../stock/rows/locus-setting.entity.js';
import type { AlleleFrequencyInput, SetLocusSettingInput } from './own-locus.model.js';
import { lineRecord, locusSettingRecord } from '../stock/record-types.js';

/** Without a setting: one fish in a hundred is put into a wrong class. */
export const MIS_SCORING = 0.01;

const readFrequencies = (locus: Locus, inputs: AlleleFrequencyInput[]): Record<string, number> => {
  const read: Record<string, number> = {};
  for (const { alleleId, frequency } of inputs) {
    const allele = locus.alleles.find((one) => one.id === alleleId || one.symbol === alleleId);
    if (allele === undefined) {
      throw new HeredityError(
        'ALLELE_UNKNOWN',
        `"${alleleId}" is not an allele of ${locus.name}: give one of ${locus.alleles.map((one) => one.symbol).join(', ')}.`,
      );
    }
    if (!(frequency >= 0 && frequency <= 1)) {
      throw new HeredityError(
        'PROBABILITY_OUT_OF_RANGE',
        `${frequency} is not a frequency of ${allele.symbol}: give a number from 0 to 1.`,
      );
    }
    read[allele.id] = frequency;
  }
  const sum = Object.values(read).reduce((a, b) => a + b, 0);
  if (Object.keys(read).length !== locus.alleles.length || Math.abs(sum - 1) > 1e-9) {
    throw new HeredityError(
      'PROBABILITIES_NOT_ONE',
      `The frequencies of the alleles of ${locus.name} sum to ${sum}: give one for each allele, summing to 1.`,
    );
  }
  return read;
};

@Injectable()
export class LocusSettingsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly loci: LociService,
  ) {}

  list(manager: EntityManager = this.dataSource.manager): Promise<LocusSettingRow[]> {
    return locusSettings(manager);
  }

  async set(input: SetLocusSettingInput, person: SignedInPerson): Promise<LocusSettingRow> {
    const locus = await this.loci.find(input.locusId);
    const frequencies = input.frequencies?.length
      ? readFrequencies(locus, input.frequencies)
      : null;
    const misScoring = input.misScoring ?? null;
    if (misScoring !== null && !(misScoring >= 0 && misScoring <= 0.5)) {
      throw new HeredityError(
        'PROBABILITY_OUT_OF_RANGE',
        `${misScoring} is not a share of fish misread: give a number from 0 to 0.5.`,
      );
    }
    const lineId = input.lineId ?? null;
    return this.dataSource.transaction(async (m) => {
      // One setting a line and locus: two saved at once wait for each other here.
      await m.query('SELECT pg_advisory_xact_lock(7040022, hashtext($1))', [
        `${lineId ?? ''} ${locus.id}`,
      ]);
      if (lineId !== null && (await this.records.standing(m, lineRecord, lineId)) === null) {
        throw fieldError({ field: 'lineId', message: `There is no line ${lineId}.` });
      }
      const standing = await locusSettingFor(m, locus.id, lineId);
      if (standing !== null) {
        return this.records.correct<LocusSettingRow>(
          m,
          locusSettingRecord,
          standing.id,
          undefined,
          { frequencies, misScoring },
          person.name,
        );
      }
      const row = { id: randomUUID(), locusId: locus.id, lineId, frequencies, misScoring };
      return this.records.create<LocusSettingRow>(m, locusSettingRecord, row, person.name);
    });
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<LocusSettingRow> {
    return this.dataSource.transaction((m) =>
      this.records.withdraw<LocusSettingRow>(
        m,
        locusSettingRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      ),
    );
  }
}
