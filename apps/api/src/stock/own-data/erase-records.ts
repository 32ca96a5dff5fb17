import type { EntityManager } from 'typeorm';

/** Somebody whose data are erased, and the name that stands in place of theirs. */
export interface Leaving {
  readonly id: string;
  readonly name: string;
  readonly pseudonym: string;
}

/** Rows of their spawns and fish that go; of scores those that nobody else gave. */
const ofSpawns = [
  ...['spawn_event', 'spawn_count', 'spawn_loss', 'class_count', 'care_record', 'scoring_draw'],
];
const NOT_OTHERS = '(by_account_id IS NULL OR by_account_id = $1)';

/** For each table, which rows go whole. `$1` is the person. */
const goes: Readonly<Record<string, string>> = {
  photo: `fish_id IN (SELECT id FROM fish WHERE person_id = $1) OR spawn_id IN (SELECT id FROM spawn WHERE person_id = $1)`,
  comment: `person_id = $1 OR fish_id IN (SELECT id FROM fish WHERE person_id = $1) OR spawn_id IN (SELECT id FROM spawn WHERE person_id = $1)`,
  fish_deal: 'person_id = $1',
  ...Object.fromEntries(
    ofSpawns.map((table) => [table, 'spawn_id IN (SELECT id FROM spawn WHERE person_id = $1)']),
  ),
  vessel_stay: `vessel_id IN (SELECT id FROM vessel WHERE person_id = $1) OR fish_id IN (SELECT id FROM fish WHERE person_id = $1)
    OR spawn_id IN (SELECT id FROM spawn WHERE person_id = $1)`,
  water_reading: 'person_id = $1 OR spawn_id IN (SELECT id FROM spawn WHERE person_id = $1)',
  vessel: 'person_id = $1',
  ...Object.fromEntries(
    ['genotype', 'phenotype', 'show_result'].map((table) => [
      table,
      'fish_id IN (SELECT id FROM fish WHERE person_id = $1)',
    ]),
  ),
  score: `fish_id IN (SELECT id FROM fish WHERE person_id = $1) AND ${NOT_OTHERS}`,
  sheet_scoring: `fish_id IN (SELECT id FROM fish WHERE person_id = $1) AND ${NOT_OTHERS}`,
  round: 'person_id = $1 OR line_id IN (SELECT id FROM line WHERE person_id = $1)',
  line_route: 'person_id = $1 OR line_id IN (SELECT id FROM line WHERE person_id = $1)',
  care_template: 'person_id = $1 OR line_id IN (SELECT id FROM line WHERE person_id = $1)',
  locus_setting: 'line_id IN (SELECT id FROM line WHERE person_id = $1)',
  pairing: `person_id = $1 AND NOT EXISTS (SELECT 1 FROM spawn s WHERE s.pairing_id = pairing.id AND s.person_id <> $1)
    AND NOT EXISTS (SELECT 1 FROM round_pair r WHERE r.pairing_id = pairing.id)`,
  // What nobody else's records rest on.
  trait_definition: `person_id = $1 AND NOT EXISTS (SELECT 1 FROM score s WHERE s.trait_id = trait_definition.id)
    AND NOT EXISTS (SELECT 1 FROM score_sheet_version v CROSS JOIN jsonb_array_elements(v.lines) l WHERE l ->> 'traitId' = trait_definition.id::text)`,
  score_sheet: `person_id = $1 AND NOT EXISTS (SELECT 1 FROM sheet_scoring s WHERE s.sheet_id = score_sheet.id)`,
  own_locus: `person_id = $1 AND NOT EXISTS (SELECT 1 FROM genotype g WHERE g.locus_id = own_locus.locus_id)
    AND NOT EXISTS (SELECT 1 FROM phenotype p WHERE p.locus_id = own_locus.locus_id)
    AND NOT EXISTS (SELECT 1 FROM class_count c WHERE own_locus.locus_id = ANY (c.locus_ids))
    AND NOT EXISTS (SELECT 1 FROM spawn_loss l WHERE l.locus_id = own_locus.locus_id)`,
};

/** What rests on a row that goes and goes with it. */
const before: Readonly<Record<string, readonly string[]>> = {
  round: ['DELETE FROM round_pair WHERE round_id = ANY ($1::uuid[])'],
  score: ['UPDATE score SET corrects_id = NULL WHERE corrects_id = ANY ($1::uuid[])'],
  sheet_scoring: ['UPDATE score SET scoring_id = NULL WHERE scoring_id = ANY ($1::uuid[])'],
  pairing: ['UPDATE spawn SET pairing_id = NULL WHERE pairing_id = ANY ($1::uuid[])'],
  trait_definition: ['DELETE FROM trait_model WHERE trait_id = ANY ($1::uuid[])'],
  score_sheet: ['DELETE FROM score_sheet_version WHERE sheet_id = ANY ($1::uuid[])'],
  own_locus: ['DELETE FROM own_locus_version WHERE own_locus_id = ANY ($1::uuid[])'],
};

