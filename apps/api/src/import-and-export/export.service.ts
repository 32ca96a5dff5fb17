import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { SignedInPerson } from '../graphql/request-context.js';
import { fishToExport } from '../stock/import-and-export-rows.js';
import { expectLines } from '../stock/line-rows.js';
import { latestScores, namesOfTraits } from '../stock/score-rows.js';
import { pedigreeCsv } from './export-pedigree.js';

/** Pedigree files out. */
@Injectable()
export class ExportService {
  constructor(private readonly dataSource: DataSource) {}

  /** The pedigree as CSV in pieces; with a line, its fish and the ancestors they need. */
  async pedigree(person: SignedInPerson, lineId?: string): Promise<Generator<string>> {
    return this.dataSource.transaction('REPEATABLE READ', async (manager) => {
      if (lineId !== undefined) await expectLines(manager, [lineId]);
      const fish = await fishToExport(manager, person.id, lineId ?? null);
      const scores = await latestScores(
        manager,
        fish.map((one) => one.id),
      );
      const traits = await namesOfTraits(manager, [...new Set(scores.map((s) => s.traitId))]);
      return pedigreeCsv(fish, traits, scores);
    });
  }
}
