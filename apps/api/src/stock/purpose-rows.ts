import { hasAims, STARTING_PURPOSE, type LinePurpose } from '@linewright/mating';
import { type EntityManager, LessThan } from 'typeorm';
import { LinePurposeRow } from './rows/line-purpose.entity.js';

/** What a line is for now; version 0 while nobody has said it. */
export interface PurposeInForce {
  readonly version: number;
  readonly content: LinePurpose;
}

const UNSAID: PurposeInForce = { version: 0, content: STARTING_PURPOSE };

/** The content whole: parts that came later than the row are as they start. */
export const wholePurpose = ({ content }: LinePurposeRow): LinePurpose => ({
  ...STARTING_PURPOSE,
  ...content,
  // Older versions do not say all of them.
  rules: { ...STARTING_PURPOSE.rules, ...content.rules },
});

/** The newest version of each of these lines; of a line for which none was said, none. */
export const newestPurposes = async (
  manager: EntityManager,
  lineIds: readonly string[],
): Promise<Map<string, LinePurposeRow>> => {
  const rows = await manager
    .createQueryBuilder(LinePurposeRow, 'p')
    .where('p.lineId = ANY(:ids::uuid[])', { ids: [...lineIds] })
    .distinctOn(['p.lineId'])
    .orderBy('p.lineId')
    .addOrderBy('p.version', 'DESC')
    .getMany();
  return new Map(rows.map((row) => [row.lineId, row]));
};

/** Lines for which something is wanted of the young now. */
export const linesWithAims = async (manager: EntityManager): Promise<string[]> => {
  const rows = await manager
    .createQueryBuilder(LinePurposeRow, 'p')
    .distinctOn(['p.lineId'])
    .orderBy('p.lineId')
    .addOrderBy('p.version', 'DESC')
    .getMany();
  return rows.filter((row) => hasAims(wholePurpose(row))).map(({ lineId }) => lineId);
};

/** What a line is for now. */
export const purposeOfLine = async (
  manager: EntityManager,
  lineId: string,
): Promise<PurposeInForce> => {
  const row = (await newestPurposes(manager, [lineId])).get(lineId.toLowerCase());
  return row === undefined ? UNSAID : { version: row.version, content: wholePurpose(row) };
};

/** One version, with what it said. */
export const purposeVersion = (
  manager: EntityManager,
  lineId: string,
  version: number,
): Promise<LinePurposeRow | null> => manager.findOneBy(LinePurposeRow, { lineId, version });

/** Versions of a line below `before`, the newest first, one more than `size` to tell whether more follow. */
export const purposeVersions = async (
  manager: EntityManager,
  lineId: string,
  size: number,
  before: number | null,
): Promise<{ rows: LinePurposeRow[]; total: number }> => {
  const [rows, total] = await Promise.all([
    manager.find(LinePurposeRow, {
      where: { lineId, ...(before !== null && { version: LessThan(before) }) },
      order: { version: 'DESC' },
      take: size + 1,
    }),
    manager.countBy(LinePurposeRow, { lineId }),
  ]);
  return { rows, total };
};

/** Versions are only added: plans name the one that they were made for. */
export const addPurposeVersion = async (
  manager: EntityManager,
  row: Pick<LinePurposeRow, 'lineId' | 'version' | 'content' | 'note' | 'byName' | 'at'>,
): Promise<void> => {
  await manager.insert(LinePurposeRow, { ...row, content: row.content as never });
};
