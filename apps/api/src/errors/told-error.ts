import { QueryFailedError } from 'typeorm';
import { isDatabaseAway } from './database-away.js';
import { type ToldError, toldByCode } from './told-by-code.js';

/** The database's own door: SQLSTATE 42501, a row that a policy does not let in. */
const refusedByPolicy = (error: unknown): ToldError | null =>
  error instanceof QueryFailedError &&
  (error.driverError as { code?: unknown } | undefined)?.code === '42501' &&
  /row-level security/.test(error.message)
    ? {
        code: 'NOT_ALLOWED',
        message: 'Your account may not change these records: ask their owner.',
        details: {},
      }
    : null;

const databaseAway = (error: unknown): ToldError | null =>
  isDatabaseAway(error)
    ? {
        code: 'DATABASE_AWAY',
        message:
          'The database is away for a moment and is being started again. What was saved is kept; this was not: try again in a few seconds.',
        details: {},
      }
    : null;

/** PostgreSQL read a text as a UUID and could not: an id that was cut or mistyped, not a fault of the server. */
const notAnId = (error: unknown): ToldError | null => {
  const found =
    error instanceof QueryFailedError &&
    /^invalid input syntax for type uuid: "(.*)"$/.exec(error.message)?.[1];
  if (typeof found !== 'string') return null;
  const message = `"${found}" is not an id of a record: open the record from a list and try again.`;
  return { code: 'VALIDATION', message, details: { id: found } };
};

/** Errors that are answers, those of the database as well. */
export const toldError = (error: unknown): ToldError | null =>
  toldByCode(error) ?? notAnId(error) ?? refusedByPolicy(error) ?? databaseAway(error);
