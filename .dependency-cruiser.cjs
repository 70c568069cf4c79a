/** One-way imports: browser -> shared <- studio -> platform. DEVELOPERS.md says why. */
const capabilities = [
  'people',
  'catalogue',
  'stock',
  'scales',
  'visits',
  'bookings',
  'bowls',
  'pricing',
  'waste',
  'purchasing',
];

/** A capability uses only those before it in the day, and only through its service or module. */
const dayOrder = capabilities.map((name, index) => ({
  name: `day-order-${name}`,
  severity: 'error',
  comment: `${name} uses only capabilities before it in the day`,
  from: { path: `^src/studio/${name}/` },
  to: { path: `^src/studio/(${capabilities.slice(index + 1).join('|') || 'none'})/` },
}));

module.exports = {
  forbidden: [
    {
      name: 'shared-is-pure',
      severity: 'error',
      comment:
        'shared/ imports shared/ only: no clock, randomness, Node, framework, not even types',
      from: { path: '^shared/' },
      to: { pathNot: ['^shared/', 'node_modules/decimal\\.js/'] },
    },
    {
      name: 'decimal-in-one-place',
      severity: 'error',
      from: { pathNot: '^shared/decimal\\.ts$' },
      to: { path: 'node_modules/decimal\\.js/' },
    },
    {
      name: 'platform-names-no-capability',
      severity: 'error',
      from: { path: '^src/platform/' },
      to: { path: '^src/(studio|browser|command-line)/|^seed/' },
    },
    {
      name: 'studio-stands-on-platform-and-shared',
      severity: 'error',
      from: { path: '^src/studio/' },
      to: { path: '^src/(browser|command-line)/|^seed/|^tests/' },
    },
    {
      name: 'browser-meets-service-in-shared',
      severity: 'error',
      from: { path: '^src/browser/' },
      to: { path: '^src/(studio|platform|command-line)/|^migrations/|^seed/' },
    },
    {
      name: 'service-does-not-import-browser',
      severity: 'error',
      from: { path: '^src/(studio|platform|command-line)/' },
      to: { path: '^src/browser/' },
    },
    {
      name: 'capability-through-its-door',
      severity: 'error',
      comment: 'another capability is used through its service or module only',
      from: { path: '^src/studio/([^/]+)/' },
      to: {
        path: '^src/studio/([^/]+)/',
        pathNot: ['^src/studio/$1/', '\\.(service|module)\\.ts$'],
      },
    },
    {
      name: 'sql-has-its-home',
      severity: 'error',
      comment: 'typeorm and pg only in platform/database and a capability’s own files for them',
      from: {
        path: '^src/',
        pathNot: [
          '^src/platform/database/',
          '^src/studio/[^/]+/[^/]+\\.(service|queries|entity|module)\\.ts$',
        ],
      },
      to: { path: 'node_modules/(typeorm|pg|@nestjs/typeorm)/' },
    },
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'resolvable',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
    ...dayOrder,
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default'],
    },
  },
};
