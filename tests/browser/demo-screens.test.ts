import { mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningServer, openBrowser, pictures, startServer } from './harness.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Pictures go to docs/pictures only on request, so that a test run leaves the tree as it was. */
const folder =
  process.env['WRITE_PICTURES'] === '1' ? pictures : join(tmpdir(), 'linewright-pictures');

const screens = [
  '/today',
  '/care-plans',
  '/fish',
  '/spawns',
  '/lines',
  '/next-pairing',
  '/planned',
  '/crosses',
  '/loci',
  '/contradictions',
  '/traits',
  '/score-sheets',
  '/import',
  '/files',
  '/share',
  '/keepers',
  '/water',
  '/print',
  '/cautions',
  '/relationship',
  '/waiting',
];

describe('the demo, looked at', () => {
  let server: RunningServer;
  let browser: Browser;
  let page: Page;
  const faults: string[] = [];

  beforeAll(async () => {
    mkdirSync(folder, { recursive: true });
    [server, browser] = await Promise.all([startServer(), openBrowser()]);
    const context = await browser.newContext({ viewport: { width: 1280, height: 860 } });
    page = await context.newPage();
    page.setDefaultTimeout(60_000);
    page.on('pageerror', (error) => faults.push(error.message));
  });
  afterAll(async () => {
    await browser?.close();
    await server?.stop();
  });

  const settle = async (path: string): Promise<void> => {
    await page.goto(`${server.url}${path}`);
    await page.locator('h1').first().waitFor();
    await page.waitForLoadState('networkidle');
  };

  const violations = async (): Promise<string[]> => {
    await page.addScriptTag({ content: axe }).catch(() => page.evaluate(axe));
    return page.evaluate(async () => {
      const { axe: run } = globalThis as unknown as {
        axe: {
          run: (
            options: object,
          ) => Promise<{ violations: { id: string; nodes: { target: unknown[] }[] }[] }>;
        };
      };
      const { violations: found } = await run.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag22aa'] });
      return found.map((v) => `${v.id}: ${String(v.nodes[0]?.target)}`);
    });
  };

  it('opens with one click', async () => {
    await page.goto(server.url);
    await page.getByRole('button', { name: /demo/i }).first().click();
    await page.getByRole('heading', { name: 'Fish', level: 1 }).waitFor();
  });

  it.each(['light', 'dark'] as const)(
    'every screen is free of accessibility faults in %s',
    async (colorScheme) => {
      await page.emulateMedia({ colorScheme });
      const found: string[] = [];
      for (const path of screens) {
        await settle(path);
        found.push(...(await violations()).map((v) => `${path} ${v}`));
      }
      expect(found).toEqual([]);
    },
  );

  it('no screen is wider than a phone', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    const wide: string[] = [];
    for (const path of screens) {
      await settle(path);
      const width = await page.evaluate(() => document.documentElement.scrollWidth);
      if (width > 390) wide.push(`${path} ${width}`);
    }
    await page.setViewportSize({ width: 1280, height: 860 });
    expect(wide).toEqual([]);
  });

  it('draws the pedigree of a line-bred fish, each fish once', async () => {
    await page.emulateMedia({ colorScheme: 'light' });
    await settle('/fish');
    await page.getByLabel('Find').fill('RB26-02');
    await page
      .getByRole('link', { name: /^RB26-02-/ })
      .first()
      .click();
    // The list's own heading is there at once; the address changes when the fish's page has come.
    await page.waitForURL(/\/fish\/[\da-f-]{36}$/);
    await page.goto(`${page.url()}/pedigree`);
    const drawing = page.locator('svg').filter({ hasText: 'RB' }).first();
    await drawing.waitFor();
    const text = await drawing.innerHTML();
    const tags = [...text.matchAll(/>(RB\d\d-\d\d-\d\d)</g)].map((match) => match[1]);
    expect(new Set(tags).size).toBeGreaterThan(10);
    await page.screenshot({ path: join(folder, 'pedigree.png') });
  });

  it('without a fault in any page', () => {
    expect(faults).toEqual([]);
  });
});