const changed = 'revision = revision + 1, updated_at = now(), withdrawn_reason = NULL';
/** Numbers of the person's rows in the order in which they came. */
const numbered = (table: string): string =>
  `FROM (SELECT id, row_number() OVER (ORDER BY created_at, id) AS number FROM "${table}" WHERE person_id = $1) n WHERE t.id = n.id`;

interface Emptied {
  readonly columns: readonly string[];
  readonly sql: string;
  /** Which rows; those of the person where it is not said. */
  readonly theirs?: string;
  /** False: no history is kept of them. */
  readonly history?: false;
}

/** Columns of rows that stay and that say no more what they said, with the statement that empties them; `$2` is the pseudonym. */
export const emptied: Readonly<Record<string, Emptied>> = {
  fish: {
    columns: [
      ...['tag', 'name', 'origin', 'note', 'swims_with_id', 'disposition', 'disposition_date'],
      ...['disposition_reason', 'withdrawn_reason'],
    ],
    sql: `UPDATE fish t SET tag = $2 || '-' || n.number, name = NULL, origin = NULL, note = NULL, swims_with_id = NULL,
      disposition = 'elsewhere', disposition_date = NULL, disposition_reason = NULL, ${changed} ${numbered('fish')}`,
  },
  spawn: {
    columns: ['tag', 'pairing_id', 'purpose', 'note', 'failed_reason', 'withdrawn_reason'],
    sql: `UPDATE spawn t SET tag = $2 || '-S' || n.number, purpose = NULL, note = NULL, failed_reason = NULL, ${changed} ${numbered('spawn')}`,
  },
  line: {
    columns: ['code', 'name', 'goal', 'withdrawn_reason'],
    sql: `UPDATE line t SET code = $2 || '-L' || n.number, name = 'Line ' || n.number || ' of ' || $2, goal = NULL, ${changed} ${numbered('line')}`,
  },
  pairing: {
    columns: ['reason', 'note', 'withdrawn_reason'],
    sql: `UPDATE pairing t SET reason = NULL, note = NULL, ${changed} WHERE person_id = $1 AND $2 <> ''`,
  },
  trait_definition: {
    columns: ['description', 'withdrawn_reason'],
    sql: `UPDATE trait_definition t SET description = NULL, ${changed} WHERE person_id = $1 AND $2 <> ''`,
  },
  score_sheet: {
    columns: ['description', 'withdrawn_reason'],
    sql: `UPDATE score_sheet t SET description = NULL, ${changed} WHERE person_id = $1 AND $2 <> ''`,
  },
  // Of a fish that went from one to another, each side's words are its own.
  hand_over: {
    columns: [
      ...['word', 'health_note', 'answer_word', 'return_word', 'to_name', 'tag', 'line_code'],
      'new_tag',
      'withdrawn_reason',
    ],
    theirs: 'from_id = $1 OR to_id = $1',
    sql: `UPDATE hand_over t SET word = CASE WHEN from_id <> $1 THEN word END, health_note = CASE WHEN from_id <> $1 THEN health_note END,
      answer_word = CASE WHEN to_id IS DISTINCT FROM $1 THEN answer_word END, return_word = CASE WHEN to_id IS DISTINCT FROM $1 THEN return_word END,
      to_name = CASE WHEN to_id = $1 THEN $2 ELSE to_name END, line_code = NULL, new_tag = NULL,
      tag = (SELECT f.tag FROM fish f WHERE f.id = t.fish_id), ${changed} WHERE from_id = $1 OR to_id = $1`,
  },
  fish_claim: {
    columns: ['word', 'answer_word', 'tag', 'as_tag', 'withdrawn_reason'],
    theirs: 'by_id = $1 OR to_id = $1',
    sql: `UPDATE fish_claim t SET word = CASE WHEN by_id <> $1 THEN word END, answer_word = CASE WHEN to_id <> $1 THEN answer_word END,
      tag = (SELECT f.tag FROM fish f WHERE f.id = t.fish_id), as_tag = (SELECT f.tag FROM fish f WHERE f.id = t.as_fish_id), ${changed}
      WHERE (by_id = $1 OR to_id = $1) AND $2 <> ''`,
  },
  own_locus: {
    columns: ['withdrawn_reason'],
    sql: `UPDATE own_locus t SET ${changed} WHERE person_id = $1 AND $2 <> ''`,
  },
};

/** Of scores that they gave of others' fish, the figure stays. */
export const emptiedScores: typeof emptied = Object.fromEntries(
  ['score', 'sheet_scoring'].map((table) => [
    table,
    {
      columns: ['scorer', 'note', 'withdrawn_reason'],
      theirs: 'by_account_id = $1',
      sql: `UPDATE ${table} t SET scorer = $2, note = NULL, ${changed} WHERE by_account_id = $1`,
    },
  ]),
);

