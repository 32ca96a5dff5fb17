import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cruise, type ICruiseResult, type ICruiseOptions } from 'dependency-cruiser';
import { afterEach, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { forbidden, options } = createRequire(import.meta.url)('../../.dependency-cruiser.cjs') as {
  forbidden: object[];
  options: object;
};

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
});

/** What the project's own rules say of these files, each given by its path and text. */
const refused = async (files: Readonly<Record<string, string>>): Promise<string[]> => {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-arrows-'));
  folders.push(folder);
  cpSync(join(root, 'tsconfig.json'), join(folder, 'tsconfig.json'));
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  const asked = { ...options, tsConfig: {}, ruleSet: { forbidden }, validate: true };
  const { output } = await cruise(['apps'], { ...asked, baseDir: folder } as ICruiseOptions);
  return [...new Set((output as ICruiseResult).summary.violations.map(({ rule }) => rule.name))];
};

const fish = (text: string) => ({ 'apps/api/src/fish/fish.service.ts': text });
const lines = (text: string) => ({ 'apps/api/src/lines/lines.service.ts': text });
const imports = (path: string) => `import { one } from '${path}';\nexport const two = one;\n`;
const alone = 'export const one = 1;\n';

describe('the arrows of the house', () => {
  it('let a feature read from the floor of records', async () => {
    const stock = { 'apps/api/src/stock/fish.loader.ts': alone };
    expect(await refused({ ...stock, ...fish(imports('../stock/fish.loader.js')) })).toEqual([]);
  });

  it('refuse a feature that imports another', async () => {
    const planted = { ...lines(alone), ...fish(imports('../lines/lines.service.js')) };
    expect(await refused(planted)).toContain('api-floor-of-fish');
  });

  it('refuse a circle of two files in one room, of types alone too', async () => {
    const planted = {
      'apps/viewer/src/screens/fish/a.ts': `import type { B } from './b.js';\nexport interface A { b: B }\n`,
      'apps/viewer/src/screens/fish/b.ts': `import type { A } from './a.js';\nexport interface B { a: A | null }\n`,
    };
    expect(await refused(planted)).toEqual(['no-cycles']);
  });

  it('refuse a floor of records that asks a feature', async () => {
    const planted = {
      'apps/api/src/stock/fish.loader.ts': imports('../fish/fish.service.js'),
      ...fish(alone),
    };
    expect(await refused(planted)).toContain('api-floor-of-stock');
  });

  it('refuse a room that stands on no floor', async () => {
    const planted = {
      'apps/api/src/attic/a.ts': imports('./b.js'),
      'apps/api/src/attic/b.ts': alone,
    };
    expect(await refused(planted)).toContain('api-rooms-have-a-floor');
  });

  it('keep the shell to the libs', async () => {
    const planted = { 'apps/shell/src/a.ts': imports('../../api/src/fish/fish.service.js') };
    expect(await refused({ ...planted, ...fish(alone) })).toContain('shell-imports-libs');
  });
});
