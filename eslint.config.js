import js from '@eslint/js';
import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';
import { recordsInStock } from './eslint-records-in-stock.js';

export default tseslint.config(
  { ignores: ['**/dist/**', '**/node_modules/**', '**/*.d.ts', '.data/**'] },
  js.configs.recommended,
  ...tseslint.configs.recommended,
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
        {
          selector:
            'CallExpression[callee.property.name="slice"][callee.object.property.name=/[aA]t$/][arguments.0.value=0][arguments.1.value=10]',
          message: 'That is the day in UTC: dayOf and happenedOn give the day where the person is.',
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
