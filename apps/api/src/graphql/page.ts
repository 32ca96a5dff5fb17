import { Args, Field, Int, ObjectType } from '@nestjs/graphql';
import { RequestError } from '../errors/request-error.js';

@ObjectType({ description: 'Where a page of a list ends.' })
export class PageInfo {
  @Field(() => Boolean, { description: 'True when more follow.' })
  hasNextPage: boolean;

  @Field(() => String, { nullable: true, description: 'Give it as `after` to get the next page.' })
  endCursor: string | null;
}

export const LARGEST_PAGE = 200;

/** How many rows of a list are asked for. */
export const First = (defaultValue = 50): ParameterDecorator =>
  Args('first', { type: () => Int, defaultValue, description: 'How many.' });

/** Where the page before ended; null begins the list. */
export const After = (): ParameterDecorator =>
  Args('after', { type: () => String, nullable: true, description: 'Cursor to start behind.' });

/** A cursor holds the sort key and the id of its row, so that a page starts where the last one ended whatever was added meanwhile. */
export const writeCursor = (key: string | null, id: string): string =>
  Buffer.from(JSON.stringify([key, id])).toString('base64url');

export const readCursor = (cursor: string): { key: string | null; id: string } => {
  try {
    const value: unknown = JSON.parse(Buffer.from(cursor, 'base64url').toString());
    if (Array.isArray(value) && value.length === 2 && typeof value[1] === 'string') {
      return { key: value[0] as string | null, id: value[1] };
    }
  } catch {
    // fall through to the one message below
  }
  throw new RequestError(
    'CURSOR_INVALID',
    `"${cursor}" is not a cursor of this list: start again without "after".`,
  );
};

export const pageSize = (first: number): number => {
  if (!Number.isInteger(first) || first < 1 || first > LARGEST_PAGE) {
    throw new RequestError(
      'VALIDATION',
      `"first" is ${first}: give a whole number from 1 to ${LARGEST_PAGE}.`,
    );
  }
  return first;
};
