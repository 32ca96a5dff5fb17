import { randomUUID } from 'node:crypto';
import type { DataSource } from 'typeorm';
import { daysAgo } from '../clock.js';

/** What of a line a text belongs to: who sees the line sees it, or who was lent all of these parts. */
export type Rule =
  | 'line'
  | 'scores'
  | 'photos'
  | 'notes'
  | 'water'
  | 'place'
  | 'scales'
  | 'breed'
  | 'never'
  | 'scores+notes'
  | 'photos+notes'
  | 'water+notes'
  | 'breed+notes'
  | 'prices+notes';

/** By what columns with words of people are lent. Every other text column stands in `plain`, with the reason; a test asks for that. */
export const RULES: Readonly<Record<string, Readonly<Record<string, Rule>>>> = {
  line: { code: 'line', name: 'line', goal: 'line' },
  fish: {
    ...{ tag: 'line', name: 'line', origin: 'line' },
    ...{ note: 'notes', disposition_reason: 'notes' },
  },
  spawn: { tag: 'line', note: 'notes', purpose: 'notes', failed_reason: 'notes' },
  spawn_event: { note: 'notes' },
  spawn_count: { note: 'notes' },
  spawn_loss: { note: 'notes', reason: 'line' },
  class_count: { note: 'notes' },
  genotype: { note: 'notes' },
  phenotype: { note: 'notes' },
  trait_definition: { key: 'scales', name: 'scales', unit: 'scales', description: 'scales' },
  score_sheet: { name: 'scales', description: 'scales' },
  score: { note: 'scores+notes', value: 'scores' },
  sheet_scoring: { note: 'scores+notes' },
  care_record: { note: 'water+notes' },
  care_template: { name: 'water' },
  water_reading: { vessel: 'water', kit: 'water', note: 'water+notes' },
  vessel: { code: 'never', rack: 'never', note: 'never' },
  photo: { caption: 'photos+notes', id: 'photos' },
  pairing: { note: 'breed+notes', reason: 'breed+notes' },
  // Of a third person that a fish swims with, nobody but the owner is told.
  person: { name: 'never' },
  line_purpose: { note: 'never', by_name: 'never' },
  round: { note: 'never', learnt: 'never' },
  line_route: { note: 'never' },
  past_import: {
    file_name: 'never',
    by_name: 'never',
    taken_back_by: 'never',
    taken_back_reason: 'never',
  },
  import_run: { file_name: 'never' },
  import_shape: { file_name: 'never', shape: 'never' },
  saved_search: { name: 'never', filter: 'never' },
  fish_act: { what: 'never', by_name: 'never', taken_back_by: 'never' },
  computation: { asked_by: 'never', error_message: 'never' },
  scoring_draw: { by_name: 'never' },
  record_history: { by_name: 'never' },
  partner_install: {
    folder: 'never',
    problem: 'never',
    ended_reason: 'never',
    refused_reason: 'never',
  },
  line_exchange: { line_code: 'never', problem: 'never' },
  hand_over: {
    ...{ to_name: 'never', word: 'never', health_note: 'never', answer_word: 'never' },
    ...{ return_word: 'never', tag: 'never', line_code: 'never', new_tag: 'never' },
  },
  fish_deal: { with_whom: 'prices+notes', note: 'prices+notes' },
  show_result: { show: 'scores', class: 'scores', note: 'scores+notes' },
  comment: { words: 'line' },
  club_request: { line_name: 'never', words: 'never', answer: 'never' },
  share_install: { name: 'never' },
  session: { device: 'never' },
  passkey: { name: 'never' },
  program_token: { name: 'never' },
  backup_run: { folder: 'never', file_name: 'never', message: 'never' },
};

