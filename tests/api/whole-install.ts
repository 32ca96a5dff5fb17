import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { carriedTables } from '../../apps/api/src/backup/carried-tables.js';
import { PhotoFiles } from '../../apps/api/src/photo-files/photo-files.js';
import { recordsOf, type RunningApi } from './harness.js';

/** Every row of every table that a backup carries, as text, in an order of its own. */
export const rowsOf = async (api: RunningApi): Promise<Record<string, string[]>> => {
  const dataSource = await recordsOf(api);
  const found: Record<string, string[]> = {};
  for (const table of carriedTables(dataSource)) {
    const rows = (await dataSource.query(
      `SELECT to_jsonb(t)::text AS row FROM "${table}" t ORDER BY 1`,
    )) as { row: string }[];
    found[table] = rows.map(({ row }) => row);
  }
  return found;
};

/** Every file of a picture with its content's hash, by its place under the folder. */
export const picturesOf = (api: RunningApi): Record<string, string> => {
  const { folder, incoming } = api.served.app.get(PhotoFiles);
  const found: Record<string, string> = {};
  for (const name of existsSync(folder) ? readdirSync(folder, { recursive: true }) : []) {
    const path = join(folder, String(name));
    if (path.startsWith(incoming) || !statSync(path).isFile()) continue;
    found[String(name)] = createHash('sha256').update(readFileSync(path)).digest('hex');
  }
  return found;
};
