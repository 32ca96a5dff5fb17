import js from '@eslint/js';
import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';
import { recordsInStock } from './eslint-records-in-stock.js';

/** Checked with types. Unit tests of the two applications belong to no project of the compiler. */
const typed = {
  files: ['libs/**/*.ts', 'db/**/*.ts', 'apps/*/src/**/*.{ts,tsx}', 'tests/**/*.ts'],
  ignores: [
    'apps/api/src/**/*.test.ts',
    'apps/viewer/src/**/*.test.ts',
    'tests/vitest.config.ts',
    'tests/bench/vite.config.ts',
    'tests/strategies/vite.config.ts',
  ],
};

/** Which project knows which files: each is read only where its files are looked at, since all of them together take 4 GB. */
const areas = [
  ['libs/**/*.ts', 'libs/*/tsconfig.json'],
  ['db/**/*.ts', 'db/*/tsconfig.json'],
  ...['api', 'shell', 'viewer'].map((app) => [
    `apps/${app}/src/**/*.{ts,tsx}`,
    `apps/${app}/tsconfig.json`,
  ]),
  ['tests/**/*.ts', 'tests/tsconfig.json'],
];

export default tseslint.config(
  { ignores: ['**/dist/**', '**/node_modules/**', '**/*.d.ts', '.data/**'] },
  js.configs.recommended,
  ...tseslint.configs.recommended,
  ...tseslint.configs.recommendedTypeCheckedOnly.map((config) => ({ ...config, ...typed })),
  ...areas.map(([files, project]) => ({
    files: [files],
    ignores: typed.ignores,
    languageOptions: { parserOptions: { project, tsconfigRootDir: import.meta.dirname } },
  })),
  {
    ...typed,
    rules: {
      // A row of a query is said to be what it is by an assertion beside the query.
      '@typescript-eslint/no-unnecessary-type-assertion': 'off',
      // An interface may ask for a promise where one way of keeping it needs none.
      '@typescript-eslint/require-await': 'off',
      '@typescript-eslint/no-misused-promises': [
        'error',
        { checksVoidReturn: { attributes: false } },
      ],
    },
  },
  {
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      // What is taken out of an object on purpose, to leave the rest, is not forgotten.
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', ignoreRestSiblings: true },
      ],
      'no-console': 'error',
    },
  },
  {
    files: ['apps/viewer/src/**/*.{ts,tsx}'],
    plugins: { 'react-hooks': reactHooks },
    rules: { 'react-hooks/rules-of-hooks': 'error', 'react-hooks/exhaustive-deps': 'error' },
  },
  {
    // Vitest's matchers (expect.closeTo) are of type any.
    files: ['tests/**', '**/*.test.ts'],
    rules: { '@typescript-eslint/no-unsafe-assignment': 'off' },
  },
  {
    // D3 is handed its own methods as values: selection.call(zoom.transform, ...).
    files: ['apps/viewer/src/drawings/**'],
    rules: { '@typescript-eslint/unbound-method': 'off' },
  },
  {
    // One clock for all: it is handed in, so that a test can say what day it is. Waits are measured by performance.now().
    ignores: [
      'apps/api/src/clock/machine-clock.ts',
      'apps/viewer/src/clock/clock.ts',
      'tests/clock.ts',
    ],
    rules: {
      'no-restricted-syntax': [
        'error',
        ...[
          'NewExpression[callee.name="Date"][arguments.length=0]',
          'CallExpression[callee.name="Date"]',
          'MemberExpression[object.name="Date"][property.name="now"]',
          'MemberExpression[object.name="Temporal"][property.name="Now"]',
        ].map((selector) => ({
          selector,
          message:
            'Take the time from the clock: Clock in the API, clock/clock.js in the viewer, tests/clock.js in tests; performance.now() for how long something takes.',
        })),
        {
          // Brackets keep it from finding itself.
          selector:
            ':matches(Literal[value=/current[_]date|now\\(\\)::[d]ate/i], TemplateElement[value.raw=/current[_]date|now\\(\\)::[d]ate/i])',
          message: 'The database does not know the keeper’s day: pass one from the clock.',
        },
      ],
    },
  },
  recordsInStock,
  { files: ['**/*.cjs'], languageOptions: { globals: { module: 'writable' } } },
  { files: ['tests/bench/**', 'tests/strategies/**'], rules: { 'no-console': 'off' } },
  {
    files: ['**/*.{js,mjs}'],
    languageOptions: { globals: { process: 'readonly', URL: 'readonly' } },
  },
);
