import { mkdtempSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { build, preview, type PreviewServer } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from './harness.js';
import { PHONE, screenFaults } from './looking.js';

const viewer = fileURLToPath(new URL('../../apps/viewer/', import.meta.url));

let server: PreviewServer;
let browser: Browser;
let gallery: string;
let components: string;

async function show(
  name: string | null,
  options: { readonly dark?: boolean; readonly phone?: boolean } = {},
): Promise<Page> {
  const page = await browser.newPage({
    colorScheme: options.dark === true ? 'dark' : 'light',
    viewport: options.phone === true ? PHONE : { width: 1280, height: 800 },
  });
  await page.goto(name === null ? gallery : `${gallery}?show=${name}`);
  await page.waitForSelector('.lw-drawing');
  return page;
}

const ACTIVE_NODE = "document.activeElement?.getAttribute('data-node')";

beforeAll(async () => {
  const outDir = mkdtempSync(join(tmpdir(), 'linewright-gallery-'));
  const shared = {
    root: viewer,
    configFile: join(viewer, 'vite.config.ts'),
    logLevel: 'error',
  } as const;
  const input = ['gallery.html', 'components.html'].map((page) => join(viewer, page));
  await build({ ...shared, build: { outDir, emptyOutDir: true, rolldownOptions: { input } } });
  server = await preview({
    ...shared,
    build: { outDir },
    preview: { port: 0, host: '127.0.0.1' },
  });
  const [address] = server.resolvedUrls!.local;
  gallery = `${address}gallery.html`;
  components = `${address}components.html`;
  browser = await openBrowser();
});

afterAll(async () => {
  for (const context of browser?.contexts() ?? []) await context.close();
  await new Promise((done) => server.httpServer.close(done));
});

describe('the pedigree drawing', () => {
  it('is walked with the keyboard and opens a fish with Enter', async () => {
    const page = await show('pedigree');
    await page.locator('.pedigree_stage-svg [tabindex="0"]').focus();
    const start = await page.evaluate<string>(ACTIVE_NODE);
    await page.keyboard.press('s');
    const sire = await page.evaluate<string>(ACTIVE_NODE);
    expect(sire).not.toBe(start);
    const startName = await page.locator(`[data-node="${start}"]`).getAttribute('aria-label');
    const sireName = await page.locator(`[data-node="${sire}"] .pedigree_tag`).textContent();
    expect(startName).toContain(`sire ${sireName}`);
    await page.keyboard.press('ArrowDown');
    const young = await page.evaluate<string>(ACTIVE_NODE);
    const youngName = await page.locator(`[data-node="${young}"]`).getAttribute('aria-label');
    expect(youngName).toContain(`sire ${sireName}`);
    await page.keyboard.press('Enter');
    expect(await page.title()).toBe(`opened ${young}`);
    expect(await page.locator('.pedigree_stage-svg [tabindex="0"]').count()).toBe(1);
    await page.close();
  });

  it('zooms by keys, wheel and button, and pans by dragging', async () => {
    const page = await show('pedigree');
    const scene = page.locator('.pedigree_stage-svg > g');
    const scale = async (): Promise<number> =>
      Number(/scale\(([\d.]+)/.exec((await scene.getAttribute('transform')) ?? '')?.[1]);
    const first = await scale();
    await page.locator('.pedigree_stage-svg [tabindex="0"]').focus();
    await page.keyboard.press('+');
    expect(await scale()).toBeGreaterThan(first);
    await page.getByRole('button', { name: 'Zoom out' }).click();
    expect(await scale()).toBeCloseTo(first, 3);
    const box = (await page.locator('.pedigree_stage').boundingBox())!;
    await page.mouse.move(box.x + 20, box.y + 300);
    await page.mouse.wheel(0, -200);
    expect(await scale()).toBeGreaterThan(first);
    const before = await scene.getAttribute('transform');
    await page.mouse.down();
    await page.mouse.move(box.x + 120, box.y + 340, { steps: 3 });
    await page.mouse.up();
    expect(await scene.getAttribute('transform')).not.toBe(before);
    await page.close();
  });

  it('unfolds a spawn when asked, and folds it again', async () => {
    const page = await show('middle');
    const count = () => page.locator('[data-node]').count();
    const folded = await count();
    const fold = page.locator('[data-node^="fold:"]').last();
    await fold.click();
    expect(await count()).toBeGreaterThan(folded);
    await page.getByRole('button', { name: 'Fold' }).click();
    expect(await count()).toBe(folded);
    await page.close();
  });

  it('draws 900 fish and stays quick to select in', async () => {
    const page = await show('large');
    expect(await page.locator('[data-node]').count()).toBe(900);
    await page.locator('.pedigree_stage-svg [tabindex="0"]').focus();
    const before = await page.evaluate<string>(ACTIVE_NODE);
    await page.keyboard.press('s');
    expect(await page.evaluate<string>(ACTIVE_NODE)).not.toBe(before);
    await page.close();
  });
});

describe('the relationship map', () => {
  it('names the pair under the keyboard and opens it', async () => {
    const page = await show('map');
    await page.getByRole('application').focus();
    const words = () => page.locator('.selected_selected').textContent();
    const before = await words();
    await page.keyboard.press('ArrowDown');
    expect(await words()).not.toBe(before);
    expect(await words()).toMatch(/RB6-A-03 .* and RB6-A-01 .*coancestry \d+\.\d %/);
    await page.keyboard.press('Enter');
    expect(await page.title()).toBe('opened g6-03 g6-01');
    await page.close();
  });
});

describe('accessibility of every drawing', () => {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  const looks = [{}, { dark: true, phone: true }];

  it.each(looks)('%j: no violation of WCAG 2.2 AA, no scrolling sideways', async (look) => {
    const page = await show(null, look);
    const stages = await page.locator('nav button').count();
    expect(stages).toBeGreaterThan(13);
    // All but the one of 900 fish.
    const drawn = page.locator('section', { has: page.locator('.lw-drawing') });
    expect(await drawn.count()).toBe(stages - 1);
    await page.locator('.lw-drawing details').evaluateAll((all) => {
      for (const one of all) (one as HTMLDetailsElement).open = true;
    });
    await page.waitForSelector('.table-alternative_table-scroll table');
    await page.evaluate(axe);
    const found = await page.evaluate<{ violations: string[]; passes: string[] }>(
      `axe.run('.lw-drawing', { runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'] })
        .then((result) => ({
          violations: result.violations.map((one) => one.id + ': ' + one.nodes[0].html),
          passes: result.passes.map((one) => one.id),
        }))`,
    );
    expect(found.violations).toEqual([]);
    expect(found.passes).toEqual(expect.arrayContaining(['color-contrast', 'target-size']));
    const wide = await page.evaluate<number>(
      'document.documentElement.scrollWidth - document.documentElement.clientWidth',
    );
    expect(wide).toBe(0);
    await page.close();
  });
});

describe('the page of components', () => {
  let page: Page;
  const faults: string[] = [];
  beforeAll(async () => {
    page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    page.on('pageerror', (error) => faults.push(error.message));
    await page.goto(components);
    await page.getByText('No water asks for attention.').waitFor();
  });

  it('draws every state, without an error of the code', async () => {
    const empty = await page
      .locator('[data-part] > [data-state]')
      .evaluateAll((states) =>
        states
          .filter((state) => state.children.length < 2 && state.childNodes.length < 2)
          .map((state) => state.closest('[data-part]')?.getAttribute('data-part')),
      );
    expect(empty).toEqual([]);
    expect(await page.locator('[data-part] > [data-state]').count()).toBeGreaterThan(120);
    expect(faults).toEqual([]);
  });

  it('has no violation of WCAG 2.2 AA, in light and dark, and no scrolling sideways on a phone', async () => {
    expect(await screenFaults(page)).toEqual([]);
  });

  it('nor has what stands over the page', async () => {
    const names = await page
      .locator('[data-part]', { has: page.getByRole('button', { name: /^Bring up: / }) })
      .evaluateAll((parts) => parts.map((part) => part.getAttribute('data-part') ?? ''));
    expect(names.length).toBeGreaterThan(4);
    for (const name of names) {
      // Alone on the page, so that the rest of it is not gone through each time.
      await page.goto(`${components}?show=${name}`);
      for (const opener of await page.getByRole('button', { name: /^Bring up: / }).all()) {
        await opener.click();
        const dialog = page.getByRole('dialog');
        await dialog.waitFor();
        expect(await screenFaults(page)).toEqual([]);
        await page.keyboard.press('Escape');
        await dialog.waitFor({ state: 'detached' });
      }
    }
    await page.close();
  });
});
