import { randomUUID } from 'node:crypto';
import type { DataSource } from 'typeorm';
import { recordKinds } from '../../apps/api/src/database/record-kind.js';
import { newRecords } from '../new-records.js';
import type { Operation } from './hostile-values.js';
import type { RunningApi } from './harness.js';
import { type Making, valueOf } from './typed-values.js';

/** What a locus of the owner's own is called in genotypes and counts. */
const LOCUS = 'hidden-locus';

/** Names, other than ids, by which hidden records can be asked for. */
export const hiddenNames: readonly string[] = [LOCUS];

const WORDS: readonly (readonly [RegExp, string])[] = [
  [/zone$/i, 'UTC'],
  [/locusIds?$/, 'dt'],
  [/genotype$/, '?/?'],
  [/(fraction|share|survival)$/i, '1/3'],
  [/fileName$/, 'a.csv'],
  [/\.text$/, 'tag,sex\nNEW-1,male\n'],
  [/confirm$/, 'clear the demo'],
  [/(tag|code|key)$/i, 'NEW-1'],
];

/**
 * Of which table an id is taken: by the name of its field, then by the type that it is a field of, then by the operation. There is
 * none for what nothing here knows: an id of another table would be as missing to a guest as one of nowhere, and show nothing.
 */
const TABLES: readonly (readonly [RegExp, string])[] = [
  [/^toId$/, 'person'],
  [/vessel/i, 'vessel'],
  [/sire/i, 'male'],
  [/dam/i, 'female'],
  [/^(mate|back|partner|[ab])Id$/, 'fish'],
  [/claim/i, 'fish_claim'],
  [/deal/i, 'fish_deal'],
  [/showResult/i, 'show_result'],
  [/handOver|takeBackOffers|acceptFish|declineFish|loan/i, 'hand_over'],
  [/^requestId$|^AskClubInput\.id$/, 'club_request'],
  [/comment/i, 'comment'],
  [/fishTogether|fishAct/i, 'fish_act'],
  [/photo/i, 'photo'],
  [/phenotype/i, 'phenotype'],
  [/genotype/i, 'genotype'],
  [/pairing/i, 'pairing'],
  [/plan|route/i, 'line_route'],
  [/round|lesson/i, 'round'],
  [/scoringDraw|drawForScoring/i, 'scoring_draw'],
  [/scoring/i, 'sheet_scoring'],
  [/^fishIds?$/, 'fish'],
  [/fault|sheet/i, 'score_sheet'],
  [/score/i, 'score'],
  [/trait/i, 'trait_definition'],
  [/template/i, 'care_template'],
  [/correctCare|undoCare/i, 'care_record'],
  [/event|SpawnLog/i, 'spawn_event'],
  [/classCount/i, 'class_count'],
  [/count/i, 'spawn_count'],
  [/loss/i, 'spawn_loss'],
  [/setting/i, 'locus_setting'],
  [/importRun|beginImport/i, 'import_run'],
  [/import|takeBackPreview/i, 'past_import'],
  [/computation/i, 'computation'],
  [/passkey/i, 'passkey'],
  [/token/i, 'program_token'],
  [/savedSearch/i, 'saved_search'],
  [/entry|undo/i, 'received_entry'],
  [/person|people|swims/i, 'person'],
  [/line/i, 'line'],
  [/spawn/i, 'spawn'],
  [/care/i, 'care_record'],
  [/water/i, 'water_reading'],
  [/locus/i, 'own_locus'],
  [/install/i, 'partner_install'],
  // A file that was sent is no row: the id of a hidden fish is as missing as any.
  [/Share\.file$/, 'fish'],
  // Of a history each kind of record is asked for in turn.
  [/fish|founder|history|difference/i, 'fish'],
];

/** The table of an id that is given to an operation. Throws for one whose table is not said. */
export const tableOfId = (operation: string, place: string): string => {
  const name = place.slice(place.lastIndexOf('.') + 1);
  for (const words of [name, place, operation]) {
    const found = TABLES.find(([pattern]) => pattern.test(words));
    if (found !== undefined) return found[1];
  }
  throw new Error(
    `Of which table is ${place} of ${operation}? Say it in tests/api/hidden-records.ts.`,
  );
};

/** The table of each kind of record that has a history. */
const tableOfKind: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(recordKinds).map(([name, kind]) => [
    name,
    { trait: 'trait_definition', locus: 'own_locus' }[kind as string] ?? kind,
  ]),
);

