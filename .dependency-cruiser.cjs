/** Who may import whom: docs/architecture.md draws the same arrows. */
const onlyFrom = (name, from, allowed) => ({
  name,
  severity: 'error',
  from: { path: from, pathNot: '\\.test\\.ts$' },
  to: { path: '^(libs|apps|db|tests)/', pathNot: allowed },
});

/**
 * Rooms by floor, the lowest first. A room imports from lower floors only, so that none reaches itself and no feature knows another;
 * files beside the rooms (main, the modules' list) stand on the roof and may import all.
 */
const API_FLOORS = [
  ['access'],
  ['config', 'errors', 'limits'],
  ['clock'],
  ['database', 'photo-files', 'zip-files'],
  ['graphql'],
  ['stock'],
  ['accounts', 'shapes'],
  ['home-network', 'jobs', 'kinship', 'loci'],
  ['spawns'],
  ['carriers', 'merit'],
  ['pairing'],
  [
    ...[
      'backup',
      'care',
      'entrance',
      'entries',
      'fish',
      'heredity',
      'history',
      'import-and-export',
    ],
    ...[
      'grants',
      'hand-over',
      'keeping',
      'line-health',
      'line-purpose',
      'line-routes',
      'lines',
      'photos',
      'print',
    ],
    ...[
      'club',
      'comments',
      'deals',
      'shows',
      'relationship',
      'rounds',
      'scores',
      'search',
      'sharing',
      'survival',
      'vessels',
      'water',
    ],
  ],
  ['commands', 'demo', 'own-data', 'schema'],
];

const VIEWER_FLOORS = [
  ['clock', 'look'],
  ['api', 'drawings'],
  ['session', 'wording'],
  ['components'],
  ['outbox', 'pickers'],
  ['panels'],
  ['screens'],
  ['frame', 'gallery'],
];

const floorRules = (app, floors) => {
  const at = (rooms) => `^apps/${app}/src/(${rooms.join('|')})/`;
  const known = floors.flat();
  return [
    {
      name: `${app}-rooms-have-a-floor`,
      comment: 'A new room is put on a floor above.',
      severity: 'error',
      from: { path: `^apps/${app}/src/[^/]+/`, pathNot: at(known) },
      to: {},
    },
    ...floors.flatMap((floor, k) =>
      floor.map((room) => ({
        name: `${app}-floor-of-${room}`,
        severity: 'error',
        from: { path: at([room]), pathNot: '\\.test\\.tsx?$' },
        to: { path: `^apps/${app}/src/`, pathNot: at([room, ...floors.slice(0, k).flat()]) },
      })),
    ),
  ];
};

module.exports = {
  forbidden: [
    {
      name: 'no-cycles-between-rooms',
      severity: 'error',
      from: { path: '^(libs|db)/([^/]+)/' },
      to: { circular: true, pathNot: '^$1/$2/' },
    },
    {
      name: 'no-cycles',
      comment: 'Types count: what two files need of each other stands in a third.',
      severity: 'error',
      from: { path: '^(libs|db|apps)/' },
      to: { circular: true },
    },
    ...floorRules('api', API_FLOORS),
    ...floorRules('viewer', VIEWER_FLOORS),
    onlyFrom('shell-imports-libs', '^apps/shell/', '^(apps/shell|libs)/'),
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
      '^libs/(mating|pedigree|kinship|heredity|merit)/',
    ),
    onlyFrom(
      'api-imports-libs-and-db',
      '^apps/api/',
      '^(apps/api|libs/(pedigree|pedigree-layout|kinship|heredity|mating|care|merit|merging|repair|pictures)|db)/',
    ),
    onlyFrom('care-imports-pedigree', '^libs/care/', '^libs/(care|pedigree)/'),
    onlyFrom(
      'merit-imports-pedigree-and-kinship',
      '^libs/merit/',
      '^libs/(merit|pedigree|kinship)/',
    ),
    onlyFrom('merging-imports-nothing', '^libs/merging/', '^libs/merging/'),
    onlyFrom('repair-imports-pedigree', '^libs/repair/', '^libs/(repair|pedigree)/'),
    onlyFrom('pictures-imports-heredity', '^libs/pictures/', '^libs/(pictures|heredity)/'),
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
    exclude: { path: '(^|/)dist/|graphql-(cache|env)\\.d\\.ts$' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['linewright-source', 'import', 'default'],
    },
    tsConfig: { fileName: 'tsconfig.json' },
  },
};
