import DataLoader from 'dataloader';
import { type DataSource, type EntityTarget, In, type ObjectLiteral } from 'typeorm';
import { PerRequest } from './per-request.js';

/** Batches `SELECT … WHERE id IN (…)`, one loader a request; an id that is not there gives `null`. */
export const rowsById = <Row extends ObjectLiteral & { id: string }>(
  dataSource: DataSource,
  target: EntityTarget<Row>,
): PerRequest<DataLoader<string, Row | null>> =>
  new PerRequest(
    () =>
      new DataLoader<string, Row | null>(async (ids) => {
        const rows = await dataSource
          .getRepository(target)
          .find({ where: { id: In([...ids]) } as never });
        const byId = new Map(rows.map((row) => [row.id, row]));
        return ids.map((id) => byId.get(id) ?? null);
      }),
  );

/** Batches the rows that belong to each of several owners (a fish's scores, a spawn's counts), in the order the query gives. */
export const rowsByOwner = <Row extends ObjectLiteral>(
  query: (ownerIds: string[]) => Promise<Row[]>,
  ownerOf: (row: Row) => string | null,
  /** `cache: false` asks anew for each batch: for what the same request may write. */
  options: { readonly cache?: boolean } = {},
): PerRequest<DataLoader<string, Row[]>> =>
  new PerRequest(
    () =>
      new DataLoader<string, Row[]>(async (ids) => {
        const groups = new Map<string, Row[]>(ids.map((id) => [id, []]));
        for (const row of await query([...ids])) groups.get(ownerOf(row) ?? '')?.push(row);
        return ids.map((id) => groups.get(id) ?? []);
      }, options),
  );
