import { type EntityManager, FindOperator } from 'typeorm';
import { FishClaimRow } from '../../apps/api/src/stock/rows/fish-claim.entity.js';
import { FishRow } from '../../apps/api/src/stock/rows/fish.entity.js';
import { HandOverRow } from '../../apps/api/src/stock/rows/hand-over.entity.js';
import { PairingRow } from '../../apps/api/src/stock/rows/pairing.entity.js';
import { SpawnRow } from '../../apps/api/src/stock/rows/spawn.entity.js';

export type Row = Record<string, unknown> & { id: string };
type Where = Readonly<Record<string, unknown>>;
type Target = new () => object;

const TABLES: readonly Target[] = [FishRow, HandOverRow, FishClaimRow, SpawnRow, PairingRow];

const holds = (wanted: unknown, value: unknown): boolean => {
  if (!(wanted instanceof FindOperator)) return wanted === value;
  const operator = wanted as FindOperator<unknown>;
  switch (operator.type) {
    case 'isNull':
      return value === null || value === undefined;
    case 'in':
      return (operator.value as unknown as unknown[]).includes(value);
    case 'not':
      return !holds(operator.child ?? operator.value, value);
    default:
      throw new Error(`no rows are found in memory by "${operator.type}"`);
  }
};

const fits = (row: Row, where: Where | readonly Where[]): boolean =>
  [where].flat().some((one) => Object.entries(one).every(([name, is]) => holds(is, row[name])));

/**
 * Rows of one install, without a database: as much of an entity manager as settling what came in asks for. Who keeps which line and who is
 * here is told when it is asked in SQL; all other SQL finds nothing (no fish has recorded ancestors).
 */
export class RowsInMemory {
  readonly #tables = new Map(TABLES.map((target) => [target, new Map<string, Row>()]));

  constructor(
    readonly here: string,
    readonly lines: readonly { readonly id: string; readonly personId: string }[],
  ) {}

  rows(target: Target): Map<string, Row> {
    const table = this.#tables.get(target);
    if (table === undefined) throw new Error(`no rows of ${target.name} are kept in memory`);
    return table;
  }

  find(
    target: Target,
    options: { where: Where | Where[]; order?: Record<string, string>; take?: number },
  ): Promise<Row[]> {
    const found = [...this.rows(target).values()].filter((row) => fits(row, options.where));
    const [by] = Object.entries(options.order ?? {});
    if (by?.[1] === 'DESC') found.sort((a, b) => Number(b[by[0]]) - Number(a[by[0]]));
    return Promise.resolve(found.slice(0, options.take ?? found.length));
  }

  findBy = (target: Target, where: Where | Where[]): Promise<Row[]> => this.find(target, { where });
  findOneBy = async (target: Target, where: Where): Promise<Row | null> =>
    (await this.findBy(target, where))[0] ?? null;
  findOne = (target: Target, { where }: { where: Where }): Promise<Row | null> =>
    this.findOneBy(target, where);

  update(target: Target, where: Where, changes: Where): Promise<void> {
    for (const row of this.rows(target).values()) if (fits(row, where)) Object.assign(row, changes);
    return Promise.resolve();
  }

  /** Rows are found as they are and changed in place. */
  save = (row: Row): Promise<Row> => Promise.resolve(row);
  insert = (): Promise<void> => Promise.resolve();

  query(sql: string): Promise<unknown[]> {
    const asksForLines = sql.includes('FROM line UNION ALL');
    return Promise.resolve(asksForLines ? [...this.lines, { id: null, personId: this.here }] : []);
  }

  asManager(): EntityManager {
    return this as unknown as EntityManager;
  }
}
