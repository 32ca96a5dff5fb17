import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const text = (path: string): string => readFileSync(join(root, path), 'utf8');
const { scripts } = JSON.parse(text('package.json')) as { scripts: Record<string, string> };
const kept = new Set(execFileSync('git', ['ls-files'], { cwd: root }).toString().split('\n'));

/** Files that a command names, but for those that the build writes. */
const filesOf = (command: string): string[] =>
  [...command.matchAll(/(?:^|\s)(\.?[\w-]+(?:\/[\w.-]+)*\.(?:mjs|cjs|js|ts))\b/g)]
    .map(([, file]) => file!)
    .filter((file) => !file.includes('/dist/'));

describe('the commands of package.json', () => {
  const named = Object.entries(scripts).flatMap(([name, command]) =>
    filesOf(command).map((file) => ({ name, file })),
  );

  it('name files', () => {
    expect(named.length).toBeGreaterThan(8);
  });

  it.each(named)('npm run $name has its $file in the repository', ({ file }) => {
    expect([...kept]).toContain(file);
  });

  it.each(['README.md', 'DEVELOPERS.md'])('are those that %s tells of', (page) => {
    const told = [...text(page).matchAll(/npm run (?:-s |--silent )?([\w:]+)/g)].map(
      ([, name]) => name!,
    );
    const others = ['dev', 'generate'];
    expect(told.length).toBeGreaterThan(3);
    for (const name of told) expect([...Object.keys(scripts), ...others]).toContain(name);
  });
});

interface Rooms {
  readonly roomOf: (path: string) => string | null;
  readonly byRoom: (summary: object, root: string) => readonly object[];
}

describe('coverage by room', async () => {
  const { roomOf, byRoom } = (await import('../coverage/rooms.mjs' as string)) as Rooms;

  it.each([
    ['libs/kinship/src/explain/paths.ts', 'libs/kinship'],
    ['apps/api/src/stock/rows/fish.entity.ts', 'apps/api/src/stock'],
    ['apps/viewer/src/screens/fish/fish-screen.tsx', 'apps/viewer/src/screens'],
    ['apps/api/src/main.ts', 'apps/api'],
    ['apps/shell/src/values.ts', 'apps/shell'],
    ['tests/clock.ts', null],
  ])('%s belongs to %s', (path, room) => {
    expect(roomOf(path)).toBe(room);
  });

  it('adds up the files of a room, the least reached first', () => {
    const statements = (covered: number, total: number) => ({ statements: { covered, total } });
    const summary = {
      total: statements(9, 12),
      '/home/libs/care/src/a.ts': statements(4, 4),
      '/home/libs/care/src/sheet/b.ts': statements(2, 4),
      '/home/db/seed/src/c.ts': statements(1, 4),
      '/home/db/embedded/src/types.ts': statements(0, 0),
    };
    expect(byRoom(summary, '/home/')).toEqual([
      { room: 'db/seed', covered: 1, total: 4, share: 0.25 },
      { room: 'libs/care', covered: 6, total: 8, share: 0.75 },
    ]);
  });
});
