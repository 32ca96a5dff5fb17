import type { Records } from './reads.js';

const REVISED = [
  ...[
    'fish',
    'spawn',
    'genotype',
    'phenotype',
    'class_count',
    'spawn_loss',
    'spawn_count',
    'spawn_event',
  ],
  ...['own_locus', 'locus_setting', 'score', 'trait_definition', 'trait_model', 'scoring_draw'],
];

/**
 * Names the state of all records that pairs are judged by. Rows are never deleted and each change raises a row's revision, so the sums of
 * hashes differ whenever any of it does, whichever process made the change. Names of lines and people stand in the words of warnings.
 */
const STATE = `
  SELECT md5(concat_ws('|', (SELECT pedigree_revision FROM install_state WHERE id = 1), ${REVISED.map(
    (table) => `(SELECT sum(hashtextextended(id::text || revision, 0)::numeric) FROM ${table})`,
  ).join(', ')},
    (SELECT sum(hashtextextended(line_id::text || version, 0)::numeric) FROM line_purpose),
    (SELECT sum(hashtextextended(concat_ws('|', id, line_id, swims_with_id), 0)::numeric) FROM fish),
    (SELECT sum(hashtextextended(concat_ws('|', id, name, withdrawn_at), 0)::numeric) FROM line),
    (SELECT sum(hashtextextended(concat_ws('|', id, name), 0)::numeric) FROM keeper))) AS state`;

export const judgingState = async (records: Records): Promise<string> => {
  const [row] = (await records.query(STATE)) as { state: string }[];
  return row?.state ?? '';
};
