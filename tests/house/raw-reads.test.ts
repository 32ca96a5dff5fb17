import { ESLint } from 'eslint';
import tseslint from 'typescript-eslint';
import { getMetadataArgsStorage } from 'typeorm';
import { describe, expect, it } from 'vitest';
import '../../apps/api/src/stock/entities.js';

const { recordsInStock, tablesInStock } = (await import(
  '../../eslint-records-in-stock.js' as string
)) as {
  recordsInStock: { ignores: string[] };
  tablesInStock: string[];
};

/** A table that holds no record and belongs to no one room; and one that no class of rows stands for. */
const OUTSIDE = ['install_state'];
const NO_CLASS = ['record_mark'];

/** What the rule says of a text in a file of that path. */
const said = async (path: string, text: string): Promise<string[]> => {
  const languageOptions = { parser: tseslint.parser };
  const overrideConfig = [{ ...recordsInStock, languageOptions }] as never;
  const lint = new ESLint({ overrideConfigFile: true, overrideConfig });
  const [result] = await lint.lintText(text, { filePath: path });
  return (result?.messages ?? []).flatMap(({ ruleId }) => (ruleId === null ? [] : [ruleId]));
};

const feature = 'apps/api/src/fish/planted.ts';
const rule = 'house/records-in-stock';

describe('SQL of tables of records', () => {
  it('is read past the floor by nothing but the backup, which copies whole tables', () => {
    expect(recordsInStock.ignores).toEqual([
      'apps/api/src/stock/standing.ts',
      'apps/api/src/stock/rows/**',
      '**/*.test.ts',
      'apps/api/src/backup/carried-tables.ts',
      'apps/api/src/backup/restore-backup.ts',
      'apps/api/src/backup/write-backup.ts',
    ]);
  });

  it('is refused for every table that is mapped, those apart that are said', () => {
    const mapped = getMetadataArgsStorage().tables.map(({ name }) => name);
    expect(mapped.length).toBeGreaterThan(40);
    expect([...mapped, ...NO_CLASS].sort()).toEqual([...tablesInStock, ...OUTSIDE].sort());
  });

  it.each([
    'const sql = `SELECT id FROM fish WHERE id = $1`;',
    'const sql = `SELECT id FROM round`;',
    'const sql = `SELECT 1 FROM standing_line_route r JOIN line_purpose p ON true`;',
    'const sql = `SELECT f.id FROM unnest($1::uuid[]) AS a, fish f`;',
    'const sql = `SELECT f.id FROM install_state a, LATERAL (SELECT 1) b, "fish" AS f`;',
    'const sql = `SELECT id FROM public.fish`;',
    'const sql = `SELECT id FROM "public"."fish"`;',
    "const sql = 'TRUNCATE fish';",
    "const sql = 'TRUNCATE TABLE ONLY install_state, round_pair';",
    'const sql = `COPY fish (id) FROM STDIN`;',
    'const sql = `LOCK TABLE fish IN SHARE MODE`;',
    'const sql = `DELETE FROM install_state USING fish WHERE true`;',
    'const sql = `TABLE record_mark`;',
    "const sql = 'SELECT s.tag FROM line l JOIN spawn s ON s.line_id = l.id';",
    'const sql = `UPDATE "score" SET value = ${1}`;',
    'const sql = `SELECT id FROM standing_fish f JOIN person k ON k.id = f.person_id`;',
    'const sql = `SELECT count(*) FROM fish_in_use`;',
    "query.andWhere('f.withdrawn_at IS NULL');",
    'const where = { spawnId, withdrawnAt: IsNull() };',
    'const sql = `SELECT id FROM "${table}" WHERE id = $1`;',
    'const sql = `UPDATE computation SET stop_asked = true`;',
    'const sql = `SELECT name FROM person`;',
  ])('is refused in a feature: %s', async (text) => {
    expect(await said(feature, text)).toContain(rule);
  });

  it('stands in the floor of records', async () => {
    const text = 'const sql = `SELECT id FROM fish`;';
    expect(await said('apps/api/src/stock/planted.ts', text)).toEqual([]);
  });

  it.each([
    "query.andWhere('f.withdrawn_at IS NULL');",
    'const sql = `SELECT ${id}, f.withdrawn_at IS NOT NULL AS gone FROM fish f`;',
  ])('says what stands in one file of the floor and not again: %s', async (text) => {
    expect(await said('apps/api/src/stock/planted.ts', text)).toContain(rule);
    expect(await said('apps/api/src/stock/standing.ts', text)).toEqual([]);
  });

  it('is not seen in words, nor in tables that hold no records, nor where rights are given', async () => {
    const text =
      "const told = 'A fish FROM fishes'; const sql = 'SELECT 1 FROM install_state'; const right = `REVOKE UPDATE ON x FROM ${role}`; const parts = 'SELECT (a IS DISTINCT FROM b), score FROM install_state WHERE (1, line) = ANY (x), fish';";
    expect(await said(feature, text)).toEqual([]);
  });
});

const classOf = (name: string, file: string) =>
  `import { ${name} } from '../stock/rows/${file}.entity.js';\nconst rows = manager.find(${name}, {});`;

describe('rows of tables of records, by a repository', () => {
  it.each([
    classOf('FishRow', 'fish'),
    classOf('FishRow as Fish', 'fish'),
    classOf('PersonRow', 'person'),
    classOf('ComputationRow', 'computation'),
    "import * as rows from '../stock/rows/fish.entity.js';",
    "import { entities } from '../stock/entities.js';",
    "const rows = dataSource.getRepository('fish').find();",
    "const rows = dataSource.getRepository('round').find();",
    "export { FishRow } from '../stock/rows/fish.entity.js';",
    "export * from '../stock/rows/fish.entity.js';",
    "export * as rows from '../stock/entities.js';",
    "const { FishRow } = await import('../stock/rows/fish.entity.js');",
    'const { FishRow } = await import(`../stock/rows/fish.entity.js`);',
    "const rows = dataSource.createQueryBuilder().from('standing_fish', 'f').getRawMany();",
    "query.innerJoin('spawn', 's', 's.id = f.spawn_id');",
    'const row = await manager.findOneBy(fishRecord.target, { id });',
  ])('are refused in a feature: %s', async (text) => {
    expect(await said(feature, text)).toContain(rule);
  });

  it('are refused in a room whose own table it is not, and read in the room whose own it is', async () => {
    const text = classOf('ComputationRow', 'computation');
    expect(await said('apps/api/src/water/planted.ts', text)).toContain(rule);
    expect(await said('apps/api/src/jobs/planted.ts', text)).toEqual([]);
  });

  it('are named by their type everywhere', async () => {
    const text = [
      "import type { FishRow } from '../stock/rows/fish.entity.js';",
      "import { type SpawnRow, spawnSomething } from '../stock/rows/spawn.entity.js';",
      "export type { LineRow } from '../stock/rows/line.entity.js';",
      "let late: import('../stock/rows/line.entity.js').LineRow;",
      'const tags = (rows: FishRow[], of: SpawnRow) => rows.filter((row) => row.spawnId === of.id);',
    ].join('\n');
    expect(await said(feature, text)).toEqual([]);
  });

  it('stand in the floor of records', async () => {
    const text = classOf('FishRow', 'fish').replace('../stock/', './');
    expect(await said('apps/api/src/stock/planted.ts', text)).toEqual([]);
  });
});
