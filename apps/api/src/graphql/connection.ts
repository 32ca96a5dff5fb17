import type { Type } from '@nestjs/common';
import { Field, type FieldMiddleware, Int, ObjectType } from '@nestjs/graphql';
import { type KeysetPage, totalOf } from './keyset.js';
import { PageInfo } from './page.js';

export interface Connection<Node> {
  edges: { cursor: string; node: Node }[];
  pageInfo: PageInfo;
  totalCount: KeysetPage<unknown>['totalCount'];
}

/** Counts only where the total is asked for. */
const counted: FieldMiddleware = async (_context, next) =>
  totalOf({ totalCount: (await next()) as KeysetPage<unknown>['totalCount'] });

/**
 * GraphQL's shape of one page of a list, to be extended by a class of its own.
 *
 * @param name of the rows, singular: "PastImport" makes `PastImportEdge`.
 * @param what the rows are in words, plural.
 * @param total what the total counts, where that is not the rows of all pages.
 */
export const connectionOf = <Node>(
  node: Type<Node>,
  name: string,
  what: string,
  total = `How many ${what} there are on all pages.`,
): Type<Connection<Node>> => {
  @ObjectType(`${name}Edge`, { description: `One of the ${what}, with its cursor.` })
  class Edge {
    @Field(() => String, { description: 'Give it as `after` to start behind this one.' })
    cursor: string;

    @Field(() => node, { description: 'The row itself.' })
    node: Node;
  }

  @ObjectType({ isAbstract: true })
  class Page {
    @Field(() => [Edge], { description: `The ${what} of this page.` })
    edges: Edge[];

    @Field(() => PageInfo, { description: 'Whether more follow.' })
    pageInfo: PageInfo;

    @Field(() => Int, { description: total, middleware: [counted] })
    totalCount: KeysetPage<unknown>['totalCount'];
  }
  return Page;
};

/** The same page with every row mapped. */
export const mapPage = <Row, Node>(
  page: KeysetPage<Row>,
  map: (row: Row) => Node,
): Connection<Node> => ({
  ...page,
  edges: page.edges.map(({ cursor, node }) => ({ cursor, node: map(node) })),
});
