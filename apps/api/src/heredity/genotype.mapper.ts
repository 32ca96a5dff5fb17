import type { GenotypeBasis } from '../graphql/enums.js';
import { toWithdrawal } from '../history/history.model.js';
import type { GenotypeRow } from './genotype.entity.js';
import type { GenotypeModel } from './genotype.model.js';

export const toGenotype = (row: GenotypeRow): GenotypeModel => ({
  id: row.id,
  locusId: row.locusId,
  genotype: row.genotype,
  basis: row.basis as GenotypeBasis,
  note: row.note,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  fishId: row.fishId,
});
