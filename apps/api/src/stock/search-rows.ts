import { likePattern } from '../database/like-pattern.js';
import { standingSql } from './standing.js';
import { plainCodeSql } from './vessel-codes.js';
import type { Records } from './reads.js';

export type FoundKind = 'fish' | 'spawn' | 'line' | 'person' | 'place';

/** One thing found: what it is called, what stands beside that, and the note in which the words may be. */
export interface FoundRow {
  readonly kind: FoundKind;
  readonly id: string;
  readonly title: string;
  readonly beside: string | null;
  readonly note: string | null;
}

const FISH = `SELECT 'fish' AS kind, f.id::text AS id, f.tag AS title, concat_ws(' · ', f.name, l.code, f.sex) AS beside, f.note
  FROM fish f LEFT JOIN line l ON l.id = f.line_id WHERE ${standingSql('f')}`;

/** $1: the pattern, $2: how many of each. Of a large stock this reads every fish, where few hold the words. */
const ANYWHERE: Record<FoundKind, string> = {
  fish: `${FISH} AND (f.tag ILIKE $1 OR f.name ILIKE $1 OR f.note ILIKE $1) ORDER BY f.tag, f.id LIMIT $2`,
  spawn: `SELECT 'spawn' AS kind, s.id::text AS id, s.tag AS title, concat_ws(' · ', l.code, s.spawned_on::text) AS beside,
      concat_ws(E'\\n', s.purpose, s.note) AS note
    FROM spawn s LEFT JOIN line l ON l.id = s.line_id
    WHERE ${standingSql('s')} AND (s.tag ILIKE $1 OR s.purpose ILIKE $1 OR s.note ILIKE $1) ORDER BY s.tag, s.id LIMIT $2`,
  line: `SELECT 'line' AS kind, l.id::text AS id, concat(l.code, ' · ', l.name) AS title, NULL AS beside, l.goal AS note
    FROM line l WHERE ${standingSql('l')} AND (l.code ILIKE $1 OR l.name ILIKE $1 OR l.goal ILIKE $1)
    ORDER BY l.code, l.id LIMIT $2`,
  person: `SELECT 'person' AS kind, p.id::text AS id, p.name AS title, NULL AS beside, NULL AS note
    FROM person p WHERE p.name ILIKE $1 ORDER BY p.name, p.id LIMIT $2`,
  place: `SELECT 'place' AS kind, v.id::text AS id, v.code AS title, nullif(concat_ws(' · ', v.rack,
      (SELECT string_agg(f.tag, ', ' ORDER BY f.tag) FROM vessel_stay y JOIN standing_fish f ON f.id = y.fish_id
        WHERE y.vessel_id = v.id AND y.left_at IS NULL AND f.disposition IN ('unsorted', 'keeper', 'hold', 'placed'))), '') AS beside,
      v.note
    FROM vessel v WHERE ${standingSql('v')} AND (v.code ILIKE $1 OR ${plainCodeSql('v.code')} ILIKE ${plainCodeSql('$1')}
      OR v.rack ILIKE $1 OR v.note ILIKE $1) ORDER BY v.code, v.id LIMIT $2`,
};

/** Tags that begin so, as typed or in capitals: by the index of tags, which `ILIKE` does not use. */
const BEGIN = `${FISH} AND (f.tag >= $1 AND f.tag < $2 OR f.tag >= $3 AND f.tag < $4) ORDER BY f.tag, f.id LIMIT $5`;

/** Behind every text that begins as another does. */
const after = (text: string): string => `${text}\u{10FFFF}`;

/** Fish whose tags begin with it, then those with it anywhere; at most so many. */
const fishWith = async (records: Records, text: string, most: number): Promise<FoundRow[]> => {
  const capitals = text.toUpperCase();
  const begin: FoundRow[] = await records.query(BEGIN, [
    ...[text, after(text), capitals, after(capitals)],
    most,
  ]);
  if (begin.length >= most) return begin;
  const anywhere: FoundRow[] = await records.query(ANYWHERE.fish, [likePattern(text), most]);
  const known = new Set(begin.map(({ id }) => id));
  return [...begin, ...anywhere.filter(({ id }) => !known.has(id))].slice(0, most);
};

const others = (['line', 'spawn', 'person', 'place'] as const)
  .map((kind) => `(${ANYWHERE[kind]})`)
  .join(' UNION ALL ');

/** Whatever of the records holds a text, as far as whoever asks sees it; at most so many of a kind. Three statements. */
export const recordsWith = async (
  records: Records,
  text: string,
  most: number,
): Promise<FoundRow[]> => [
  ...(await fishWith(records, text, most)),
  ...((await records.query(others, [likePattern(text), most])) as FoundRow[]),
];
