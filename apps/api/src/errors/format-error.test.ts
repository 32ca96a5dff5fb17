import { GraphQLError } from 'graphql';
import { describe, expect, it } from 'vitest';
import { formatError } from './format-error.js';
import { RequestError } from './request-error.js';

const told = (error: GraphQLError, code?: string) =>
  formatError(
    { message: error.message, ...(code !== undefined && { extensions: { code } }) },
    error,
  ).extensions?.['code'];

describe('an error as the answer tells it', () => {
  it('is about the request where variables do not fit their types, whatever the server calls it', () => {
    const error = new GraphQLError('Field "colour" is not defined by type "CreateFishInput".');
    expect(told(error, 'INTERNAL_SERVER_ERROR')).toBe('BAD_USER_INPUT');
    expect(told(error)).toBe('BAD_USER_INPUT');
    expect(told(error, 'GRAPHQL_VALIDATION_FAILED')).toBe('GRAPHQL_VALIDATION_FAILED');
  });

  it('keeps its code where the program threw it', () => {
    const thrown = new RequestError('NOT_FOUND', 'No fish.');
    expect(told(new GraphQLError('No fish.', { originalError: thrown }))).toBe('NOT_FOUND');
  });
});
