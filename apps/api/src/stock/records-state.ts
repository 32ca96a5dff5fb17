import type { Records } from './reads.js';

/** Tables of which any change counts. */
type MarkedTable =
  | 'fish'
  | 'spawn'
  | 'genotype'
  | 'phenotype'
  | 'class_count'
  | 'spawn_loss'
  | 'spawn_count'
  | 'spawn_event'
  | 'own_locus'
  | 'locus_setting'
  | 'score'
  | 'trait_definition'
  | 'trait_model'
  | 'scoring_draw'
  | 'line_purpose';

/** Tables of which the columns count that give a record its name and its place, and losses that are told to be of a look. */
type MarkedColumns =
  | 'fish_named'
  | 'spawn_named'
  | 'line_named'
  | 'person_named'
  | 'spawn_loss_of_look';

export type RecordMark = MarkedTable | MarkedColumns;

/*
 * Triggers leave a mark of random weight in the transaction of each change, so the sums differ whenever any of it does, whichever process
 * made the change. Who sees a part of the records only has states of its own. The pedigree's revision is always part of it.
 */
const STATE = `
  SELECT md5(concat_ws('|',
    (SELECT pedigree_revision FROM install_state WHERE id = 1),
    CASE WHEN door_open() THEN concat('whole', door_kept_apart()) ELSE concat(door_account(), door_kept(),
      (SELECT string_agg(g::text, ' ' ORDER BY line_id) FROM line_grant g WHERE account_id = door_account())) END,
    (SELECT string_agg(kind || ' ' || total, '|' ORDER BY kind)
     FROM (SELECT kind, sum(weight) AS total FROM record_mark WHERE kind = ANY($1::text[]) GROUP BY kind) t))) AS state`;

/**
 * Names the state of records of some kinds, as it is now.
 *
 * Cost: one statement over at most some hundred marks a kind, however many records there are.
 */
export const stateOf = async (records: Records, marks: readonly RecordMark[]): Promise<string> => {
  const [row] = (await records.query(STATE, [marks])) as { state: string }[];
  return row?.state ?? '';
};
