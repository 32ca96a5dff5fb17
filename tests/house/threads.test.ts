import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';

/** What a file of the last build loads before it does anything: itself, and all that it imports outright. */
const loadedBy = (file: string): Set<string> => {
  const loaded = new Set<string>();
  const load = (path: string): void => {
    if (loaded.has(path)) return;
    loaded.add(path);
    const text = readFileSync(path, 'utf8');
    for (const [, next] of text.matchAll(/^(?:import|export)\b[^;]*?"(\.[^"]+)";$/gm))
      load(join(dirname(path), next ?? ''));
  };
  load(join('apps/api/dist', file));
  return loaded;
};

/** The bundle says above each module where it is from. */
const brings = (file: string, what: string): boolean =>
  [...loadedBy(file)].some((path) =>
    readFileSync(path, 'utf8').includes(`// ../../node_modules/${what}/`),
  );

// Each request that is worked out beside the loop waits for its thread to load.
it.each(['request-worker.js', 'carrier-worker.js', 'line-worker.js', 'pair-worker.js'])(
  '%s begins without the server, the database and the drawing of pages',
  (thread) => {
    expect(loadedBy(thread).size).toBeGreaterThan(1);
    for (const what of ['@nestjs/common', 'graphql', 'typeorm', 'pg', 'pdf-lib'])
      expect(brings(thread, what), what).toBe(false);
  },
);

it('sees what a file brings', () => {
  for (const what of ['@nestjs/common', 'graphql', 'typeorm', 'pg'])
    expect(brings('main.js', what), what).toBe(true);
});
