import type { Records } from './reads.js';
import { columnsSql, revisionsSql, stateOf, stateSql } from './records-state.js';

const STATE = stateSql(
  revisionsSql('fish', 'spawn', 'genotype', 'phenotype', 'class_count', 'spawn_loss'),
  revisionsSql('spawn_count', 'spawn_event', 'own_locus', 'locus_setting', 'score'),
  revisionsSql('trait_definition', 'trait_model', 'scoring_draw'),
  columnsSql('line_purpose', 'line_id', 'version'),
  columnsSql('fish', 'id', 'line_id', 'swims_with_id'),
  // Names of lines and people stand in the words of warnings.
  columnsSql('line', 'id', 'name', 'withdrawn_at'),
  columnsSql('keeper', 'id', 'name'),
);

/** Names the state of all records that pairs are judged by. */
export const judgingState = (records: Records): Promise<string> => stateOf(records, STATE);
