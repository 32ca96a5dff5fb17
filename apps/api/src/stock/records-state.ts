import type { Records } from './reads.js';

/**
 * A statement that names the state of some records. Rows are never deleted and each change raises a row's revision, so the sums of hashes
 * differ whenever any of it does, whichever process made the change. The pedigree's revision is always part of it.
 */
export const stateSql = (...parts: string[]): string =>
  `SELECT md5(concat_ws('|', (SELECT pedigree_revision FROM install_state WHERE id = 1), ${parts.join(', ')})) AS state`;

/** Rows by their revisions; each source is a table, with a condition where not all of its rows count. */
export const revisionsSql = (...sources: string[]): string =>
  sources.map((source) => sumOfHashes('id::text || revision', source)).join(', ');

/** Rows by some of their columns: for a table without revisions, or where only these columns count. */
export const columnsSql = (table: string, ...columns: string[]): string =>
  sumOfHashes(`concat_ws('|', ${columns.join(', ')})`, table);

const sumOfHashes = (text: string, source: string): string =>
  `(SELECT sum(hashtextextended(${text}, 0)::numeric) FROM ${source})`;

export const stateOf = async (records: Records, sql: string): Promise<string> => {
  const [row] = (await records.query(sql)) as { state: string }[];
  return row?.state ?? '';
};
