import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const viewer = fileURLToPath(new URL('../../apps/viewer', import.meta.url));
const read = (path: string): string => readFileSync(join(viewer, path), 'utf8');

/** Every document of the viewer's source, as it stands between its back quotes. */
const documents = readdirSync(join(viewer, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((path) => /(?<!\.d|\.test)\.tsx?$/.test(path))
  .flatMap((path) =>
    [...read(join('src', path)).matchAll(/\bgraphql\(\s*`([^`]*)`/g)].map((found) => found[1]!),
  );

const kept = read('src/api/graphql-cache.d.ts');

describe('types of the documents that the viewer sends (npm run generate -w @linewright/viewer renews them)', () => {
  it('are kept for each document, and for no other', () => {
    const known = [...kept.matchAll(/^ {4}("(?:[^"\\]|\\.)*"):$/gm)].map(
      (found) => JSON.parse(found[1]!) as string,
    );
    expect(documents.length).toBeGreaterThan(200);
    expect(known.toSorted()).toEqual([...new Set(documents)].toSorted());
  });
});
