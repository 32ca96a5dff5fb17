import { type EntityManager, IsNull } from 'typeorm';
import type { Records } from './reads.js';
import { LocusSettingRow } from './rows/locus-setting.entity.js';
import { OwnLocusRow, OwnLocusVersionRow } from './rows/own-locus.entity.js';
import { thatStands } from './standing.js';

/** A genotype or a phenotype as it was written. */
export interface ValueAtLocus {
  readonly what: 'genotype' | 'phenotype';
  readonly value: string;
}

/** What standing records say of a locus, each value once. */
export const valuesAtLocus = (records: Records, locusId: string): Promise<ValueAtLocus[]> =>
  records.query(
    `SELECT 'genotype' AS what, genotype AS value FROM standing_genotype WHERE locus_id = $1
     UNION SELECT 'phenotype', phenotype FROM standing_phenotype WHERE locus_id = $1
     UNION SELECT 'phenotype', phenotype FROM standing_class_count WHERE $1 = ANY(locus_ids)
     UNION SELECT 'phenotype', phenotype FROM standing_spawn_loss WHERE locus_id = $1 AND phenotype IS NOT NULL`,
    [locusId],
  );

/** The person's own loci, oldest first; withdrawn ones say so in their definition. */
export const ownLoci = (manager: EntityManager): Promise<OwnLocusRow[]> =>
  manager.find(OwnLocusRow, { order: { createdAt: 'ASC', id: 'ASC' } });

/** By its short name. */
export const ownLocusNamed = (
  manager: EntityManager,
  locusId: string,
): Promise<OwnLocusRow | null> => manager.findOneBy(OwnLocusRow, { locusId });

/** Every version of a person's own locus, newest first. */
export const versionsOfLocus = (
  manager: EntityManager,
  ownLocusId: string,
): Promise<OwnLocusVersionRow[]> =>
  manager.find(OwnLocusVersionRow, { where: { ownLocusId }, order: { version: 'DESC' } });

/** Versions are only added: what was counted by an earlier one can still be read. */
export const addLocusVersion = async (
  manager: EntityManager,
  { id, definition }: OwnLocusRow,
  byName: string,
  at: Date,
): Promise<void> => {
  await manager.insert(OwnLocusVersionRow, {
    ownLocusId: id,
    version: definition.version,
    definition: definition as never,
    byName,
    at,
  });
};

/** What is set for loci and stands, for single lines too. */
export const locusSettings = (manager: EntityManager): Promise<LocusSettingRow[]> =>
  manager.find(LocusSettingRow, {
    where: thatStands,
    order: { locusId: 'ASC', createdAt: 'ASC' },
  });

/** What is set for a locus and stands, for a line or, without one, for all. */
export const locusSettingFor = (
  manager: EntityManager,
  locusId: string,
  lineId: string | null,
): Promise<LocusSettingRow | null> =>
  manager.findOneBy(LocusSettingRow, { locusId, lineId: lineId ?? IsNull(), ...thatStands });
