// Builds the kinship command when it is missing or older than its sources, then runs it. Nothing but the command's own
// output reaches standard output.
import { spawnSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import process from 'node:process';
import { fileURLToPath } from 'node:url';

const folder = (path) => fileURLToPath(new URL(path, import.meta.url));
const command = new URL('dist/kinship.js', import.meta.url);
const sources = ['src', '../../libs/pedigree/src', '../../libs/kinship/src'].map(folder);
// The compiler leaves unchanged files alone but always renews its own record.
const built = statSync(new URL('dist/.tsbuildinfo', import.meta.url), { throwIfNoEntry: false });

const newest = Math.max(
  ...sources.flatMap((source) =>
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
    process.stderr.write('The kinship command could not be built; see above.\n');
    process.exit(1);
  }
}

await import(command.href);
