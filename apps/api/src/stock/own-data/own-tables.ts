/** Of a table, which rows `t` are somebody's own; `$1` stands for their id. */
export interface OwnTable {
  readonly table: string;
  /** What its rows are, for people. */
  readonly title: string;
  /** SQL that is true for their rows. */
  readonly theirs: string;
  /** Columns that are secret, or another's. */
  readonly without?: readonly string[];
}

const FISH = '(SELECT id FROM fish WHERE person_id = $1)';
const SPAWN = '(SELECT id FROM spawn WHERE person_id = $1)';
const LINE = '(SELECT id FROM line WHERE person_id = $1)';
const own = (table: string, title: string, without: readonly string[] = []): OwnTable => ({
  ...{ table, title, without },
  theirs: 't.person_id = $1',
});
const ofSpawn = (table: string, title: string): OwnTable => ({
  ...{ table, title },
  theirs: `t.spawn_id IN ${SPAWN}`,
});
const ofFish = (table: string, title: string, more = ''): OwnTable => ({
  ...{ table, title },
  theirs: `t.fish_id IN ${FISH}${more}`,
});
const byThem = (table: string, title: string, without: readonly string[] = []): OwnTable => ({
  ...{ table, title, without },
  theirs: 't.asked_by_account_id = $1',
});

const accounts: readonly OwnTable[] = [
  { table: 'person', title: 'You', theirs: 't.id = $1' },
  own('session', 'Browsers you are signed in in', ['id_hash']),
  own('invitation', 'Link that invites you', ['token_hash']),
  own('second_step', 'Second step', ['secret', 'last_step']),
  own('passkey', 'Passkeys', ['credential_id', 'public_key', 'counter']),
  own('program_token', 'Tokens for programs', ['token_hash']),
  own('calendar_address', 'Address of your calendar', ['secret_hash']),
  {
    table: 'line_grant',
    title: 'Lines shared with you, and by you',
    theirs: 't.account_id = $1 OR t.by_account_id = $1',
  },
  { table: 'kept_line', title: 'Lines that you keep here', theirs: 't.account_id = $1' },
  { table: 'club_line', title: 'Lines you show to the club', theirs: 't.keeper_id = $1' },
  {
    table: 'club_request',
    title: 'Requests, yours and to you',
    theirs: 't.from_id = $1 OR t.to_id = $1',
  },
  own('partner_install', 'Your own installs', ['folder', 'problem', 'strangers']),
];

const records: readonly OwnTable[] = [
  own('line', 'Lines'),
  own('fish', 'Fish'),
  own('spawn', 'Spawns'),
  own('pairing', 'Planned pairs'),
  own('water_reading', 'Water readings'),
  own('vessel', 'Jars, tanks and tubs'),
  {
    table: 'vessel_stay',
    title: 'Who was in which',
    theirs: 't.vessel_id IN (SELECT id FROM vessel WHERE person_id = $1)',
  },
  own('water_rule', 'Your rule for water'),
  own('trait_definition', 'Traits'),
  {
    table: 'trait_model',
    title: 'How traits are judged',
    theirs: 't.trait_id IN (SELECT id FROM trait_definition WHERE person_id = $1)',
  },
  own('score_sheet', 'Score sheets'),
  {
    table: 'score_sheet_version',
    title: 'Versions of score sheets',
    theirs: 't.sheet_id IN (SELECT id FROM score_sheet WHERE person_id = $1)',
  },
  own('own_locus', 'Loci of your own'),
  {
    table: 'own_locus_version',
    title: 'Versions of loci of your own',
    theirs: 't.own_locus_id IN (SELECT id FROM own_locus WHERE person_id = $1)',
  },
  own('care_template', 'Care plans'),
  own('round', 'Rounds'),
  {
    table: 'round_pair',
    title: 'Pairs of rounds',
    theirs: 't.round_id IN (SELECT id FROM round WHERE person_id = $1)',
  },
  {
    table: 'hand_over',
    title: 'Fish given and received',
    theirs: 't.from_id = $1 OR t.to_id = $1',
  },
  {
    table: 'fish_claim',
    title: 'Fish claimed',
    theirs: 't.by_id = $1 OR t.to_id = $1',
  },
  own('fish_deal', 'Prices of fish'),
  own('line_route', 'Plans of lines'),
  {
    table: 'line_purpose',
    title: 'What lines are for',
    theirs: `t.line_id IN ${LINE} OR t.by_account_id = $1`,
  },
  { table: 'locus_setting', title: 'Settings of loci', theirs: `t.line_id IN ${LINE}` },
  ofSpawn('spawn_event', 'Log of spawns'),
  ofSpawn('spawn_count', 'Counts of spawns'),
  ofSpawn('spawn_loss', 'Losses and culls'),
  ofSpawn('class_count', 'Counts by look'),
  ofSpawn('care_record', 'Care'),
  ofSpawn('scoring_draw', 'Draws for scoring'),
  ofFish('show_result', 'Results of shows'),
  ofFish('genotype', 'Genotypes'),
  ofFish('phenotype', 'Looks'),
  ofFish('score', 'Scores', ' OR t.by_account_id = $1'),
  ofFish('sheet_scoring', 'Scorings on sheets', ' OR t.by_account_id = $1'),
  own('comment', 'Your comments'),
  ofFish('photo', 'Photos', ` OR t.spawn_id IN ${SPAWN}`),
];

const doings: readonly OwnTable[] = [
  own('received_entry', 'Entries from your devices'),
  own('fish_act', 'Acts for several fish'),
  {
    table: 'past_import',
    title: 'Files taken in',
    theirs: 't.person_id = $1 OR t.by_account_id = $1 OR t.taken_back_by_account_id = $1',
  },
  own('import_run', 'Large files sent', ['body']),
  own('import_shape', 'How your files are read', ['shape']),
  own('saved_search', 'Searches you saved'),
  byThem('computation', 'Long computations you asked for', ['evidence', 'result']),
  byThem('backup_run', 'Backups you asked for'),
  {
    table: 'record_history',
    title: 'Changes, by you and of your records',
    theirs: `t.by_account_id = $1 OR t.record_id IN (SELECT id FROM fish WHERE person_id = $1
      UNION ALL SELECT id FROM spawn WHERE person_id = $1 UNION ALL SELECT id FROM line WHERE person_id = $1)`,
  },
];

/** Every table that holds something of somebody's, in the order of the file. */
export const ownTables: readonly OwnTable[] = [...accounts, ...records, ...doings];

/** Tables that hold nothing of one's own to take along, each with the reason. A test asks for every table to be here or above. */
export const nobodysTables: Readonly<Record<string, string>> = {
  migration: 'names of changes of the schema',
  install_state: 'state of the whole install',
  credential: 'the hash of a password: a secret',
  spare_code: 'hashes of spare codes: secrets',
  passkey_challenge: 'questions that are answered within minutes',
  refused_attempt: 'refused sign-ins of the last day, by address',
  record_mark: 'marks of changes: numbers without a record',
  share_base: 'fingerprints of records that older files agreed on',
  share_state: 'the keys of the install',
  share_install: 'whose installs partners told of',
  record_stamp: 'versions of records that are told themselves',
  erased_record: 'ids alone',
  club_figure: 'which lines a figure of the club was worked out from',
  line_exchange: 'what was last given to and taken from an install',
  past_import_record: 'which records an import brought: the records are told themselves',
};