/** Text columns that hold no words of people: one of a few words, an id, a hash or a key; or a structure, which is told by its record. */
export const plain: readonly RegExp[] = [
  /\.(withdrawn_reason)$/,
  // Between two people, of no line: tests of claims hold who sees them.
  /^fish_claim\.(tag|as_tag|word|answer_word)$/,
  /\.(kind|state|stage|basis|sex|disposition|action|role|level|purpose|record_kind|subject_kind|media_type|currency)$/,
  /\.(ammonia_unit|nitrite_form|nitrate_form|limit_unit|zone|prior|answer|return_as|ended_as|what)$/,
  /_(hash|print|key|secret)$/,
  /\.(locus_id|phenotype|genotype|sha256|secret|challenge|credential_id|evidence|subject|step)$/,
  /^vessel_stay\.company$/,
  /\.(scorer|by_name|figure|error_code|address|program_version)$/,
];

export const PICTURE = 'c'.repeat(64);

/** Rows of one line, in which every column of {@link RULES} bears its own mark. */
export interface MarkedLine {
  /** Of each table, the id of a row of the line. */
  readonly ids: ReadonlyMap<string, string>;
  /** Marks by table and column. */
  readonly marks: ReadonlyMap<string, string>;
}

/** A text that is found in nothing else. */
const markOf = (lead: string, table: string, column: string): string =>
  `${lead}q${table.replaceAll('_', '')}q${column.replaceAll('_', '')}`;

type Values = Readonly<Record<string, unknown>>;

