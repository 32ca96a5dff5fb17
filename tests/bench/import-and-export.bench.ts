import { spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const SIZES = [10_000, 100_000];
const SPAWN = 50;

/** A line-bred pedigree as CSV: spawns of 50, each of two fish of the spawn before, founders first. */
const pedigreeCsv = (rows: number): string => {
  const lines = [
    'tag,sire,dam,sex,hatch_date,line,spread',
    'F-1,,,male,2000-01-01,B,150',
    'F-2,,,female,2000-01-01,B,150',
  ];
  let parents = ['F-1', 'F-2'];
  for (let made = 2, spawned = 0; made < rows; spawned++) {
    const day = new Date(Date.UTC(2000, 6, 1) + spawned * 4 * 86_400_000)
      .toISOString()
      .slice(0, 10);
    const size = Math.min(SPAWN, rows - made);
    for (let i = 0; i < size; i++) {
      lines.push(
        `B${spawned}-${i},${parents[0]},${parents[1]},${i % 2 === 0 ? 'male' : 'female'},${day},B,${140 + ((spawned + i) % 50)}`,
      );
    }
    made += size;
    if (size > 1) parents = [`B${spawned}-0`, `B${spawned}-1`];
  }
  return `${lines.join('\n')}\n`;
};

/** Whole process, from start to exit or to the first line that matches. */
const timed = (script: string, args: string[], dataDir: string, ready?: RegExp): Promise<number> =>
  new Promise((resolve, reject) => {
    const started = performance.now();
    const child = spawn(process.execPath, [script, ...args], {
      env: {
        ...process.env,
        DATA_DIR: dataDir,
        PORT: '0',
        DATABASE_URL: '',
        OWNER_PASSWORD: 'bench-keeper-password',
      },
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let took: number | null = null;
    let said = '';
    child.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      if (ready !== undefined && took === null && ready.test(said)) {
        took = performance.now() - started;
        child.kill('SIGINT');
      }
    });
    child.on('exit', (code) => {
      if (code !== 0) reject(new Error(`${script} ended with ${code}: ${said}`));
      else resolve(took ?? performance.now() - started);
    });
  });

/** Start of the built server (first and later), and import and export from the shell, on the embedded database. */
export async function run(emit: (line: object) => void): Promise<void> {
  for (const rows of SIZES) {
    const dataDir = mkdtempSync(join(tmpdir(), 'linewright-bench-'));
    chmodSync(dataDir, 0o755);
    try {
      const file = join(dataDir, 'stock.csv');
      writeFileSync(file, pedigreeCsv(rows));
      const first = await timed('apps/api/dist/main.js', [], dataDir, /is at http/);
      emit({ what: 'start, empty database made', unit: 'ms', value: Math.round(first) });
      const imported = await timed('apps/api/dist/import.js', [file], dataDir);
      emit({ what: 'import', rows, unit: 'ms', value: Math.round(imported) });
      const exported = await timed('apps/api/dist/export.js', [join(dataDir, 'out.csv')], dataDir);
      emit({ what: 'export', rows, unit: 'ms', value: Math.round(exported) });
      const again = await timed('apps/api/dist/main.js', [], dataDir, /is at http/);
      emit({ what: 'start, database there', rows, unit: 'ms', value: Math.round(again) });
    } finally {
      rmSync(dataDir, { recursive: true, force: true });
    }
  }
}
