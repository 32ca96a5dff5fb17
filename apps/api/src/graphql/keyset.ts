import { AsyncResource } from 'node:async_hooks';
import type { ObjectLiteral, SelectQueryBuilder } from 'typeorm';
import { pageSize, readCursor, writeCursor } from './page.js';

export interface KeysetPage<Row> {
  readonly edges: { cursor: string; node: Row }[];
  readonly pageInfo: { hasNextPage: boolean; endCursor: string | null };
  /** Of rows in a table counted when it is asked for alone: that takes longer than a page. */
  readonly totalCount: number | (() => Promise<number>);
}

export interface KeysetOrder {
  /** SQL of the sort key; must never be NULL (coalesce it), so that every row has its place. */
  readonly key: string;
  readonly direction: 'ASC' | 'DESC';
  /** SQL type to cast the cursor's key to. */
  readonly type: string;
}

/** One page of `query` in `order`, ties broken by id; the count is of the whole filtered list, and made when GraphQL asks for it. */
export const keysetPage = async <Row extends ObjectLiteral & { id: string }>(
  query: SelectQueryBuilder<Row>,
  alias: string,
  order: KeysetOrder,
  first: number,
  after: string | undefined,
): Promise<KeysetPage<Row>> => {
  const size = pageSize(first);
  const all = query.clone();
  if (after !== undefined) {
    const { key, id } = readCursor(after);
    const sign = order.direction === 'ASC' ? '>' : '<';
    query.andWhere(
      `(${order.key}, ${alias}.id) ${sign} (CAST(:afterKey AS ${order.type}), CAST(:afterId AS uuid))`,
      {
        afterKey: key,
        afterId: id,
      },
    );
  }
  query
    .addSelect(`CAST(${order.key} AS text)`, 'keyset_key')
    .orderBy(order.key, order.direction)
    .addOrderBy(`${alias}.id`, order.direction)
    .limit(size + 1);
  const { entities, raw } = await query.getRawAndEntities<{ keyset_key: string | null }>();
  const edges = entities
    .slice(0, size)
    .map((node, i) => ({ cursor: writeCursor(raw[i]?.keyset_key ?? null, node.id), node }));
  return {
    edges,
    pageInfo: { hasNextPage: entities.length > size, endCursor: edges.at(-1)?.cursor ?? null },
    // For whoever the page was read for.
    totalCount: AsyncResource.bind(() => all.getCount()),
  };
};

/** The total of a page, counted now where it was not yet. */
export const totalOf = async ({ totalCount }: Pick<KeysetPage<unknown>, 'totalCount'>) =>
  typeof totalCount === 'function' ? totalCount() : totalCount;

/** A page that was read within a transaction, with its total: after the transaction there is nobody left to count. */
export const countedPage = async <Row>(page: KeysetPage<Row>): Promise<KeysetPage<Row>> => ({
  ...page,
  totalCount: await totalOf(page),
});

/** One page of a list that is in memory already, in its order, with each row made into what is told of it. A cursor names its row by id. */
export const pageOfList = async <Row extends { readonly id: string }, Node>(
  all: readonly Row[],
  first: number,
  after: string | null | undefined,
  tell: (rows: readonly Row[]) => Promise<Node[]>,
): Promise<KeysetPage<Node>> => {
  const size = pageSize(first);
  const behind = after == null ? null : readCursor(after).id;
  const from = behind === null ? 0 : 1 + all.findIndex(({ id }) => id === behind);
  const rows = all.slice(from, from + size);
  const nodes = await tell(rows);
  const edges = nodes.map((node, k) => ({ cursor: writeCursor(null, rows[k]!.id), node }));
  return {
    edges,
    pageInfo: {
      hasNextPage: from + size < all.length,
      endCursor: edges.at(-1)?.cursor ?? null,
    },
    totalCount: all.length,
  };
};
