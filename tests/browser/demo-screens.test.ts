import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { blueBrood, findInList } from './demo-stock.js';
import { type OpenPage, type RunningServer, openDemo, openPage, pictures } from './harness.js';
import { screenFaults, settleAt } from './looking.js';

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
  '/inheritance',
  '/contradictions',
  '/traits',
  '/score-sheets',
  '/import',
  '/export-and-backup',
  '/sharing',
  '/people',
  '/water',
  '/print',
  '/cautions',
  '/relationship',
  '/entries',
];

describe('the demo, looked at', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;

  beforeAll(async () => {
    mkdirSync(folder, { recursive: true });
    opened = await openPage({
      viewport: { width: 1280, height: 860 },
    });
    ({ server, page } = opened);
  });
  afterAll(() => opened?.stop());

  const settle = (path: string): Promise<void> => settleAt(page, `${server.url}${path}`);

  it('opens with one click', async () => {
    await openDemo(opened);
  });

  it.each(screens)(
    '%s: no accessibility fault in light or dark, and fits a phone',
    async (path) => {
      await settle(path);
      expect(await screenFaults(page)).toEqual([]);
    },
  );

  it.each([
    ['/files', '/export-and-backup'],
    ['/share', '/sharing'],
    ['/waiting', '/entries'],
    ['/pairing', '/next-pairing'],
  ])('%s of before leads to %s', async (before, now) => {
    await settle(before);
    expect(new URL(page.url()).pathname).toBe(now);
  });

  it('draws the pedigree of a line-bred fish, each fish once', async () => {
    await page.emulateMedia({ colorScheme: 'light' });
    await settle('/fish');
    const brood = await blueBrood(page);
    await findInList(page, brood);
    await page
      .getByRole('link', { name: new RegExp(`^${brood}-`) })
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
    expect(opened.faults).toEqual([]);
  });
});
