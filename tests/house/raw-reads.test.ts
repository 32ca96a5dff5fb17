import { ESLint } from 'eslint';
import { describe, expect, it } from 'vitest';

const { recordsInStock } = (await import('../../eslint-records-in-stock.js' as string)) as {
  recordsInStock: { ignores: string[] };
};

/** What the rule says of a text in a file of that path. */
const said = async (path: string, text: string): Promise<string[]> => {
  const lint = new ESLint({ overrideConfigFile: true, overrideConfig: [recordsInStock] });
  const [result] = await lint.lintText(text, { filePath: path });
  return (result?.messages ?? []).flatMap(({ ruleId }) => (ruleId === null ? [] : [ruleId]));
};

const feature = 'apps/api/src/fish/planted.ts';
const rule = 'house/records-in-stock';

describe('SQL of tables of records', () => {
  it('is read past the floor by nothing but the backup, which copies whole tables', () => {
    expect(recordsInStock.ignores).toEqual([
      'apps/api/src/stock/**',
      '**/*.test.ts',
      'apps/api/src/backup/restore-backup.ts',
      'apps/api/src/backup/write-backup.ts',
    ]);
  });

  it.each([
    'const sql = `SELECT id FROM fish WHERE id = $1`;',
    "const sql = 'SELECT s.tag FROM line l JOIN spawn s ON s.line_id = l.id';",
    'const sql = `UPDATE "score" SET value = ${1}`;',
    'const sql = `SELECT id FROM standing_fish f JOIN keeper k ON k.id = f.keeper_id`;',
    'const sql = `SELECT count(*) FROM fish_in_use`;',
    "query.andWhere('f.withdrawn_at IS NULL');",
    'const where = { spawnId, withdrawnAt: IsNull() };',
  ])('is refused in a feature: %s', async (text) => {
    expect(await said(feature, text)).toContain(rule);
  });

  it('stands in the floor of records', async () => {
    const text = 'const sql = `SELECT id FROM fish`;';
    expect(await said('apps/api/src/stock/planted.ts', text)).toEqual([]);
  });

  it('is not seen in words, nor in tables that hold no records', async () => {
    const text = "const told = 'A fish FROM fishes'; const sql = 'SELECT 1 FROM install_state';";
    expect(await said(feature, text)).toEqual([]);
  });
});
