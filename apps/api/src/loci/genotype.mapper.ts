import type { GenotypeBasis } from '../graphql/enums.js';
import { toWithdrawal } from '../shapes/history.model.js';
import type { GenotypeRow } from '../stock/rows/genotype.entity.js';
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