const ONE_OF: Readonly<Record<string, string>> = {
  male: `SELECT id FROM fish WHERE sex = 'male' AND spawn_id IS NOT NULL AND withdrawn_at IS NULL ORDER BY tag LIMIT 1`,
  female: `SELECT id FROM fish WHERE sex = 'female' AND spawn_id IS NOT NULL AND withdrawn_at IS NULL ORDER BY tag LIMIT 1`,
  fish: 'SELECT f.id FROM fish f JOIN score s ON s.fish_id = f.id ORDER BY f.tag LIMIT 1',
  // Others are worked out anew when records change, and those of before go.
  computation: `SELECT id FROM computation WHERE kind = 'import' ORDER BY id LIMIT 1`,
  partner_install: 'SELECT install_id AS id FROM partner_install LIMIT 1',
  person: 'SELECT id FROM person WHERE NOT here ORDER BY id LIMIT 1',
};

/** Ids of records, one of each table that an operation may be given one of. */
export type IdsOf = (table: string) => string;

/** Reads them. Fails where a table has no record. */
const idsOfRecords = async (records: DataSource): Promise<{ ids: IdsOf; all: string[] }> => {
  const found = new Map<string, string>();
  const none: string[] = [];
  for (const table of [...TABLES.map(([, one]) => one), ...Object.values(tableOfKind)]) {
    const sql = ONE_OF[table] ?? `SELECT id FROM "${table}" ORDER BY id LIMIT 1`;
    const [row] = (await records.query(sql)) as { id: string }[];
    if (row === undefined) none.push(table);
    else found.set(table, row.id);
  }
  if (none.length > 0) throw new Error(`There is no record to hide of ${none.join(', ')}.`);
  return { ids: (table) => found.get(table)!, all: [...new Set(found.values())] };
};

/** A row of each table that the demo leaves empty; it has the owner, a line, a spawn and a trait at hand. */
const ROWS: readonly string[] = [
  `computation (id, kind, subject, evidence, state, asked_by, result) SELECT gen_random_uuid(), 'import', gen_random_uuid(), '', 'done', 'Owner', '{}'`,
  `import_run (id, person_id, purpose, file_name, columns) SELECT gen_random_uuid(), owner, 'take', 'hidden-run.csv', '[]'`,
  `round (id, line_id, person_id, purpose_version, planned_on, expected_worth, expected_kinship, expected_inbreeding, note) SELECT gen_random_uuid(), line, owner, 0, '2026-01-01', 1, 0.1, 0.1, 'Hidden round'`,
  `line_route (id, line_id, person_id, adopted_on, purpose_version, content, note) SELECT gen_random_uuid(), line, owner, '2026-01-01', 0, '{}', 'Hidden route'`,
  `fish_act (id, person_id, what, fish_count, by_name, at) SELECT gen_random_uuid(), owner, 'Hidden act', 1, 'Owner', now()`,
  `scoring_draw (id, spawn_id, drawn_on, drawn_from, fish_ids, by_name) SELECT gen_random_uuid(), spawn, '2026-01-01', 1, '{}', 'Owner'`,
  `care_template (id, person_id, line_id, name, steps) SELECT gen_random_uuid(), owner, line, 'Hidden calendar', $$[{"id":"look","title":"Hidden step","kind":"do","why":"","after":[{"after":"spawned","hours":1}],"basis":{"kind":"practice"}}]$$`,
  `fish_claim (id, fish_id, tag, by_id, to_id, word, claimed_on) SELECT gen_random_uuid(), fish, 'HIDDEN-CLAIM', owner, owner, 'Hidden claim', '2026-01-01'`,
  `fish_deal (id, fish_id, person_id, kind, on_date, amount, currency, with_whom, note) SELECT gen_random_uuid(), fish, owner, 'sold', '2026-01-01', 123456, 'EUR', 'Hidden buyer', 'Hidden price'`,
  `show_result (id, fish_id, show, on_date, class, note) SELECT gen_random_uuid(), fish, 'Hidden show', '2026-01-01', 'Hidden class', 'Hidden judgement'`,
  `hand_over (id, group_id, fish_id, from_id, to_name, kind, offered_on, tag, sex, word) SELECT gen_random_uuid(), gen_random_uuid(), fish, owner, 'Hidden receiver', 'gift', '2026-01-01', 'HIDDEN-HAND', 'male', 'Hidden offer'`,
  `partner_install (install_id, person_id, signing_key, reading_key) SELECT gen_random_uuid(), owner, 'hidden-key', 'hidden-key'`,
  `comment (id, spawn_id, person_id, words) SELECT gen_random_uuid(), spawn, owner, 'Hidden comment'`,
  `club_request (id, line_id, line_name, from_id, to_id, what, words) SELECT gen_random_uuid(), line, 'Hidden line', owner, owner, 'fish', 'Hidden wish'`,
  `passkey (id, credential_id, person_id, name, public_key, counter, transports) SELECT gen_random_uuid(), 'hidden-key', owner, 'Hidden device', '', 0, '{}'`,
  `saved_search (id, person_id, name, filter, at) SELECT gen_random_uuid(), owner, 'Hidden search', 'text=hidden', now()`,
  `program_token (id, token_hash, person_id, name, may_record, expires_at) SELECT gen_random_uuid(), 'hidden-hash', owner, 'Hidden program', true, now() + interval '1 day'`,
  `trait_model (id, trait_id, season, age, sex, lines_apart, brood, place, looks, scorer, prior) SELECT gen_random_uuid(), trait, true, true, true, true, true, true, true, true, 'flat'`,
];
const AT_HAND = `(SELECT
  (SELECT id FROM person WHERE here) AS owner,
  (SELECT id FROM line ORDER BY id LIMIT 1) AS line,
  (SELECT id FROM spawn ORDER BY id LIMIT 1) AS spawn,
  (SELECT id FROM fish ORDER BY id LIMIT 1) AS fish,
  (SELECT id FROM trait_definition ORDER BY id LIMIT 1) AS trait) AS at_hand`;

