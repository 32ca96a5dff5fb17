import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readPdf } from '../api/read-pdf.js';
import { blueBrood } from './demo-stock.js';
import { type OpenPage, type RunningServer, downloaded, openDemoPage } from './harness.js';
import { PHONE, accessibilityFaults, screenFaults, settleAt } from './looking.js';

const folder = join(tmpdir(), 'linewright-water-pictures');
const wide = { width: 1280, height: 900 };

describe('water, survival and printing in a browser', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;
  let spawnPath = '';

  beforeAll(async () => {
    mkdirSync(folder, { recursive: true });
    opened = await openDemoPage({
      viewport: wide,
      acceptDownloads: true,
    });
    ({ server, page } = opened);
  });
  afterAll(() => opened?.stop());

  const settle = (path: string): Promise<void> => settleAt(page, `${server.url}${path}`);
  const picture = (name: string) =>
    page.screenshot({ path: join(folder, `${name}.png`), fullPage: false });
  /** The whole screen, whose main part scrolls by itself. */
  const tallPicture = async (name: string): Promise<void> => {
    const size = page.viewportSize() ?? wide;
    const height = await page.evaluate(() => document.querySelector('main')?.scrollHeight ?? 900);
    await page.setViewportSize({ width: size.width, height: Math.min(4000, height + 80) });
    await page.waitForTimeout(150);
    await picture(name);
    await page.setViewportSize(size);
  };

  it('shows the water that asks for attention, with the change that mends it', async () => {
    await settle('/water');
    const alerts = page.getByRole('list', { name: 'Water that asks for attention' });
    await alerts.waitFor();
    expect(await alerts.getByText(/Change \d+ % of the water/).count()).toBeGreaterThan(0);
    expect(await alerts.getByText(/Last measured \d+ days ago/).count()).toBe(1);
    await tallPicture('water-wide-light');
    await alerts.getByRole('link').first().click();
    await page.getByRole('heading', { name: /^Water of spawn / }).waitFor();
    await page.getByRole('button', { name: 'Why this much un-ionised ammonia?' }).click();
    await page.getByText(/2729\.92/).waitFor();
    await page.getByRole('img', { name: /^Un-ionised ammonia of spawn/ }).waitFor();
    await page.getByRole('link', { name: 'Go to the spawn' }).click();
    await page.getByRole('heading', { name: /^Spawn /, level: 1 }).waitFor();
    spawnPath = new URL(page.url()).pathname;
  });

  it('draws the survival of a spawn beside the past ones, with culls apart', async () => {
    await settle('/spawns');
    await page.goto(`${server.url}${await sortedSpawn()}`);
    const curve = page.getByRole('img', { name: /^Share of the fry hatched still alive/ });
    await curve.waitFor();
    await page.getByText(/(Below|Within|Above) what your past spawns did/).waitFor();
    await tallPicture('spawn-wide-light');
    const before = await page.getByText(/^Survival \d+ % at day \d+/).textContent();
    await page.getByLabel('Culls count as').selectOption('deathsOnly');
    await page.getByText(/where weak fish are culled, it looks better/).waitFor();
    expect(await page.getByText(/^Survival \d+ % at day \d+/).textContent()).not.toBe(before);
    await page.getByLabel('Start from').selectOption('EGGS');
    await page.getByRole('img', { name: /^Share of the eggs still alive/ }).waitFor();
  });

  /** A spawn old enough to have been sorted. */
  const sortedSpawn = async (): Promise<string> => {
    const id = await page.evaluate(async () => {
      const response = await fetch('/graphql', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({
          query: '{ spawnList(first: 40) { edges { node { id counts { stage } } } } }',
        }),
      });
      const { data } = (await response.json()) as {
        data: { spawnList: { edges: { node: { id: string; counts: { stage: string }[] } }[] } };
      };
      return data.spawnList.edges.find(({ node }) =>
        node.counts.some(({ stage }) => stage === 'SORTED'),
      )?.node.id;
    });
    return `/spawns/${id ?? ''}`;
  };

  it('records a reading on a phone, asking which unit the kit prints', async () => {
    await page.setViewportSize(PHONE);
    await settle('/water');
    await page.getByRole('button', { name: 'Record reading' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.getByLabel(/^Vessel/).fill('Jar rack');
    await sheet.getByLabel(/^Total ammonia/).fill('1,0');
    await sheet.getByLabel(/^pH/).fill('8.0');
    await sheet.getByLabel(/^Temperature/).fill('24');
    await sheet.getByRole('radio', { name: /as N / }).check();
    await picture('reading-phone-light');
    expect(await accessibilityFaults(page)).toEqual([]);
    await sheet.getByRole('button', { name: 'Save reading' }).click();
    await sheet.waitFor({ state: 'detached' });
    await page.getByRole('link', { name: 'Jar rack' }).first().click();
    await page.getByRole('heading', { name: 'Water of Jar rack' }).waitFor();
    // 1.0 mg/L as N at 24 °C and pH 8.0: 0.0502 as N, 0.061 as NH3.
    // The list of waters above may have the new figure before the readings themselves have it.
    const readings = page.getByRole('table', { name: 'Readings of Jar rack' });
    await readings.getByText('0.061').first().waitFor();
    await page.getByRole('button', { name: /^Correct reading of/ }).click();
    await sheet.getByLabel(/^Total ammonia/).fill('0.5');
    await sheet.getByRole('button', { name: 'Save correction' }).click();
    await sheet.waitFor({ state: 'detached' });
    await readings.getByText('0.031').first().waitFor();
    await page.getByRole('button', { name: /^Correct reading of/ }).click();
    await sheet.getByRole('button', { name: 'Withdraw it instead' }).click();
    await sheet.getByLabel(/^Reason/).fill('practice only');
    await sheet.getByRole('button', { name: 'Withdraw', exact: true }).click();
    await page.getByText('No reading yet.').first().waitFor();
    await page.setViewportSize(wide);
  });

  it('works out a change without saving anything', async () => {
    await settle('/water');
    await page.getByLabel('Total ammonia now').fill('0.8');
    await page.getByLabel('pH now').fill('7.6');
    await page.getByLabel('Temperature now').fill('27');
    const work = page.getByRole('region', { name: 'Work it out' });
    await work.getByRole('radio', { name: /as N / }).check();
    await work.getByText(/Change \d+ % of the water\./).waitFor();
    await page.getByLabel('pH of the new water').fill('8.0');
    await work.getByText(/new water has a higher pH/).waitFor();
    await page.getByLabel('Ammonia of the new water').fill('2');
    await work.getByText(/No change with this new water/).waitFor();
  });

  it('tells what to do where the way to the limit would be worse, and of harm where none is needed', async () => {
    await settle('/water');
    const work = page.getByRole('region', { name: 'Work it out' });
    const fill = async (figures: Record<string, string>) => {
      for (const [label, value] of Object.entries(figures)) {
        await work.getByLabel(label).fill(value);
      }
    };
    await work.getByRole('radio', { name: /as N / }).check();
    await fill({ 'Total ammonia now': '1', 'pH now': '7.5', 'Temperature now': '28' });
    await fill({ 'pH of the new water': '8.2' });
    await work.getByText(/Do not change with this new water: .* move the fish/).waitFor();
    await tallPicture('worse-on-the-way-light');
    await fill({ 'Total ammonia now': '3', 'pH now': '6.5', 'Temperature now': '27' });
    await fill({ 'pH of the new water': '8' });
    await work.getByText(/no change is needed for it/).waitFor();
    await work.getByText(/usual change of 25 %, 8\.4 times the limit/).waitFor();
    await settle('/cautions');
    for (const name of ['Selling and giving away', 'Electricity beside water', 'Water']) {
      await page.getByRole('heading', { name, exact: true }).waitFor();
    }
  });

  it('makes jar labels whose PDF holds the chosen fish, from the address given', async () => {
    const brood = await blueBrood(page);
    await settle(`/fish?text=${brood}`);
    await page.getByRole('link', { name: 'Print labels' }).click();
    await page.getByRole('heading', { name: 'Labels and cards', level: 1 }).waitFor();
    await page.getByText(/means “this machine”/).waitFor();
    await page.getByLabel('Another address').fill('http://192.168.1.20:4700');
    await page.getByLabel('Start at place').fill('5');
    await tallPicture('print-wide-light');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Make the PDF' }).click(),
    ]);
    const pages = await readPdf(new Uint8Array(await downloaded(download)));
    const words = pages[0]!.texts.map((text) => text.words);
    expect(words.some((word) => word.startsWith(`${brood}-`))).toBe(true);
    // Fifth place of a grid three across: second row, second column.
    const [first] = pages[0]!.texts;
    expect(first!.x).toBeGreaterThan(pages[0]!.width / 3);
    expect(first!.y).toBeGreaterThan(pages[0]!.height / 8);
  });

  it('tells in words why a sheet does not fit, and why a card was refused', async () => {
    await settle(`/print?spawn=${spawnPath.split('/').at(-1) ?? ''}&what=spawn-cards`);
    await page.getByText('1 chosen').waitFor();
    await page.getByLabel('Grid').selectOption('own');
    await page.getByText(/Labels across/).waitFor();
    await page.getByLabel('Width of one').fill('90');
    await page.getByText(/the page is 210 mm wide/).waitFor();
    await page.getByLabel('Width of one').fill('60');
    await page.getByRole('button', { name: 'Make the PDF' }).click();
    await page.getByText(/A card needs 90 by 120 mm/).waitFor();
  });

  it.each(['a vessel', 'a spawn with readings', 'a sorted spawn'] as const)(
    'is free of accessibility faults and fits a phone: %s',
    async (screen) => {
      await settle(
        {
          'a vessel': '/water?vessel=Grow-out%20tub%202',
          'a spawn with readings': spawnPath,
          'a sorted spawn': await sortedSpawn(),
        }[screen],
      );
      expect(await screenFaults(page)).toEqual([]);
    },
  );

  it('without a fault in any page', () => {
    expect(opened.faults).toEqual([]);
  });
});
