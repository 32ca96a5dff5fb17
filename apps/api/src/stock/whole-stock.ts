import type { EntityManager, EntityTarget, ObjectLiteral } from 'typeorm';
import { InstallStateRow } from '../database/install-state.entity.js';
import type { RecordKind } from '../database/record-kind.js';
import { entities } from './entities.js';
import { anyFish } from './fish-rows.js';
import { anybody } from './people-rows.js';
import * as types from './record-types.js';
import type { RecordType } from './record-store.js';
import { HistoryRow } from './rows/history.entity.js';
import { LinePurposeRow } from './rows/line-purpose.entity.js';
import { PersonRow } from './rows/person.entity.js';
import { VesselStayRow } from './rows/vessel.entity.js';
import { ScoreSheetVersionRow } from './rows/sheet.entity.js';

const ROWS_AT_ONCE = 500;

/** Rows of one table, in the fields of its entity: of people, of versions of score sheets, of what lines are for and of who was in which vessel, or of a kind of record. */
export interface RowsOfTable {
  readonly of: RecordKind | 'people' | 'sheet versions' | 'line purposes' | 'vessel stays';
  readonly rows: readonly object[];
}

const apart = ['people', 'sheet versions', 'line purposes', 'vessel stays'];
const isRecordKind = (of: RowsOfTable['of']): of is RecordKind => !apart.includes(of);

const targetOf = (of: RowsOfTable['of']): EntityTarget<ObjectLiteral> => {
  if (of === 'people') return PersonRow;
  if (of === 'sheet versions') return ScoreSheetVersionRow;
  if (of === 'line purposes') return LinePurposeRow;
  if (of === 'vessel stays') return VesselStayRow;
  const known = (Object.values(types) as RecordType<never>[]).find(({ kind }) => kind === of);
  if (known === undefined) throw new Error(`There is no table of the kind "${of}".`);
  return known.target as EntityTarget<ObjectLiteral>;
};

/** Whether nobody and no fish is on record. */
export const isEmpty = async (manager: EntityManager): Promise<boolean> =>
  !(await anybody(manager)) && !(await anyFish(manager));

/** Writes whole tables in the given order, each record told in the history as recorded by `by`. */
export const writeTables = async (
  manager: EntityManager,
  tables: readonly RowsOfTable[],
  { by, at }: { readonly by: string; readonly at: () => Date },
): Promise<void> => {
  for (const { of, rows } of tables) {
    for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) {
      const part = rows.slice(from, from + ROWS_AT_ONCE) as { id: string }[];
      const some = part.map((row) => ({ createdAt: at(), ...row }));
      await manager.insert(targetOf(of), some);
      if (!isRecordKind(of)) continue;
      const told = { recordKind: of, revision: 1, byName: by, action: 'recorded', changes: {} };
      await manager.insert(
        HistoryRow,
        some.map(({ id }) => ({ ...told, recordId: id })),
      );
    }
  }
};

/** Takes every row away but the install's own state. Row by row, and not by emptying the tables: that the policies would not see. */
export const clearTables = async (manager: EntityManager): Promise<void> => {
  for (const entity of entities.filter((one) => one !== InstallStateRow))
    await manager.createQueryBuilder().delete().from<ObjectLiteral>(entity).execute();
};
