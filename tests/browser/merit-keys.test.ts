import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ask } from './demo-stock.js';
import { type OpenPage, openDemoPage, type RunningServer } from './harness.js';
import { settleAt } from './looking.js';

/** Stops on the way through a page before it is given up. */
const MOST_STOPS = 200;

interface Stop {
  readonly name: string;
  /** Whether it is seen where the focus stands. */
  readonly ringed: boolean;
  /** Its upper end within the window. */
  readonly inView: boolean;
}

/** The element with the focus; null where none has it. */
const stopAt = (page: Page): Promise<Stop | null> =>
  page.evaluate(() => {
    const at = document.activeElement;
    if (at === null || at === document.body) return null;
    const { top, width } = at.getBoundingClientRect();
    const ring = (of: Element): boolean => {
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(of);
      return (outlineStyle !== 'none' && parseFloat(outlineWidth) >= 1) || boxShadow !== 'none';
    };
    const label = at instanceof HTMLSelectElement ? at.labels[0]?.textContent : null;
    return {
      name: (at.getAttribute('aria-label') ?? label ?? at.textContent ?? '').trim(),
      ringed: ring(at),
      inView: top > -2 && top < innerHeight && width > 0,
    };
  });

/** Presses Tab until an element of that name has the focus; each stop on the way is seen where it stands. */
const tabTo = async (page: Page, name: RegExp): Promise<void> => {
  for (let stops = 0; stops < MOST_STOPS; stops++) {
    await page.keyboard.press('Tab');
    const stop = await stopAt(page);
    if (stop === null) continue;
    if (!name.test(stop.name)) continue;
    expect(stop, stop.name).toMatchObject({ ringed: true, inView: true });
    return;
  }
  throw new Error(`No stop is called ${name}.`);
};

describe('what fish pass on, by keyboard alone', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;
  let traitId: string;
  let lineId: string;
  beforeAll(async () => {
    opened = await openDemoPage({ viewport: { width: 1280, height: 860 } });
    ({ server, page } = opened);
    const { traits, lines } = await ask<{
      traits: { id: string; name: string }[];
      lines: { id: string; code: string }[];
    }>(page, '{ traits { id name } lines { id code } }');
    traitId = traits.find(({ name }) => name === 'Body length')!.id;
    lineId = lines.find(({ code }) => code === 'RB')!.id;
  });
  afterAll(() => opened?.stop());

  const settle = (path: string): Promise<void> => settleAt(page, `${server.url}${path}`);

  it('a trait: what its heritability rests on, another line, and its settings, which give the focus back', async () => {
    await settle(`/traits/${traitId}`);
    await page.getByText('What each generation gained on the one before').waitFor();
    await tabTo(page, /^Why heritability of Body length\?/);
    await page.keyboard.press('Enter');
    await page.getByText('A single estimate by REML').waitFor();
    await tabTo(page, /^Line$/);
    await page.keyboard.press('ArrowDown');
    await page
      .getByText(/Body length of line RB, generation by generation/)
      .first()
      .waitFor();
    await tabTo(page, /^Change settings/);
    await page.keyboard.press('Enter');
    const settings = page.getByRole('dialog', { name: 'Settings for Body length' });
    await settings.waitFor();
    await page.keyboard.press('Escape');
    await settings.waitFor({ state: 'hidden' });
    await expect.poll(async () => (await stopAt(page))?.name).toBe('Change settings');
  });

  it('a fish: whose scores count, and its picture among its sibs', async () => {
    const { fishList } = await ask<{ fishList: { edges: { node: { id: string } }[] } }>(
      page,
      '{ fishList(first: 1, filter: { dispositions: [KEEPER] }) { edges { node { id } } } }',
    );
    await settle(`/fish/${fishList.edges[0]!.node.id}`);
    const passes = page.getByRole('region', { name: 'What it passes on' });
    await passes.scrollIntoViewIfNeeded();
    await passes.getByText('How much too small, trait by trait').waitFor();
    await tabTo(page, /^Why what .* passes on in Caudal spread\?/);
    await page.keyboard.press('Enter');
    await passes.getByText(/Its young get half of what it passes on/).waitFor();
    await tabTo(page, /^Picture: Caudal spread among its sibs/);
    await page.keyboard.press('Enter');
    await passes
      .getByRole('img', { name: /Caudal spread/ })
      .first()
      .waitFor();
  });

  it('a line: whether it moves in another trait, and what inbreeding costs in something else', async () => {
    await settle(`/lines/${lineId}`);
    const moves = page.getByRole('region', { name: 'Is it moving?' });
    await moves.scrollIntoViewIfNeeded();
    await moves.getByText('What each generation gained on the one before').waitFor();
    await tabTo(page, /^Trait$/);
    await page.keyboard.press('ArrowDown');
    await moves
      .getByText(/^Caudal spread of line RB/)
      .first()
      .waitFor();
    await tabTo(page, /^Why line RB moves in Caudal spread\?/);
    await page.keyboard.press('Enter');
    await moves.locator('.lw-reason').first().waitFor();
    const costs = page.getByRole('region', { name: 'What does inbreeding cost?' });
    await tabTo(page, /^In what$/);
    const before = await costs.getByRole('combobox').inputValue();
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => costs.getByRole('combobox').inputValue()).not.toBe(before);
  });

  it('without a fault in any page', () => {
    expect(opened.faults).toEqual([]);
  });
});
