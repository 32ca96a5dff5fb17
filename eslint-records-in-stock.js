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

const SQL = new RegExp(
  `\\b(?:FROM|JOIN|INTO|UPDATE)\\s+(?:ONLY\\s+)?"?(${TABLES.join('|')})"?(?![\\w.])`,
);

const rule = {
  meta: {
    type: 'problem',
    schema: [],
    messages: {
      raw: 'SQL of the table "{{table}}" outside of the floor of records: ask stock/ for it, or put the read there.',
    },
  },
  create: (context) => {
    const look = (node, text) => {
      const table = SQL.exec(text)?.[1];
      if (table !== undefined) context.report({ node, messageId: 'raw', data: { table } });
    };
    return {
      Literal: (node) => typeof node.value === 'string' && look(node, node.value),
      TemplateElement: (node) => look(node, node.value.raw),
    };
  },
};

/** Files that read past the floor since before it was there: the list may grow shorter, and nothing is added to it. */
const STILL_OUTSIDE = [
  'apps/api/src/backup/restore-backup.ts',
  'apps/api/src/backup/write-backup.ts',
  'apps/api/src/care/care-plans.service.ts',
  'apps/api/src/carriers/test-matings.service.ts',
  'apps/api/src/exchange/exchange.service.ts',
  'apps/api/src/exchange/load-stock.ts',
  'apps/api/src/exchange/take-back.ts',
  'apps/api/src/kinship/masked-fish.ts',
  'apps/api/src/kinship/named-fish.ts',
  'apps/api/src/kinship/pedigree.service.ts',
  'apps/api/src/kinship/slice.service.ts',
  'apps/api/src/lines/lines.service.ts',
  'apps/api/src/loci/loci.service.ts',
  'apps/api/src/pairing/judging.service.ts',
  'apps/api/src/population/stock.service.ts',
  'apps/api/src/print/print-content.service.ts',
  'apps/api/src/scores/sheets/reliability.service.ts',
  'apps/api/src/sharing/share-apart.ts',
  'apps/api/src/sharing/share-fields.ts',
  'apps/api/src/sharing/share-selection.ts',
  'apps/api/src/sharing/share.service.ts',
  'apps/api/src/shell/export.ts',
  'apps/api/src/survival/survival.service.ts',
  'apps/api/src/water/water.service.ts',
];

export const recordsInStock = {
  files: ['apps/api/src/**/*.ts'],
  ignores: ['apps/api/src/stock/**', '**/*.test.ts', ...STILL_OUTSIDE],
  plugins: { house: { rules: { 'records-in-stock': rule } } },
  rules: { 'house/records-in-stock': 'error' },
};
