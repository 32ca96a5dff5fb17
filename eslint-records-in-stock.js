/**
 * SQL that names a table of records stands in the floor of records (`apps/api/src/stock`): what is standing, in use or may be seen
 * is said there, and a feature that reads past it would say it again in its own way.
 */
const TABLES = [
  ...['fish', 'spawn', 'line', 'trait_definition', 'score', 'genotype', 'phenotype', 'own_locus'],
  ...['locus_setting', 'pairing', 'spawn_event', 'spawn_count', 'spawn_loss', 'class_count'],
  ...['care_entry', 'care_template', 'water_reading', 'score_sheet', 'score_sheet_version'],
  ...['sheet_scoring', 'photo'],
];

/** What stands, is in use, under way or in force: the floor's own views. */
const VIEWS = [
  ...TABLES.map((table) => `standing_${table}`),
  ...['fish_in_use', 'spawn_under_way', 'score_in_force'],
];

const SQL = new RegExp(
  `\\b(?:FROM|JOIN|INTO|UPDATE)\\s+(?:ONLY\\s+)?"?(${[...TABLES, ...VIEWS].join('|')})"?(?![\\w.])`,
);

const STANDING = /\bwithdrawn_at\s+IS\s+(?:NOT\s+)?NULL\b/i;

const rule = {
  meta: {
    type: 'problem',
    schema: [],
    messages: {
      raw: 'SQL of the table "{{table}}" outside of the floor of records: ask stock/ for it, or put the read there.',
      standing:
        'What stands is said in the floor of records: use thatStands or standingSql of stock/standing.ts.',
    },
  },
  create: (context) => {
    const look = (node, text) => {
      const table = SQL.exec(text)?.[1];
      if (table !== undefined) context.report({ node, messageId: 'raw', data: { table } });
      if (STANDING.test(text)) context.report({ node, messageId: 'standing' });
    };
    return {
      'Property[key.name="withdrawnAt"] > CallExpression[callee.name="IsNull"]': (node) =>
        context.report({ node, messageId: 'standing' }),
      Literal: (node) => typeof node.value === 'string' && look(node, node.value),
      TemplateElement: (node) => look(node, node.value.raw),
    };
  },
};

/** A backup is a floor of its own: it copies whole tables, whatever their rows mean, as one snapshot and past the views. */
const WHOLE_TABLES = ['restore-backup', 'write-backup'].map(
  (name) => `apps/api/src/backup/${name}.ts`,
);

export const recordsInStock = {
  files: ['apps/api/src/**/*.ts'],
  ignores: ['apps/api/src/stock/**', '**/*.test.ts', ...WHOLE_TABLES],
  plugins: { house: { rules: { 'records-in-stock': rule } } },
  rules: { 'house/records-in-stock': 'error' },
};