const idsOf = async (manager: EntityManager, sql: string, given: unknown[]): Promise<string[]> =>
  ((await manager.query(sql, given)) as { id: string }[]).map(({ id }) => id);

/** What became of somebody's records. */
export interface ErasedRecords {
  /** Ids of those that went, and of those that stay without what they said, by table. */
  readonly gone: readonly string[];
  readonly kept: ReadonlyMap<string, readonly string[]>;
  /** Pictures that no record names any more, by the hash of their content. */
  readonly pictures: readonly string[];
}

/** Takes whole rows away, those first on which no others rest. */
const takeAway = async (manager: EntityManager, { id }: Leaving): Promise<string[]> => {
  const gone: string[] = [];
  for (const [table, which] of Object.entries(goes)) {
    const ids = await idsOf(manager, `SELECT id FROM "${table}" WHERE ${which}`, [id]);
    if (ids.length === 0) continue;
    for (const sql of before[table] ?? []) await manager.query(sql, [ids]);
    await manager.query(`DELETE FROM "${table}" WHERE id = ANY ($1::uuid[])`, [ids]);
    gone.push(...ids);
  }
  await manager.query(
    'DELETE FROM line_purpose WHERE line_id IN (SELECT id FROM line WHERE person_id = $1)',
    [id],
  );
  return gone;
};

/** Kinds in the history that are not called as their table. */
const kindOf: Readonly<Record<string, string>> = { trait_definition: 'trait', own_locus: 'locus' };

/** In place of all that the history told of what stays: that it was erased. */
const tellErased = async (
  manager: EntityManager,
  table: string,
  ids: readonly string[],
  by: string,
): Promise<void> => {
  await manager.query(
    `INSERT INTO record_history (record_kind, record_id, revision, by_name, by_account_id, action, changes)
     SELECT $1, t.id, t.revision, $2, NULL, 'erased', '{}' FROM "${table}" t WHERE t.id = ANY ($3::uuid[])`,
    [kindOf[table] ?? table, by, ids],
  );
};

const takeHistoryAway = async (
  manager: EntityManager,
  { id, pseudonym }: Leaving,
  { gone, kept }: Pick<ErasedRecords, 'gone' | 'kept'>,
): Promise<void> => {
  const scored = [...(kept.get('score') ?? []), ...(kept.get('sheet_scoring') ?? [])];
  const stay = [...kept].flatMap(([table, ids]) => (table in emptiedScores ? [] : ids));
  await manager.query('DELETE FROM record_history WHERE record_id = ANY ($1::uuid[])', [
    [...gone, ...stay],
  ]);
  for (const [table, ids] of kept)
    if (!(table in emptiedScores) && emptied[table]?.history !== false)
      await tellErased(manager, table, ids, pseudonym);
  await manager.query(
    `UPDATE record_history SET changes = changes - '{scorer,note,reason,withdrawnReason}'::text[] WHERE record_id = ANY ($1::uuid[])`,
    [scored],
  );
  await manager.query(
    `UPDATE record_history SET act_id = NULL WHERE act_id IN (SELECT id FROM fish_act WHERE person_id = $1)`,
    [id],
  );
};

/**
 * Takes from somebody's records all but what the pedigree of others rests on: fish, parents, spawns, sexes, days of hatching and
 * spawning, under a pseudonym. In the caller's transaction.
 */
export const eraseRecords = async (
  manager: EntityManager,
  person: Leaving,
): Promise<ErasedRecords> => {
  const { id, pseudonym } = person;
  const shown = (await manager.query(`SELECT DISTINCT sha256 FROM photo WHERE ${goes['photo']}`, [
    id,
  ])) as { sha256: string }[];
  const gone = await takeAway(manager, person);
  const kept = new Map<string, readonly string[]>();
  for (const [table, { sql, theirs = 'person_id = $1' }] of Object.entries({
    ...{ ...emptied, ...emptiedScores },
  })) {
    kept.set(table, await idsOf(manager, `SELECT id FROM "${table}" WHERE ${theirs}`, [id]));
    await manager.query(sql, [id, pseudonym]);
  }
  await takeHistoryAway(manager, person, { gone, kept });
  const named = (await manager.query(
    'SELECT DISTINCT sha256 FROM photo WHERE sha256 = ANY ($1::text[])',
    [shown.map(({ sha256 }) => sha256)],
  )) as { sha256: string }[];
  const still = new Set(named.map(({ sha256 }) => sha256));
  const pictures = shown.map(({ sha256 }) => sha256).filter((sha256) => !still.has(sha256));
  return { gone, kept, pictures };
};
