import type { Records } from './reads.js';
import { type RecordMark, stateOf } from './records-state.js';

const MARKS: readonly RecordMark[] = [
  ...(['fish', 'spawn', 'genotype', 'phenotype', 'class_count', 'spawn_loss'] as const),
  ...(['spawn_count', 'spawn_event', 'own_locus', 'locus_setting', 'score'] as const),
  ...(['trait_definition', 'trait_model', 'scoring_draw', 'line_purpose'] as const),
  // Names of lines and people stand in the words of warnings.
  ...(['line_named', 'person_named'] as const),
];

/** Names the state of all records that pairs are judged by. */
export const judgingState = (records: Records): Promise<string> => stateOf(records, MARKS);
