// Builds the commands of this folder when they are missing or older than their sources, then runs one. Nothing but the command's own
// output reaches standard output.
import { spawnSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import process from 'node:process';
import { fileURLToPath } from 'node:url';

const folder = (path) => fileURLToPath(new URL(path, import.meta.url));

export async function buildAndRun(command) {
  const sources = [
    'src',
    ...['pedigree', 'kinship', 'heredity', 'merit', 'mating'].map((lib) => `../../libs/${lib}/src`),
  ];
  // The compiler leaves unchanged files alone but always renews its own record.
  const built = statSync(new URL('dist/.tsbuildinfo', import.meta.url), { throwIfNoEntry: false });
  const newest = Math.max(
    ...sources.map(folder).flatMap((source) =>
      readdirSync(source, { recursive: true })
        .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
        .map((name) => statSync(`${source}/${name}`).mtimeMs),
    ),
  );
  if (built === undefined || built.mtimeMs < newest) {
    const compiler = createRequire(import.meta.url).resolve('typescript/bin/tsc');
    const result = spawnSync(process.execPath, [compiler, '-b', folder('.')], {
      stdio: ['ignore', 2, 2],
    });
    if (result.status !== 0) {
      process.stderr.write(`The ${command} command could not be built; see above.\n`);
      process.exit(1);
    }
  }
  const from = (file) => import(new URL(`dist/${file}.js`, import.meta.url).href);
  const [{ runTyped }, commands] = await Promise.all([from('command'), from(command)]);
  await runTyped(commands[command]);
}
