import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { writeXlsx } from 'hucre/xlsx';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countedTaps } from './counted-taps.js';
import { startRecords } from './first-start.js';
import { type OpenPage, type RunningServer, downloaded, openPage } from './harness.js';

const aPicture = (): Promise<Buffer> =>
  sharp({ create: { width: 64, height: 48, channels: 3, background: 'teal' } })
    .png()
    .toBuffer();

/** Two founders, two of their young, and two young of that pair: F of the last is 1/4 by two paths. */
const pedigree = [
  'tag,sire,dam,sex,hatch_date,line,spread',
  'Q24-02-01,Q23-01-01,Q23-01-02,male,2024-06-01,Q,170',
  'Q24-02-02,Q23-01-01,Q23-01-02,female,2024-06-01,Q,165',
  'Q23-01-01,,,male,2023-05-01,Q,150',
  'Q23-01-02,,,female,2023-05-01,Q,155',
  'Q25-03-01,Q24-02-01,Q24-02-02,male,2025-07-01,Q,178',
  'Q25-03-02,Q24-02-01,Q24-02-02,female,2025-07-01,Q,172',
].join('\n');

/** The same as a keeper may have it: days written day first, a word for a sex of their own, a figure with its unit. */
const keepersWorkbook = (): Promise<Uint8Array> => {
  const rows = pedigree.split('\n').map((row) =>
    row
      .replace(/(\d{4})-0(\d)-01/, '1/$2/$1')
      .replace(',male,', ',boy,')
      .replace(/,172$/, ',172 or so 1')
      .split(','),
  );
  return writeXlsx({ sheets: [{ name: 'Stock', rows }] });
};

