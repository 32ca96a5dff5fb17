import { randomUUID } from 'node:crypto';
import type { GraphQLFormattedError } from 'graphql';
import { GraphQLError } from 'graphql';
import { Logger } from '@nestjs/common';
import { CareError } from '@linewright/care';
import { HeredityError } from '@linewright/heredity';
import { KinshipError } from '@linewright/kinship';
import { MatingError } from '@linewright/mating';
import { MeritError } from '@linewright/merit';
import { PedigreeError } from '@linewright/pedigree';
import { QueryFailedError } from 'typeorm';
import { isDatabaseAway } from './database-away.js';
import { RequestError } from './request-error.js';

const log = new Logger('errors');

interface Told {
  readonly code: string;
  readonly message: string;
  readonly details: Readonly<Record<string, unknown>>;
}

/** Errors that are answers: raised by the API or a lib with a code of their own. */
export const toldError = (error: unknown): Told | null => {
  if (error instanceof RequestError)
    return { code: error.code, message: error.message, details: error.details };
  if (
    error instanceof PedigreeError ||
    error instanceof KinshipError ||
    error instanceof HeredityError ||
    error instanceof MatingError ||
    error instanceof CareError ||
    error instanceof MeritError
  ) {
    const details = error instanceof HeredityError ? error.details : {};
    return { code: error.code, message: error.message, details };
  }
  return notAnId(error) ?? refusedByPolicy(error) ?? databaseAway(error);
};

/** The database's own door: SQLSTATE 42501, a row that a policy does not let in. */
const refusedByPolicy = (error: unknown): Told | null =>
  error instanceof QueryFailedError &&
  (error.driverError as { code?: unknown } | undefined)?.code === '42501' &&
  /row-level security/.test(error.message)
    ? {
        code: 'NOT_ALLOWED',
        message: 'Your account may not change these records: ask their owner.',
        details: {},
      }
    : null;

const databaseAway = (error: unknown): Told | null =>
  isDatabaseAway(error)
    ? {
        code: 'DATABASE_AWAY',
        message:
          'The database is away for a moment and is being started again. What was saved is kept; this was not: try again in a few seconds.',
        details: {},
      }
    : null;

/** PostgreSQL read a text as a UUID and could not: an id that was cut or mistyped, not a fault of the server. */
const notAnId = (error: unknown): Told | null => {
  const found =
    error instanceof QueryFailedError &&
    /^invalid input syntax for type uuid: "(.*)"$/.exec(error.message)?.[1];
  if (typeof found !== 'string') return null;
  const message = `"${found}" is not an id of a record: open the record from a list and try again.`;
  return { code: 'VALIDATION', message, details: { id: found } };
};

const originalOf = (error: unknown): unknown => {
  let at = error;
  while (at instanceof GraphQLError && at.originalError !== undefined && at.originalError !== null)
    at = at.originalError;
  return at;
};

/** Malformed requests: GraphQL's own words and code are right for them. */
const codesOfGraphql = new Set([
  'GRAPHQL_PARSE_FAILED',
  'GRAPHQL_VALIDATION_FAILED',
  'BAD_USER_INPUT',
  'BAD_REQUEST',
  'OPERATION_RESOLUTION_FAILURE',
  'PERSISTED_QUERY_NOT_FOUND',
  'QUERY_TOO_COSTLY',
  'ANSWER_TOO_LARGE',
  'VALIDATION',
]);

/** The one place where errors become `extensions.code`; anything unexpected is logged under an id and masked. */
export const formatError = (
  formatted: GraphQLFormattedError,
  error: unknown,
): GraphQLFormattedError => {
  const original = originalOf(error);
  const told = toldError(original);
  const place = {
    ...(formatted.path && { path: formatted.path }),
    ...(formatted.locations && { locations: formatted.locations }),
  };
  if (told !== null) {
    return { message: told.message, ...place, extensions: { code: told.code, ...told.details } };
  }
  const code = formatted.extensions?.['code'];
  const known = typeof code === 'string' && codesOfGraphql.has(code) ? code : null;
  if (known !== null || original instanceof GraphQLError) {
    // GraphQL's own error with nothing behind it is about the request: variables that do not fit their types.
    const extensions = { code: known ?? 'BAD_USER_INPUT' };
    return { message: formatted.message, ...place, extensions };
  }
  const id = randomUUID();
  log.error(
    `${id} ${original instanceof Error ? (original.stack ?? original.message) : String(original)}`,
  );
  return {
    message: `Something went wrong here, not with what you sent. Details are in the server's log under ${id}.`,
    ...place,
    extensions: { code: 'INTERNAL', id },
  };
};
