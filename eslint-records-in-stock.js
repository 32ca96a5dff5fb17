/**
 * Tables of records are read and written by the floor of records (`apps/api/src/stock`): what is standing, in use or may be seen
 * is said there, and a feature that reads past it would say it again in its own way. SQL that names such a table is refused
 * elsewhere, and so is the class of its rows: without it there is no repository, and its type is enough to work with what the
 * floor gave.
 */
const TABLES = [
  ...['fish', 'spawn', 'line', 'trait_definition', 'score', 'genotype', 'phenotype', 'own_locus'],
  ...['line_purpose', 'line_route', 'round', 'round_pair', 'record_mark'],
  ...['own_locus_version', 'locus_setting', 'pairing', 'spawn_event', 'spawn_count', 'spawn_loss'],
  ...['class_count', 'care_record', 'care_template', 'water_reading', 'score_sheet'],
  ...['score_sheet_version', 'sheet_scoring', 'photo', 'record_history', 'person', 'line_grant'],
  ...['hand_over', 'kept_line', 'comment', 'club_line', 'club_request', 'club_figure'],
  ...['fish_deal', 'show_result', 'vessel', 'vessel_stay'],
  'erased_record',
];

/** What stands, is in use, under way or in force: the floor's own views. */
const VIEWS = [
  ...TABLES.map((table) => `standing_${table}`),
  ...['fish_in_use', 'spawn_under_way', 'score_in_force'],
];

/**
 * Tables that are one feature's own, its settings, sessions, jobs and notes: nobody above the floor of records reads or writes them
 * but this room. Accounts make the row of people who have one, so that its class is theirs as well.
 */
const OWN = {
  accounts: {
    rows: [
      ...['PersonRow', 'CredentialRow', 'InvitationRow', 'SessionRow', 'RefusedAttemptRow'],
      ...['SecondStepRow', 'SpareCodeRow', 'PasskeyRow', 'PasskeyChallengeRow', 'ProgramTokenRow'],
    ],
    tables: [
      ...['credential', 'invitation', 'session', 'refused_attempt', 'second_step', 'spare_code'],
      ...['passkey', 'passkey_challenge', 'program_token'],
    ],
  },
  backup: { rows: ['BackupRunRow'], tables: ['backup_run'] },
  care: { rows: ['CalendarAddressRow'], tables: ['calendar_address'] },
  entries: { rows: ['ReceivedEntryRow'], tables: ['received_entry'] },
  'import-and-export': {
    rows: ['ImportRunRow', 'ImportShapeRow', 'PastImportRow', 'PastImportRecordRow'],
    tables: ['import_run', 'import_shape', 'past_import', 'past_import_record'],
  },
  fish: { rows: ['FishActRow'], tables: ['fish_act'] },
  'hand-over': { rows: ['FishClaimRow'], tables: ['fish_claim'] },
  search: { rows: ['SavedSearchRow'], tables: ['saved_search'] },
  merit: {
    rows: ['TraitModelRow', 'ScoringDrawRow'],
    tables: ['trait_model', 'scoring_draw'],
  },
  jobs: { rows: ['ComputationRow'], tables: ['computation'] },
  sharing: {
    rows: [
      ...['ShareBaseRow', 'ShareStateRow', 'ShareInstallRow', 'RecordStampRow'],
      ...['PartnerInstallRow', 'LineExchangeRow'],
    ],
    tables: [
      ...['share_base', 'share_state', 'share_install', 'record_stamp'],
      ...['partner_install', 'line_exchange'],
    ],
  },
  water: { rows: ['WaterRuleRow'], tables: ['water_rule'] },
};

const named = [...TABLES, ...VIEWS, ...Object.values(OWN).flatMap(({ tables }) => tables)];
/** What stands before the name of a table, and what may stand between. */
const BEFORE =
  '\\b(?:FROM|JOIN|INTO|UPDATE|USING|TRUNCATE|COPY|LOCK|TABLE)\\s+(?:TABLE\\s+)?(?:ONLY\\s+)?(?:"?public"?\\.)?';
const TABLE = `"?(${named.join('|')})"?(?![\\w."])`;
const SQL = new RegExp(BEFORE + TABLE, 'g');
/** A list of tables begins so, and ends with its bracket or with the next part of the statement. */
const LIST = /(?<!\bDISTINCT\s+)\b(?:FROM|USING|TRUNCATE|LOCK)\b/g;
const LIST_ENDS = /^(?:WHERE|GROUP|ORDER|HAVING|LIMIT|UNION|RETURNING|SELECT|FOR)\b/;
const IN_LIST = new RegExp(`^,\\s*(?:LATERAL\\s+|ONLY\\s+)?(?:"?public"?\\.)?${TABLE}`);
/** SQL whose table is put in where the text ends. */
const OPEN_ENDED = new RegExp(`${BEFORE}"?$`);
/** Rights are given and taken of whole tables, and policies put upon them. */
const RIGHTS = /\b(?:GRANT|REVOKE|ALTER\s+TABLE)\b/;
const STANDING = /\bwithdrawn_at\s+IS\s+(?:NOT\s+)?NULL\b/i;
const ROWS = /\/stock\/(?:rows\/[\w-]+\.entity|entities)(?:\.js)?$/;
/** Ways to rows by the name of their table, or by the class that a kind of record carries. */
const ASKING = new RegExp(
  '^(getRepository|getTreeRepository|createQueryBuilder|find\\w*|exists?\\w*|count\\w*|from|into|insert|update|upsert|delete|(left|inner)Join\\w*)$',
);

