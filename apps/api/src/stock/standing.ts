import { IsNull } from 'typeorm';

/** Part of a `where` for rows of a repository: not withdrawn. In SQL the views `standing_…` say it. */
export const thatStands = { withdrawnAt: IsNull() };

/** SQL, where the table itself is read: the row under that name is not withdrawn. */
export const standingSql = (row: string): string => `${row}.withdrawn_at IS NULL`;

/** SQL: the row under that name is withdrawn. */
export const withdrawnSql = (row: string): string => `${row}.withdrawn_at IS NOT NULL`;

/** SQL: the view of a table's rows that are not withdrawn. */
export const standingView = (table: string): string => `"standing_${table}"`;
