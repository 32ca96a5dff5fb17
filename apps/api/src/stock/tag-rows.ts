import type { KnownTag } from '@linewright/repair';
import type { Records } from './reads.js';

export type TaggedKind = 'fish' | 'spawn';

/** So many of the newest tags say how a keeper numbers. */
const LOOKED_AT = 100;

/**
 * Jarred fish are numbered by their spawn, and a spawn that only stands for known parents or sibs by its fish: none of them says how
 * the next one is tagged by hand. Withdrawn ones do: a tag is never used again.
 */
const newestTags: Record<TaggedKind, string> = {
  fish: `SELECT f.tag, f.hatch_date::text AS day, l.code FROM fish f
    LEFT JOIN line l ON l.id = f.line_id LEFT JOIN spawn s ON s.id = f.spawn_id
    WHERE f.person_id = $1 AND (s.id IS NULL OR NOT starts_with(f.tag, s.tag || '-')) AND `,
  spawn: `SELECT f.tag, coalesce(f.spawned_on, f.hatch_date)::text AS day, l.code FROM spawn f
    LEFT JOIN line l ON l.id = f.line_id
    WHERE f.person_id = $1 AND f.tag NOT LIKE '% (from)' AND f.tag NOT LIKE '% sibs' AND `,
};

/** Newest tags of a person in a line, or of none; where there is no such tag, the newest of all lines. */
export const knownTags = async (
  records: Records,
  kind: TaggedKind,
  { personId, lineId }: { readonly personId: string; readonly lineId: string | null },
): Promise<KnownTag[]> => {
  const newest = `ORDER BY f.created_at DESC, f.tag DESC LIMIT ${LOOKED_AT}`;
  // Each by itself: an index finds a line, and not what is told apart from one.
  const ofLine = (await (lineId === null
    ? records.query(`${newestTags[kind]} f.line_id IS NULL ${newest}`, [personId])
    : records.query(`${newestTags[kind]} f.line_id = $2 ${newest}`, [
        personId,
        lineId,
      ]))) as KnownTag[];
  if (ofLine.length > 0) return ofLine;
  return (await records.query(`${newestTags[kind]} f.line_id IS NOT NULL ${newest}`, [
    personId,
  ])) as KnownTag[];
};

/** Those of the tags that a person has on a fish or spawn, withdrawn or not. */
export const tagsTaken = async (
  records: Records,
  kind: TaggedKind,
  personId: string,
  tags: readonly string[],
): Promise<ReadonlySet<string>> => {
  const rows = (await records.query(
    `SELECT tag FROM ${kind} WHERE person_id = $1 AND tag = ANY($2::text[])`,
    [personId, tags],
  )) as { tag: string }[];
  return new Set(rows.map(({ tag }) => tag));
};