/** Tables that stand second or later in a list of a text, such as `FROM a, fish f`. */
const laterInLists = (text) =>
  [...text.matchAll(LIST)].flatMap(({ index }) => {
    const found = [];
    for (let at = index, depth = 0; at < text.length && depth >= 0; at += 1) {
      if (text[at] === '(') depth += 1;
      if (text[at] === ')') depth -= 1;
      if (depth !== 0) continue;
      if (/\W/.test(text[at - 1] ?? ' ') && LIST_ENDS.test(text.slice(at, at + 10))) break;
      const listed = text[at] === ',' ? IN_LIST.exec(text.slice(at)) : null;
      if (listed !== null) found.push(listed[1]);
    }
    return found;
  });

const roomOf = (path) => /apps\/api\/src\/([^/]+)\//.exec(path.replaceAll('\\', '/'))?.[1] ?? '';

const rule = {
  meta: {
    type: 'problem',
    schema: [],
    messages: {
      raw: 'SQL of the table "{{table}}" outside of the floor of records: ask stock/ for it, or put the read there.',
      open: 'SQL of a table that is put in by name, outside of the floor of records: put it into stock/.',
      rows: '{{name}} is a class of rows and stays in the floor of records: import its type, and ask stock/ for the rows.',
      named:
        'Rows of "{{table}}" by name, outside of the floor of records: ask stock/ for them, or put the read there.',
      standing:
        'What stands is said in the floor of records: use thatStands or standingSql of stock/standing.ts.',
    },
  },
  create: (context) => {
    const { rows: ownRows, tables: ownTables } = OWN[roomOf(context.filename)] ?? {
      rows: [],
      tables: [],
    };
    const lookAtStanding = (node, text) => {
      if (STANDING.test(text)) context.report({ node, messageId: 'standing' });
    };
    /** The floor of records reads its tables; what of them stands is said in one file even there. */
    if (roomOf(context.filename) === 'stock')
      return {
        Literal: (node) => typeof node.value === 'string' && lookAtStanding(node, node.value),
        TemplateElement: (node) => lookAtStanding(node, node.value.raw),
      };
    const look = (node, text, goesOn) => {
      const found = [...[...text.matchAll(SQL)].map(([, table]) => table), ...laterInLists(text)];
      const table = found.find((one) => !ownTables.includes(one));
      if (table !== undefined) context.report({ node, messageId: 'raw', data: { table } });
      if (goesOn && OPEN_ENDED.test(text) && !RIGHTS.test(text))
        context.report({ node, messageId: 'open' });
      lookAtStanding(node, text);
    };
    const lookAtImport = ({ source, importKind, exportKind, specifiers }) => {
      if ((importKind ?? exportKind) === 'type' || !ROWS.test(source?.value ?? '')) return;
      for (const node of specifiers) {
        const name = (node.imported ?? node.local).name;
        // What is written small is a function or a list, and no class; the list of all entities is as good as each of them.
        if ((node.importKind ?? node.exportKind) === 'type' || ownRows.includes(name)) continue;
        if (/Row$/.test(name) || !/^(Im|Ex)portSpecifier$/.test(node.type) || name === 'entities')
          context.report({ node, messageId: 'rows', data: { name } });
      }
    };
    /** What is passed on or fetched whole may hold any class of rows. */
    const lookAtWhole = (node) => {
      const from = node.source.value ?? node.source.quasis?.at(-1).value.raw ?? '';
      if (node.exportKind !== 'type' && ROWS.test(from))
        context.report({ node, messageId: 'rows', data: { name: from } });
    };
    const lookAtAsking = (node) => {
      const [first] = node.arguments;
      if (!ASKING.test(node.callee.property.name ?? '')) return;
      const byKind = first?.type === 'MemberExpression' && first.property.name === 'target';
      const table = byKind ? 'its kind' : first?.type === 'Literal' ? first.value : undefined;
      if (byKind || (named.includes(table) && !ownTables.includes(table)))
        context.report({ node, messageId: 'named', data: { table } });
    };
    return {
      'Property[key.name="withdrawnAt"] > CallExpression[callee.name="IsNull"]': (node) =>
        context.report({ node, messageId: 'standing' }),
      ImportDeclaration: lookAtImport,
      ExportNamedDeclaration: lookAtImport,
      ExportAllDeclaration: lookAtWhole,
      ImportExpression: lookAtWhole,
      'CallExpression[callee.type="MemberExpression"]': lookAtAsking,
      Literal: (node) => typeof node.value === 'string' && look(node, node.value, false),
      TemplateElement: (node) => look(node, node.value.raw, !node.tail),
    };
  },
};

/** A backup is a floor of its own: it copies whole tables, whatever their rows mean, as one snapshot and past the views. */
const WHOLE_TABLES = ['carried-tables', 'restore-backup', 'write-backup'].map(
  (name) => `apps/api/src/backup/${name}.ts`,
);

/** Every table whose reads it refuses outside of the floor, or of the one room that it belongs to. */
export const tablesInStock = [...TABLES, ...Object.values(OWN).flatMap(({ tables }) => tables)];

export const recordsInStock = {
  files: ['apps/api/src/**/*.ts'],
  // Of the floor: the file that says it, and the classes of rows, whose indexes hold for the rows that stand.
  ignores: [
    ...['apps/api/src/stock/standing.ts', 'apps/api/src/stock/rows/**'],
    ...['**/*.test.ts', ...WHOLE_TABLES],
  ],
  plugins: { house: { rules: { 'records-in-stock': rule } } },
  rules: { 'house/records-in-stock': 'error' },
};