/** Makes records of the kinds that the demo has none of, and a history for each that has none. */
export const hideRecords = async (
  api: RunningApi,
  records: DataSource,
): Promise<{ ids: IdsOf; all: string[] }> => {
  await api.graphql(
    `mutation { confirmImport(fileName: "hidden-file.csv", columns: [], text: "tag,sex\\nHIDDEN-1,male\\n") { __typename } }`,
  );
  await newRecords(api).createFish({ tag: 'HIDDEN-2', sex: 'UNSEXED', entryId: randomUUID() });
  await newRecords(api).defineLocus({
    ...{ locusId: LOCUS, name: 'Hidden locus' },
    alleles: [
      { symbol: 'H', name: 'hidden look' },
      { symbol: 'h', name: 'plain look' },
    ],
    looks: [
      { genotype: 'H/-', phenotype: 'hidden' },
      { genotype: 'h/h', phenotype: 'seen' },
    ],
  });
  for (const row of ROWS) {
    const [table] = row.split(' ');
    const kept = table === 'computation' ? `WHERE kind = 'import'` : '';
    const there = (await records.query(`SELECT 1 FROM ${table} ${kept} LIMIT 1`)) as unknown[];
    if (there.length === 0) await records.query(`INSERT INTO ${row} FROM ${AT_HAND}`);
  }
  const found = await idsOfRecords(records);
  for (const [name, table] of Object.entries(tableOfKind))
    await records.query(
      `INSERT INTO record_history (record_kind, record_id, revision, at, by_name, action, changes)
       SELECT $1::text, $2::uuid, 1, now(), 'Owner', 'created', '{}' WHERE NOT EXISTS (SELECT 1 FROM record_history WHERE record_id = $2::uuid)`,
      [recordKinds[name as keyof typeof recordKinds], found.ids(table)],
    );
  return found;
};

interface Asking {
  readonly kind: string;
  readonly operation: Operation;
}

/** Variables of one operation with ids of what is hidden: the least that it takes, then all that it takes, then with a hidden name. */
export const variablesOf = ({ kind, operation }: Asking, ids: IdsOf): object[] => {
  const making = (all: boolean, locus: string): Making => ({
    all,
    text: (place) => {
      const word = WORDS.find(([pattern]) => pattern.test(place))?.[1] ?? 'words';
      return word === 'dt' ? locus : word;
    },
    number: () => 1,
    length: () => 1,
    id: (place) => ids(tableOfId(operation.name, place)),
  });
  const made = (all: boolean, locus: string): object =>
    Object.fromEntries(
      operation.args
        .filter(({ type }) => all || String(type).endsWith('!'))
        .map((arg) => [
          arg.name,
          valueOf(
            arg.type,
            making(all, locus),
            `${kind === 'query' ? 'Query' : 'Mutation'}.${operation.name}.${arg.name}`,
          ),
        ]),
    );
  const whole = made(true, 'dt');
  const named = made(true, LOCUS);
  const several = [made(false, 'dt'), whole];
  if (JSON.stringify(named) !== JSON.stringify(whole)) several.push(named);
  // A history is asked for by the kind of its record as well.
  if (operation.name !== 'history') return several;
  return Object.entries(tableOfKind).map(([recordKind, table]) => ({
    ...whole,
    ...{ recordKind, recordId: ids(table), after: undefined },
  }));
};
