import type { EntityManager } from 'typeorm';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { Records } from './reads.js';
import { ClubFigureRow, ClubLineRow, ClubRequestRow } from './rows/club.entity.js';
import { standingSql } from './standing.js';

/** A line as it is shown to the club. */
export interface ShownLineRow {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly keeperId: string;
  readonly keeperName: string;
}

const LINE = `SELECT l.id, l.code, l.name, p.id AS "keeperId", p.name AS "keeperName"`;

/** Lines that stand and are shown by keepers who have an account, by keeper and code. */
export const shownLines = (records: Records): Promise<ShownLineRow[]> =>
  records.query(
    `${LINE} FROM club_line c JOIN standing_line l ON l.id = c.line_id JOIN person p ON p.id = c.keeper_id
     WHERE c.shown AND p.role IS NOT NULL ORDER BY p.name, l.code, l.id`,
  );

/** One line with whose it is, shown or not. */
export const lineOfClub = async (records: Records, id: string): Promise<ShownLineRow | null> => {
  const [row] = (await records.query(
    `${LINE} FROM line l JOIN person p ON p.id = l.person_id WHERE l.id = $1`,
    [id],
  )) as ShownLineRow[];
  return row ?? null;
};

/** Lines of keepers with an account that count in pooled figures. */
export const countedLines = (records: Records): Promise<{ id: string; keeperId: string }[]> =>
  records.query(
    `SELECT l.id, c.keeper_id AS "keeperId" FROM club_line c JOIN standing_line l ON l.id = c.line_id
     JOIN person p ON p.id = c.keeper_id WHERE c.counted AND p.role IS NOT NULL ORDER BY l.id`,
  );

/** Whose each of these lines is. */
export const lineKeepers = async (
  records: Records,
  lineIds: readonly string[],
): Promise<Map<string, string>> => {
  const rows = (await records.query(
    'SELECT id, person_id AS "keeperId" FROM line WHERE id = ANY($1::uuid[])',
    [lineIds],
  )) as { id: string; keeperId: string }[];
  return new Map(rows.map(({ id, keeperId }) => [id, keeperId]));
};

/** Fish in use of these lines, by line and id. */
export const fishInUseOfLines = (
  records: Records,
  lineIds: readonly string[],
): Promise<{ id: string; lineId: string }[]> =>
  records.query(
    `SELECT id, line_id AS "lineId" FROM fish_in_use WHERE line_id = ANY($1::uuid[]) ORDER BY line_id, id`,
    [lineIds],
  );

/** Looks noted at `least` or more of the fish in use of a line, by line. */
export const looksOfLines = (
  records: Records,
  lineIds: readonly string[],
  least: number,
): Promise<{ lineId: string; locusId: string; look: string }[]> =>
  records.query(
    `SELECT f.line_id AS "lineId", h.locus_id AS "locusId", h.phenotype AS look FROM fish_in_use f JOIN phenotype h ON h.fish_id = f.id
     WHERE f.line_id = ANY($1::uuid[]) AND ${standingSql('h')}
     GROUP BY f.line_id, h.locus_id, h.phenotype HAVING count(DISTINCT f.id) >= $2 ORDER BY f.line_id, h.locus_id, h.phenotype`,
    [lineIds, least],
  );

export const clubLine = (manager: EntityManager, lineId: string): Promise<ClubLineRow | null> =>
  manager.findOneBy(ClubLineRow, { lineId });

export const putClubLine = async (manager: EntityManager, row: ClubLineRow): Promise<void> => {
  await manager.upsert(ClubLineRow, row, ['lineId']);
};

/** Of which lines a figure was told last; held against others who ask meanwhile, until the transaction ends. */
export const linesToldOf = async (manager: EntityManager, figure: string): Promise<string[]> => {
  const lock = { mode: 'pessimistic_write' } as const;
  const row = await manager.findOne(ClubFigureRow, { where: { figure }, lock });
  return row?.lineIds ?? [];
};

export const noteLinesToldOf = async (
  manager: EntityManager,
  figure: string,
  lineIds: string[],
): Promise<void> => {
  await manager.upsert(ClubFigureRow, { figure, lineIds }, ['figure']);
};

/** Requests that whoever asks made or got, the newest first. */
export const requestsByDay = (
  manager: EntityManager,
  openAlone: boolean,
  first: number,
  after: string | undefined,
): Promise<KeysetPage<ClubRequestRow>> => {
  const query = manager.createQueryBuilder(ClubRequestRow, 'r');
  if (openAlone) query.where(`r.state = 'open'`);
  return keysetPage(
    query,
    'r',
    { key: 'r.asked_at', direction: 'DESC', type: 'timestamptz' },
    first,
    after,
  );
};

/** The request with that id, held until the transaction ends. */
export const lockRequest = (manager: EntityManager, id: string): Promise<ClubRequestRow | null> =>
  manager.findOne(ClubRequestRow, { where: { id }, lock: { mode: 'pessimistic_write' } });

export const requestWithId = (manager: EntityManager, id: string): Promise<ClubRequestRow | null> =>
  manager.findOneBy(ClubRequestRow, { id });

export const addRequest = async (manager: EntityManager, row: ClubRequestRow): Promise<void> => {
  await manager.insert(ClubRequestRow, row);
};

export const changeRequest = async (
  manager: EntityManager,
  id: string,
  changes: Partial<ClubRequestRow>,
): Promise<void> => {
  await manager.update(ClubRequestRow, { id }, changes);
};
