import type { EntityManager } from 'typeorm';
import { columnName } from '../stock/bulk-insert.js';
import { expectLines } from '../stock/line-rows.js';
import { fishWithLine, rowsWithLine, sharedRows, spawnsWithLine } from '../stock/shared-rows.js';
import { kindOfGroup, type SharedKind, sharedKinds, type ShareGroup } from './share-fields.js';
import { canonicalRecord } from './share-file.js';
import type { SharedRecord } from './share-record.js';

/** A table's row, as JSON has it, in the field names of its kind. */
export const fromTable = (kind: SharedKind, row: Readonly<Record<string, unknown>>): SharedRecord =>
  canonicalRecord(
    kind,
    Object.fromEntries([
      ['id', row['id']],
      ...kind.fields.map(
        ({ name }) => [name, row[name in kind.apart ? name : columnName(name)]] as const,
      ),
    ]),
  );

/** All records that one line needs to stand by itself in another install. */
export const selectLine = async (
  manager: EntityManager,
  lineId: string,
): Promise<Record<ShareGroup, SharedRecord[]>> => {
  await expectLines(manager, [lineId]);
  const fish = await fishWithLine(manager, lineId);
  const spawns = await spawnsWithLine(manager, lineId, fish);
  const records = {} as Record<ShareGroup, SharedRecord[]>;
  for (const kind of sharedKinds) {
    const rows = await rowsWithLine(manager, kind, { lineId, fish, spawns });
    records[kind.group] = rows.map((row) => fromTable(kind, row));
  }
  return records;
};

type Claims = Readonly<Record<'fish' | 'fishClaims', readonly SharedRecord[]>>;

/** Claims of which the claimant's own record, where they have one, is among the fish. */
export const claimsWithFish = ({ fish, fishClaims }: Claims): SharedRecord[] => {
  const there = new Set<unknown>([null, ...fish.map(({ id }) => id)]);
  return fishClaims.filter(({ asFishId }) => there.has(asFishId));
};

/** Fish that claims name as the claimants' own records and that are not among the fish of the line. */
export const fishClaimedAs = async (
  manager: EntityManager,
  { fish, fishClaims }: Claims,
): Promise<SharedRecord[]> => {
  const there = new Set(fish.map(({ id }) => id));
  const ids = fishClaims.map(({ asFishId }) => asFishId as string | null);
  const wanted = ids.filter((id) => id !== null && !there.has(id)) as string[];
  if (wanted.length === 0) return [];
  const kind = kindOfGroup('fish');
  return (await sharedRows(manager, kind, wanted)).map((row) => fromTable(kind, row));
};
