import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));

const files = execFileSync('git', ['ls-files', 'apps', 'libs', 'db'], { cwd: root })
  .toString()
  .split('\n')
  .filter((file) => /^(apps|libs|db)\/[^/]+\/src\/.*\.(tsx?|css)$/.test(file))
  .filter((file) => existsSync(join(root, file)));

/** Every folder of source, and every one between it and its package. */
const folders = (): string[] => {
  const found = new Set<string>();
  for (const file of files)
    for (let folder = dirname(file); folder.includes('/'); folder = dirname(folder))
      if (!folder.endsWith('/src')) found.add(folder);
  return [...found].sort();
};

const readme = (folder: string): string => {
  const path = join(root, folder, 'README.md');
  return existsSync(path) ? readFileSync(path, 'utf8') : '';
};

/** Folders that a README tells of, each in a line of its own. */
const told = (text: string): string[] =>
  [...text.matchAll(/^- `([^`]+)\/` \S/gm)].map(([, name]) => name!);

/** The README's folder holds the others at once, or below its `src`. */
const parentsOf = (folder: string): string[] => {
  const above = dirname(folder);
  return above.endsWith('/src') ? [above, dirname(above)] : [above];
};

describe('the folders of the house', () => {
  it('each say what they are for, in a README of their own or in a line of the one above', () => {
    const silent = folders().filter(
      (folder) =>
        readme(folder).trim().split('\n').length < 3 &&
        !parentsOf(folder).some((above) => told(readme(above)).includes(folder.split('/').at(-1)!)),
    );
    expect(silent).toEqual([]);
  });

  it('tell of no folder that is gone', () => {
    const gone = [...folders(), 'apps', 'libs', 'db'].flatMap((folder) =>
      told(readme(folder))
        .filter((name) => ![folder, `${folder}/src`].some((at) => existsSync(join(root, at, name))))
        .map((name) => `${folder}: ${name}`),
    );
    expect(gone).toEqual([]);
  });
});

describe('docs/architecture.md', () => {
  const page = readFileSync(join(root, 'docs/architecture.md'), 'utf8');
  const rooms = (folder: string): string[] =>
    readdirSync(join(root, folder), { withFileTypes: true })
      .filter((entry) => entry.isDirectory() && entry.name !== 'node_modules')
      .map(({ name }) => name);
  const part = (heading: string): string =>
    new RegExp(`^${heading}\\n(.*?)^## `, 'ms').exec(page)?.[1] ?? '';

  it('names every lib, application and part of the database in its tree', () => {
    const tree = part('# Architecture');
    for (const name of ['apps', 'libs', 'db'].flatMap(rooms)) expect(tree).toContain(`${name}/`);
  });

  it.each([
    ['## Floors of the API', 'apps/api/src'],
    ['## Floors of the viewer', 'apps/viewer/src'],
  ])('names under "%s" the rooms of %s, and no other', (heading, folder) => {
    const named = [...part(heading).matchAll(/`([a-z-]+)`/g)].map(([, name]) => name!);
    const there = rooms(folder);
    expect(there.filter((name) => !named.includes(name))).toEqual([]);
    expect([...new Set(named)].filter((name) => !there.includes(name))).toEqual([]);
  });
});
