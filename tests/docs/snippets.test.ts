import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';

const docs = fileURLToPath(new URL('../../docs', import.meta.url));
const pages = [docs, `${docs}/methods`].flatMap((place) =>
  readdirSync(place)
    .filter((page) => page.endsWith('.md'))
    .map((page) => ({ page, text: readFileSync(`${place}/${page}`, 'utf8') })),
);
// Beside this file, so that the snippets' imports are found as any test's are; removed afterwards.
const folder = fileURLToPath(new URL('./.snippets', import.meta.url));

interface Snippet {
  readonly name: string;
  readonly file: string;
  readonly code: string;
}

const snippets = pages.flatMap(({ page, text }): Snippet[] => {
  const found = text.matchAll(/<!-- snippet -->\s*```ts\n(.*?)\n```/gs);
  return [...found].map(([, code], k) => ({
    name: `${page}, snippet ${k + 1}`,
    file: `${folder}/${page.replace(/\.md$/, '')}-${k + 1}.ts`,
    // A snippet without imports would not be a module.
    code: `${code!}\nexport {};\n`,
  }));
});

beforeAll(() => {
  mkdirSync(folder, { recursive: true });
  for (const { file, code } of snippets) writeFileSync(file, code);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('snippets of docs and docs/methods', () => {
  it('are found: every marker is followed by code', () => {
    const markers = pages.reduce(
      (sum, { text }) => sum + text.split('<!-- snippet -->').length - 1,
      0,
    );
    expect(snippets).toHaveLength(markers);
    expect(markers).toBeGreaterThan(0);
  });

  it.each(snippets)('$name runs and its assertions hold', async ({ file, code }) => {
    expect(code, 'a snippet asserts something').toMatch(/assert/);
    const assertion = vi.spyOn(console, 'assert').mockImplementation((holds, ...message) => {
      if (!holds) throw new Error(`console.assert failed: ${message.join(' ')}`);
    });
    try {
      await import(/* @vite-ignore */ file);
    } finally {
      assertion.mockRestore();
    }
  });
});
