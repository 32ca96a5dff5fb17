import type { EntityManager } from 'typeorm';
import type { RecordKind } from '../database/record-kind.js';
import { contentHash } from './share-file.js';
import type { Agreement, SharePlanItem } from './share-plan.js';

/** What was agreed on by files that do not tell the versions of their records, by record id. */
export const agreementsOn = async (
  manager: EntityManager,
  ids: readonly string[],
): Promise<Map<string, Agreement>> => {
  const rows: { id: string; hash: string; at: Date }[] = await manager.query(
    `SELECT record_id AS id, content_hash AS hash, agreed_at AS at FROM share_base WHERE record_id = ANY($1::uuid[])`,
    [ids],
  );
  return new Map(rows.map(({ id, hash, at }) => [id, { hash, at }]));
};

interface AgreementRow {
  readonly id: string;
  readonly kind: RecordKind;
  readonly hash: string;
}

/** Notes what such a file brought, made at `at`. */
export const agreeOn = async (
  manager: EntityManager,
  items: readonly SharePlanItem[],
  at: Date,
): Promise<void> => {
  const agreed = items
    .filter(
      ({ outcome }) => outcome === 'added' || outcome === 'updated' || outcome === 'unchanged',
    )
    .map(({ kind, record }): AgreementRow => ({
      id: record.id,
      kind: kind.kind,
      hash: contentHash(kind, record),
    }));
  await manager.query(
    `INSERT INTO share_base (record_id, record_kind, content_hash, agreed_at)
     SELECT r.id, r.kind, r.hash, $2 FROM json_to_recordset($1::json) AS r(id uuid, kind text, hash text)
     ON CONFLICT (record_id) DO UPDATE SET content_hash = excluded.content_hash, agreed_at = excluded.agreed_at
       WHERE share_base.agreed_at <= excluded.agreed_at OR share_base.content_hash <> excluded.content_hash`,
    [JSON.stringify(agreed), at],
  );
};
