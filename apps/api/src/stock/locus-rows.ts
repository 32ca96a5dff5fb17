import type { Records } from './reads.js';

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