/** A line with one row or more in every table that holds something of it, written as whoever owns the tables. */
export const markedLine = async (
  records: DataSource,
  lead: string,
  ownerId: string,
): Promise<MarkedLine> => {
  const ids = new Map<string, string>();
  const marks = new Map<string, string>();
  const put = async (table: string, values: Values, name = table): Promise<string> => {
    const id = randomUUID();
    const marked = Object.keys(RULES[table] ?? {}).flatMap((column): [string, string][] => {
      // Of a picture its id is what it is known by.
      const mark = column === 'id' ? id : markOf(lead, name, column);
      if (name === table) marks.set(`${table}.${column}`, mark);
      return column === 'id' ? [] : [[column, mark]];
    });
    const row: Values = { ...Object.fromEntries(marked), ...values };
    const columns = Object.keys(row);
    const keyed = [
      'score_sheet_version',
      'record_history',
      'line_exchange',
      'line_purpose',
      'import_shape',
    ];
    const [names, given] = keyed.includes(table)
      ? [columns, Object.values(row)]
      : [
          [
            table === 'partner_install' || table === 'share_install' ? 'install_id' : 'id',
            ...columns,
          ],
          [id, ...Object.values(row)],
        ];
    await records.query(
      `INSERT INTO "${table}" (${names.map((one) => `"${one}"`).join(', ')}) VALUES (${names.map((_, k) => `$${k + 1}`).join(', ')})`,
      given,
    );
    ids.set(name, id);
    return id;
  };
  const [on, at] = [daysAgo(40), `${daysAgo(40)}T08:00:00Z`];
  const person_id = ownerId;
  const elsewhere = await put('person', {});
  const line_id = await put('line', { person_id });
  const fish = { person_id, line_id, swims_with_id: elsewhere, disposition: 'placed' };
  const sire = await put('fish', { ...fish, sex: 'male', hatch_date: daysAgo(400) }, 'male');
  const dam = await put('fish', { ...fish, sex: 'female', hatch_date: daysAgo(400) }, 'female');
  const pairing = { person_id, sire_id: sire, dam_id: dam, planned_on: on };
  const pairing_id = await put('pairing', pairing);
  const spawn_id = await put('spawn', {
    ...{ person_id, line_id, sire_id: sire, dam_id: dam, spawned_on: on, pairing_id, failed: true },
  });
  const fish_id = await put('fish', { ...fish, sex: 'male', spawn_id, hatch_date: on });
  await put('spawn_event', { spawn_id, kind: 'spawned', at });
  await put('spawn_count', { spawn_id, stage: 'eggs', counted_on: on, number: 80 });
  await put('spawn_loss', { spawn_id, kind: 'culled', on_date: on, number: 2 });
  await put('class_count', {
    ...{ spawn_id, phenotype: 'red', number: 3, counted_on: on, locus_ids: ['dt'] },
  });
  await put('genotype', { fish_id, locus_id: 'dt', genotype: '+/+', basis: 'assumed' });
  await put('phenotype', { fish_id, locus_id: 'dt', phenotype: 'single tail', seen_on: on });
  const trait_id = await put('trait_definition', { person_id, kind: 'measured' });
  const sheet_id = await put('score_sheet', { person_id });
  await put('score_sheet_version', {
    ...{ sheet_id, version: 1, lines: '[]', faults: '[]', deductions: '{}' },
  });
  const scored = { fish_id, scored_on: daysAgo(1), scorer: 'Owner', by_account_id: ownerId };
  // A number that is found in nothing else.
  const value = lead === 'zlent' ? 414_253.5 : 717_253.5;
  await put('score', { ...scored, trait_id, trait_version: 1, value });
  marks.set('score.value', String(value));
  await put('sheet_scoring', { ...scored, sheet_id, sheet_version: 1, fault_ids: '[]' });
  await put('care_record', { spawn_id, step: 'cover', at, action: 'done' });
  const step = { id: 'cover', title: 'Cover', kind: 'do', why: '', basis: { kind: 'practice' } };
  const steps = JSON.stringify([{ ...step, after: [{ after: 'spawned', hours: 1 }] }]);
  await put('care_template', { person_id, line_id, steps });
  const vessel_id = await put('vessel', { person_id, kind: 'jar' });
  const here = { vessel_id, came_at: at, by_name: 'Owner' };
  await put('vessel_stay', { ...here, fish_id });
  await put('vessel_stay', { ...here, spawn_id }, 'spawn_stay');
  await put('water_reading', { person_id, spawn_id, vessel_id, taken_at: at, ph: 7 });
  await put('photo', {
    ...{ subject_kind: 'fish', subject_id: fish_id, fish_id, media_type: 'image/png' },
    ...{ bytes: 1, width: 1, height: 1, sha256: PICTURE },
  });
  await put('line_purpose', { line_id, version: 1, content: '{}', at });
  await put('round', {
    ...{ person_id, line_id, purpose_version: 0, planned_on: on },
    ...{ expected_worth: 1, expected_kinship: 0.1, expected_inbreeding: 0.1 },
  });
  await put('fish_act', { person_id, fish_count: 1, at });
  await put('past_import', {
    person_id,
    at,
    counts: '{"fish":1,"spawns":0,"lines":0,"scores":0,"traits":0}',
  });
  await put('import_shape', { person_id, at, columns: '[]', repairs: '{}' });
  await put('saved_search', { person_id, at });
  await put('import_run', { person_id, purpose: 'take', columns: '[]' });
  await put('computation', {
    kind: 'import',
    subject: randomUUID(),
    evidence: '',
    state: 'failed',
  });
  await put('scoring_draw', { spawn_id, drawn_on: on, drawn_from: 1, fish_ids: [fish_id] });
  const install_id = await put('partner_install', {
    ...{ person_id, signing_key: lead, reading_key: lead },
  });
  await put('line_exchange', { install_id, line_id });
  await put('share_install', {});
  await put('session', { id_hash: lead, person_id, expires_at: at });
  await put('backup_run', { kind: 'asked' });
  await put('fish_deal', {
    ...{ fish_id, person_id: ownerId, kind: 'sold', on_date: on, amount: 1250, currency: 'EUR' },
  });
  await put('show_result', { fish_id, on_date: on });
  await put('comment', { fish_id, person_id: ownerId });
  await put('club_request', {
    ...{ line_id, from_id: ownerId, to_id: elsewhere, what: 'fish' },
  });
  await put('hand_over', {
    ...{
      group_id: randomUUID(),
      fish_id,
      from_id: ownerId,
      kind: 'gift',
      offered_on: on,
      sex: 'male',
    },
  });
  await put('record_history', {
    ...{ record_kind: 'fish', record_id: fish_id, revision: 1, action: 'recorded' },
    changes: JSON.stringify({ note: { before: null, after: markOf(lead, 'history', 'changes') } }),
  });
  marks.set('record_history.changes', markOf(lead, 'history', 'changes'));
  return { ids, marks };
};
