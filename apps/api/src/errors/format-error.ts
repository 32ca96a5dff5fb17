import { randomUUID } from 'node:crypto';
import type { GraphQLFormattedError } from 'graphql';
import { GraphQLError } from 'graphql';
import { Logger } from '@nestjs/common';
import { toldError } from './told-error.js';

const log = new Logger('errors');

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