describe('the main job in a browser', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;

  beforeAll(async () => {
    opened = await openPage({
      viewport: { width: 1280, height: 900 },
      acceptDownloads: true,
    });
    ({ server, page } = opened);
  });
  afterAll(() => opened?.stop());

  const fishLink = (tag: string) => page.getByRole('link', { name: tag, exact: true }).first();

  it('sets up an owner at first start', async () => {
    await page.goto(server.url);
    await startRecords(page);
  });

  it('leads from an empty book with six fish to the first pair, in few taps', async () => {
    const { press, type, choose, count } = countedTaps();
    await type(page.getByLabel(/^Code/), 'Z');
    await type(page.getByLabel(/^Name/), 'First line');
    await press(page.getByRole('button', { name: 'Save line' }));
    await type(page.getByLabel('Males', { exact: true }), '3');
    await type(page.getByLabel('Females', { exact: true }), '3');
    await choose(page.getByLabel('How they are related'), 'brothers and sisters of one brood');
    // Each has a tag already, and one gets its picture.
    const tags = page.getByLabel(/^Tag/);
    await expect.poll(async () => tags.last().inputValue()).toBe('Z-06');
    await page
      .locator('li', { hasText: 'female' })
      .last()
      .locator('input[type=file]')
      .setInputFiles({ name: 'z6.png', mimeType: 'image/png', buffer: await aPicture() });
    await press(page.getByRole('button', { name: 'Save 6 founders' }));
    await press(page.getByRole('link', { name: 'Choose the first pair' }));
    await press(page.getByRole('button', { name: /^Plan this pair: .*Z-01.*Z-04/ }));
    await press(page.getByRole('dialog').getByRole('button', { name: /plan/i }));
    await page
      .getByRole('link', { name: /^Planned: .*Z-01.*Z-04/ })
      .first()
      .waitFor();
    process.stdout.write(`first pair of six fish from an empty book: ${count()} taps\n`);
    // At ten seconds a tap, typing included, that is within five minutes.
    expect(count()).toBeLessThanOrEqual(15);
    await page.goto(`${server.url}/fish`);
    await fishLink('Z-06').click();
    await page.getByRole('button', { name: /^Open: Photo of Z-06/ }).waitFor();
  });

  it('goes on to the next fish with what they share, and its tag', async () => {
    await page.goto(`${server.url}/fish`);
    await page.getByRole('button', { name: 'New fish' }).click();
    const form = page.getByRole('dialog');
    const tag = form.getByLabel(/^Tag/);
    await expect.poll(() => tag.inputValue()).toBe('Z-07');
    await form.getByLabel(/^Origin/).fill('a friend');
    await form.getByRole('button', { name: 'Save and add another' }).click();
    await form.getByText('Z-07 is saved').waitFor();
    await expect.poll(() => tag.inputValue()).toBe('Z-08');
    expect(await form.getByLabel(/^Origin/).inputValue()).toBe('a friend');
    await form.getByRole('button', { name: 'Save fish' }).click();
    await page.getByRole('heading', { name: 'Z-08', level: 1 }).waitFor();
  });

  it('starts from an example that can be imported as it is', async () => {
    await page.goto(`${server.url}/import`);
    const link = page.getByRole('link', { name: 'Download an example to start from' });
    const [download] = await Promise.all([page.waitForEvent('download'), link.click()]);
    const file = join(mkdtempSync(join(tmpdir(), 'linewright-example-')), 'example.csv');
    writeFileSync(file, await downloaded(download));
    await page.locator('input[type=file]').setInputFiles(file);
    await page.getByRole('button', { name: /^Import 7 rows/ }).waitFor();
    expect(await page.getByRole('button', { name: /^Import 7 rows/ }).isEnabled()).toBe(true);
    expect(await page.getByRole('heading', { name: 'To settle' }).count()).toBe(0);
  });

  it('imports a workbook after a few decisions, and saves nothing before', async () => {
    const file = join(mkdtempSync(join(tmpdir(), 'linewright-book-')), 'stock.xlsx');
    writeFileSync(file, await keepersWorkbook());
    await page.goto(`${server.url}/import`);
    await page.locator('input[type=file]').setInputFiles(file);
    await page.getByText('Nothing can be saved yet').waitFor();
    const take = page.getByRole('button', { name: /^Import 6 rows/ });
    expect(await take.isDisabled()).toBe(true);
    await page.getByRole('heading', { name: '6 dates: which comes first' }).waitFor();
    await page.getByRole('button', { name: 'The day comes first' }).click();
    await page.getByRole('button', { name: 'Read “boy” as “male”' }).click();
    await page.getByText('sex: 3 read as what was most likely meant').waitFor();
    // One cell, mended in place.
    await page.getByText('Show the value').click();
    await page.getByLabel('spread of line 7').fill('172');
    await page.getByRole('button', { name: 'Mend', exact: true }).click();
    await page
      .getByLabel('6 fish are not marked as in use')
      .selectOption({ label: 'all of them are in use' });
    await page.getByText('6 new fish').waitFor();
    await take.click();
    await page.getByText('Imported.').waitFor();
  });

  it("shows a fish's F with the paths that make it", async () => {
    await page.goto(`${server.url}/fish`);
    await fishLink('Q25-03-01').click();
    await page.getByRole('heading', { name: 'Q25-03-01', level: 1 }).waitFor();
    await page
      .getByText(/25\.00? ?%/)
      .first()
      .waitFor();
    const paths = page.getByRole('table', { name: /Paths from sire to dam/ });
    if (!(await paths.isVisible())) await page.getByText(/why/i).first().click();
    await paths.waitFor();
    expect(await paths.getByRole('row').count()).toBe(3);
  });

  it('plans a pairing from the judged pairs and records its spawn', async () => {
    // Of all lines: by itself it opens on the line of the first hour.
    await page.goto(`${server.url}/next-pairing?view=list&line=all`);
    await page.getByRole('button', { name: /^Plan this pair: .*Q25-03-01.*Q25-03-02/ }).click();
    await page.getByRole('dialog').getByRole('button', { name: /plan/i }).click();
    await page
      .getByRole('link', { name: /^Planned: .*Q25-03-01.*Q25-03-02/ })
      .first()
      .waitFor();
    await page.goto(`${server.url}/planned`);
    await page
      .getByRole('button', { name: /^Record spawn of .*Q25-03-01/ })
      .first()
      .click();
    const form = page.getByRole('dialog');
    await form.getByLabel(/^Tag of the spawn/).fill('Q26-04');
    await form.getByRole('button', { name: /record/i }).click();
    // It closes when the spawn is saved: leaving sooner can cut the save off.
    await form.waitFor({ state: 'hidden' });
    await page.goto(`${server.url}/spawns`);
    await page.getByRole('link', { name: 'Q26-04', exact: true }).first().click();
    await page.getByRole('heading', { name: 'Q26-04', level: 1 }).waitFor();
  });

  it('jars fish, scores one, and culls one with its reason', async () => {
    await page.getByRole('button', { name: 'Add jarred fish' }).first().click();
    const form = page.getByRole('dialog');
    await form.getByLabel(/^Number of fish/).fill('3');
    await form.getByRole('button', { name: 'Add fish' }).click();
    await fishLink('Q26-04-03').waitFor();
    await page.goto(`${page.url()}/sort`);
    await page.getByLabel('Trait to score').selectOption({ index: 1 });
    await page.getByRole('textbox', { name: / of Q26-04-01$/ }).fill('168');
    await page.getByRole('textbox', { name: / of Q26-04-01$/ }).press('Enter');
    await page.getByText('168', { exact: false }).first().waitFor();
    await page.getByRole('button', { name: /^keep Q26-04-01/i }).click();
    await page.locator('tr[aria-label="Q26-04-01"] button[aria-pressed=true]').waitFor();
    await page.getByRole('textbox', { name: 'Reason' }).fill('bent spine');
    await page.getByRole('button', { name: /^cull Q26-04-02/i }).click();
    await page.locator('tr[aria-label="Q26-04-02"] button[aria-pressed=true]').waitFor();
    expect(await page.getByText(/vet/i).count()).toBeGreaterThan(0);
  });

  it('exports the pedigree with the new fish, their parents and scores', async () => {
    await page.goto(`${server.url}/export-and-backup`);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'Download the pedigree as CSV' }).click(),
    ]);
    const lines = (await downloaded(download)).toString().trim().split('\n');
    // Six imported, three jarred, and the eight of the first hour, below their headings.
    expect(lines).toHaveLength(18);
    expect(lines.find((line) => line.startsWith('Q26-04-01,'))).toContain('Q25-03-01,Q25-03-02');
    expect(lines.find((line) => line.startsWith('Q26-04-01,'))).toContain('168');
    const young = lines.find((line) =>
      line.startsWith('Q24-02-01,Q23-01-01,Q23-01-02,male,2024-06-01,'),
    );
    expect(young?.split(',')).toEqual(expect.arrayContaining(['Q', '170']));
  });

  it('without a fault in the page', () => {
    expect(opened.faults).toEqual([]);
  });
});
