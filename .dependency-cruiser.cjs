/** Who may import whom: docs/architecture.md draws the same arrows. */
const onlyFrom = (name, from, allowed) => ({
  name,
  severity: 'error',
  from: { path: from, pathNot: '\\.test\\.ts$' },
  to: { path: '^(libs|apps|db|tests)/', pathNot: allowed },
});

module.exports = {
  forbidden: [
    {
      name: 'no-cycles-between-rooms',
      severity: 'error',
      from: { path: '^(libs|db)/([^/]+)/' },
      to: { circular: true, pathNot: '^$1/$2/' },
    },
    {
      name: 'no-cycles-in-libs',
      severity: 'error',
      from: { path: '^libs/' },
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
    onlyFrom('pedigree-imports-nothing', '^libs/pedigree/', '^libs/pedigree/'),
    onlyFrom('kinship-imports-pedigree', '^libs/kinship/', '^libs/(kinship|pedigree)/'),
    onlyFrom('heredity-imports-pedigree', '^libs/heredity/', '^libs/(heredity|pedigree)/'),
    onlyFrom(
      'layout-imports-pedigree',
      '^libs/pedigree-layout/',
      '^libs/(pedigree-layout|pedigree)/',
    ),
    onlyFrom(
      'mating-imports-all-but-layout',
      '^libs/mating/',
      '^libs/(mating|pedigree|kinship|heredity)/',
    ),
    onlyFrom(
      'api-imports-libs-and-db',
      '^apps/api/',
      '^(apps/api|libs/(pedigree|kinship|heredity|mating|care|merit)|db)/',
    ),
    onlyFrom('care-imports-nothing', '^libs/care/', '^libs/care/'),
    onlyFrom(
      'merit-imports-pedigree-and-kinship',
      '^libs/merit/',
      '^libs/(merit|pedigree|kinship)/',
    ),
    onlyFrom('viewer-imports-libs', '^apps/viewer/', '^(apps/viewer|libs)/'),
    onlyFrom('db-imports-libs', '^db/', '^(db|libs)/'),
    {
      name: 'no-deep-imports',
      severity: 'error',
      from: { path: '^(apps|db|libs)/([^/]+)/' },
      to: { path: '^libs/([^/]+)/src/', pathNot: ['^$1/$2/', '^libs/[^/]+/src/index\\.ts$'] },
    },
    {
      name: 'libs-are-pure',
      severity: 'error',
      from: { path: '^libs/', pathNot: '\\.test\\.ts$' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'nobody-imports-tests',
      severity: 'error',
      from: { pathNot: '^tests/' },
      to: { path: '^tests/' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '(^|/)dist/' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['linewright-source', 'import', 'default'],
    },
    tsConfig: { fileName: 'tsconfig.json' },
  },
};
