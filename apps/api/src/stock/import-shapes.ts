import type { Repairs } from '@linewright/repair';
import type { Records } from './reads.js';
import type { ColumnChoice } from './rows/import-column-choice.js';

/** What was decided about the last file with the same columns. */
export interface RememberedShape {
  readonly fileName: string;
  readonly at: Date;
  readonly columns: readonly ColumnChoice[];
  readonly repairs: Repairs;
}

/** What a person decided about the last file of a shape; `null` for a new shape. */
export const rememberedShape = async (
  records: Records,
  personId: string,
  shape: string,
): Promise<RememberedShape | null> => {
  const [found] = (await records.query(
    `SELECT file_name AS "fileName", at, columns, repairs FROM import_shape WHERE person_id = $1 AND shape = $2`,
    [personId, shape],
  )) as RememberedShape[];
  return found ?? null;
};

/** Notes it for the next file, in place of what was noted before. */
export const rememberShape = (
  records: Records,
  personId: string,
  shape: string,
  { fileName, at, columns, repairs }: RememberedShape,
): Promise<unknown> =>
  records.query(
    `INSERT INTO import_shape (person_id, shape, file_name, at, columns, repairs) VALUES ($1, $2, $3, $4, $5, $6)
     ON CONFLICT (person_id, shape) DO UPDATE SET file_name = $3, at = $4, columns = $5, repairs = $6`,
    [personId, shape, fileName, at, JSON.stringify(columns), JSON.stringify(repairs)],
  );
