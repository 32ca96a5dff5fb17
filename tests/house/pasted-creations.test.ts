import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { creations } from '../new-records.js';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** A mutation that makes a record, written out in a test though `newRecords` and `creation` write it. */
const pasted = (text: string): string[] =>
  [
    ...text.matchAll(
      new RegExp(`\\b(${Object.keys(creations).join('|')})\\s*\\(\\s*input\\s*:`, 'g'),
    ),
  ].map(([, name]) => name!);

/** Whole documents are what these look at: a save beside an operation that takes a file. */
const OF_DOCUMENTS = ['tests/api/entrance.test.ts'];

describe('records of tests', () => {
  const files = execFileSync('git', ['ls-files', '-co', '--exclude-standard', 'tests'], {
    cwd: root,
  })
    .toString()
    .split('\n')
    .filter((file) => file.endsWith('.ts') && !OF_DOCUMENTS.includes(file));

  it('are made by the builders, and no mutation for them is written out again', () => {
    const found = files.flatMap((file) =>
      pasted(readFileSync(join(root, file), 'utf8')).map((name) => `${file}: ${name}`),
    );
    expect(found).toEqual([]);
  });

  it.each([
    [
      'with variables',
      `mutation ($input: CreateFishInput!) { ${'createFish'}(input: $input) { id } }`,
    ],
    ['with its values', `mutation { ${'createLine'}(\n  input: {code: "A", name: "A"}) { id } }`],
    ['under another name', `mutation { male: ${'addFishToSpawn'}(input: {sex: MALE}) { id } }`],
  ])('are seen where one is written out %s', (_, text) => {
    expect(pasted(text)).toHaveLength(1);
  });
});
