import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { blueBrood, findInList } from './demo-stock.js';
import { type OpenPage, type RunningServer, openDemoPage, pictures } from './harness.js';
import { PHONE, accessibilityFaults, settleAt } from './looking.js';

const folder =
  process.env['WRITE_PICTURES'] === '1' ? pictures : join(tmpdir(), 'linewright-pictures');

/** A generated picture with a position in it, as a phone would send it. */
const phonePicture = (): Promise<Buffer> =>
  sharp(
    Buffer.from(
      `<svg xmlns="http://www.w3.org/2000/svg" width="800" height="600"><rect width="800" height="600" fill="#cfe5e2"/><path d="M180 300q140-130 300-20l150-150q60 170 0 340L480 320q-160 110-300-20z" fill="#2b4fa0"/></svg>`,
    ),
  )
    .jpeg()
    .withExif({ IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '51/1 30/1 0/1' } })
    .toBuffer();

/** A fan that opens to the right: its base in the middle of the picture, its corners a given spread apart. */
const FAN = { width: 600, height: 400, spread: 150 };
const half = (FAN.spread * Math.PI) / 360;
const fanPoints = [0, -half, half].map((angle, k) => ({
  x: FAN.width / 2 + (k === 0 ? 0 : 160 * Math.cos(angle)),
  y: FAN.height / 2 + (k === 0 ? 0 : 160 * Math.sin(angle)),
}));
const drawnFan = (): Promise<Buffer> => {
  const corners = fanPoints.map(({ x, y }) => `${x} ${y}`).join('L');
  return sharp(
    Buffer.from(
      `<svg xmlns="http://www.w3.org/2000/svg" width="600" height="400"><rect width="600" height="400" fill="#fff"/><path d="M${corners}Z" fill="#2040b0"/></svg>`,
    ),
  )
    .png()
    .toBuffer();
};

describe('score sheets and photos on a phone', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;
  const fishPages: string[] = [];

  beforeAll(async () => {
    mkdirSync(folder, { recursive: true });
    opened = await openDemoPage({
      viewport: PHONE,
      hasTouch: true,
      isMobile: true,
    });
    ({ server, page } = opened);
  });
  afterAll(() => opened?.stop());

  const settle = (path: string): Promise<void> => settleAt(page, `${server.url}${path}`);
  const picture = (name: string): Promise<Buffer> =>
    page.screenshot({ path: join(folder, `${name}.png`), fullPage: true });
  const violations = (): Promise<string[]> => accessibilityFaults(page);
  /** Faults of accessibility in light and dark, and a page wider than the phone. */
  const inspect = async (name: string): Promise<void> => {
    const found: string[] = [];
    for (const colorScheme of ['dark', 'light'] as const) {
      await page.emulateMedia({ colorScheme });
      await picture(`${name}-${colorScheme}`);
      found.push(...(await violations()).map((v) => `${name} ${colorScheme} ${v}`));
    }
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    expect([found, width <= 390]).toEqual([[], true]);
  };

  it('makes a sheet of its own with weights and points', async () => {
    await settle('/score-sheets');
    await inspect('score-sheets-phone');
    await page.getByRole('button', { name: 'New sheet' }).click();
    await page.getByLabel('Name', { exact: false }).first().fill('Evening look');
    await page.getByLabel('Add a trait').selectOption({ label: 'Caudal spread' });
    await page.getByLabel('Add a trait').selectOption({ label: 'Fin balance' });
    await page.getByLabel('No points at').first().fill('120');
    await page.getByLabel('Weight').first().fill('3');
    // A weight on one trait only is refused, and what was typed stays.
    await page.getByLabel('Full points at').first().fill('180');
    await page.getByRole('button', { name: 'Save sheet' }).click();
    await page.getByText('Give every trait a weight').first().waitFor();
    await page.getByLabel('Weight').nth(1).fill('1');
    await page.getByLabel('Minor', { exact: true }).fill('5');
    await page.getByRole('button', { name: 'Add a fault' }).click();
    await page.getByLabel('Fault 1', { exact: true }).fill('Gap at the dorsal');
    await inspect('score-sheet-form-phone');
    await page.getByRole('button', { name: 'Save sheet' }).click();
    await page.getByRole('heading', { name: 'Evening look', level: 1 }).waitFor();
    await page.getByText('with your weights').waitFor();
    await inspect('score-sheet-phone');
  });

  it('scores two fish on it, with totals by the weights', async () => {
    await settle('/fish');
    const brood = await blueBrood(page);
    await findInList(page, brood);
    const links = page.getByRole('link', { name: new RegExp(`^${brood}-`) });
    await links.first().waitFor();
    for (const k of [0, 1]) {
      const href = await links.nth(k).getAttribute('href');
      if (href !== null) fishPages.push(href);
    }
    for (const [k, path] of fishPages.entries()) {
      await settle(path);
      await page.getByRole('button', { name: 'Score on a sheet' }).click();
      const dialog = page.getByRole('dialog');
      const choice = dialog.getByLabel('Sheet', { exact: true });
      const option = await choice
        .locator('option', { hasText: 'Evening look' })
        .getAttribute('value');
      await choice.selectOption(option ?? '');
      await dialog.getByLabel('Caudal spread').fill(k === 0 ? '165' : '180');
      await dialog.getByText(k === 0 ? 'superdelta' : 'halfmoon', { exact: true }).waitFor();
      await dialog
        .getByRole('group', { name: 'Fin balance' })
        .getByText('5', { exact: true })
        .click();
      if (k === 0) await dialog.getByLabel(/Gap at the dorsal/).check();
      // (3 x 0.75 + 1) / 4 of 100, less 5; and everything.
      const total = k === 0 ? '76.3 of 100' : '100.0 of 100';
      await dialog.getByText(total).waitFor();
      if (k === 0) await inspect('score-on-sheet-phone');
      await dialog.getByRole('button', { name: 'Save scores' }).click();
      await dialog.getByText('Saved.').waitFor();
      await dialog.getByText(total).waitFor();
      await page.keyboard.press('Escape');
      const section = page.locator('section').filter({ hasText: 'On score sheets' });
      await section.getByText(total).first().waitFor();
      await section.getByRole('button', { name: /^Why the total on Evening look/ }).click();
      await section.getByText('Points are the share earned times your weight').waitFor();
    }
  });

  let pictures = 0;
  it('adds a photo from the phone; one that failed stays chosen and is sent again', async () => {
    await settle(fishPages[0] ?? '');
    // The demo keeps a drawing of some of its fish.
    pictures = 2 + (await page.getByRole('button', { name: /^Open: / }).count());
    const file = { name: 'tank.jpg', mimeType: 'image/jpeg', buffer: await phonePicture() };
    // The first that is sent; pictures of the page itself may still be on their way.
    let isFirst = true;
    await page.route('**/photos/**', (route) => {
      if (!isFirst || route.request().method() === 'GET') return route.fallback();
      isFirst = false;
      return route.abort();
    });
    await page.getByTestId('files').setInputFiles(file);
    await page.getByLabel('Caption').fill('Left side, flaring');
    await page.getByRole('button', { name: 'Add photo' }).click();
    await page.getByText('did not answer').waitFor();
    expect(await page.getByLabel('Caption').inputValue()).toBe('Left side, flaring');
    await inspect('photo-failed-phone');
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByText('1 photo added.').waitFor();
    const small = page.getByRole('img', { name: 'Left side, flaring' });
    await small.waitFor();
    await expect
      .poll(() => small.evaluate((image) => (image as HTMLImageElement).naturalWidth))
      .toBe(480);
    await page.getByTestId('camera').setInputFiles({ ...file, name: 'second.jpg' });
    await page.getByRole('button', { name: 'Add photo' }).click();
    await page.getByText(`${pictures} photos`).first().waitFor();
    await page
      .getByTestId('files')
      .setInputFiles({ name: 'a.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') });
    await page.getByRole('button', { name: 'Add photo' }).click();
    await page.getByText('not a JPEG, PNG or WebP').waitFor();
    await page.getByRole('button', { name: 'Remove' }).click();
    await inspect('fish-photos-phone');
  });

  it('shows them large, by keyboard too, and takes a caption', async () => {
    await page
      .getByRole('button', { name: /^Open: / })
      .first()
      .click();
    await page.getByRole('heading', { name: `Photo 1 of ${pictures}` }).waitFor();
    await page.keyboard.press('ArrowRight');
    await page.getByRole('heading', { name: `Photo 2 of ${pictures}` }).waitFor();
    await page.keyboard.press('ArrowLeft');
    await page.getByRole('heading', { name: `Photo 1 of ${pictures}` }).waitFor();
    await inspect('photo-large-phone');
    await page.getByRole('button', { name: 'Caption' }).click();
    await page.getByRole('dialog').getByLabel('Caption').fill('From above');
    await page.getByRole('button', { name: 'Save caption' }).click();
    await page.getByText('From above').first().waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('heading', { name: /^Photo \d of \d/ }).waitFor({ state: 'detached' });
    // In the gallery; it stands in the pedigree too, beside the fish.
    await page.getByRole('img', { name: 'From above' }).first().waitFor();
  });

  it('measures the spread of a drawn fan by three taps and by arrow keys, and tells how far both lie apart', async () => {
    await settle(fishPages[0] ?? '');
    await page
      .getByTestId('files')
      .setInputFiles({ name: 'fan.png', mimeType: 'image/png', buffer: await drawnFan() });
    await page.getByLabel('Caption').fill('Drawn fan');
    await page.getByRole('button', { name: 'Add photo' }).click();
    await page.getByText('1 photo added.').waitFor();
    await page.getByRole('button', { name: 'Open: Drawn fan' }).click();
    await page.getByRole('button', { name: 'Measure' }).click();
    const options = page.getByLabel('What to measure');
    await options.selectOption({ label: 'Caudal spread (°)' });
    const stage = page.getByRole('application');
    await stage.scrollIntoViewIfNeeded();
    const box = (await stage.boundingBox())!;
    for (const { x, y } of fanPoints)
      await page.touchscreen.tap(
        box.x + (x * box.width) / FAN.width,
        box.y + (y * box.height) / FAN.height,
      );
    const figure = page.locator('strong', { hasText: /^1\d\d(\.\d)?°$/ });
    const spread = async (): Promise<number> => parseFloat(await figure.innerText());
    await figure.waitFor();
    // A tap of a finger is a pixel or two off.
    expect(Math.abs((await spread()) - FAN.spread)).toBeLessThan(2.5);
    await page.getByText('The fish is not said to stand side on').waitFor();
    await page.getByLabel('The fish stands side on').check();
    await page.getByText('The fish is not said to stand side on').waitFor({ state: 'detached' });
    await inspect('measure-phone');
    await page.getByRole('button', { name: 'Save as score' }).click();
    await page.getByText(/^Scored: Caudal spread 1\d\d/).waitFor();
    // Once more without a finger: each point begins in the middle.
    await stage.focus();
    for (const { x, y } of fanPoints) {
      await page.keyboard.press('ArrowRight');
      const [right, down] = [x - FAN.width / 2, y - FAN.height / 2];
      for (const [by, more, less] of [
        [right, 'ArrowRight', 'ArrowLeft'],
        [down, 'ArrowDown', 'ArrowUp'],
      ] as const) {
        const key = by < 0 ? less : more;
        const steps = Math.abs(Math.round(by));
        for (let k = 0; k < Math.floor(steps / 10); k++) await page.keyboard.press(`Shift+${key}`);
        for (let k = 0; k < steps % 10; k++) await page.keyboard.press(key);
      }
      await page.keyboard.press('Enter');
    }
    expect(Math.abs((await spread()) - FAN.spread)).toBeLessThan(0.5);
    await page.getByRole('button', { name: 'Save as score' }).click();
    await page.getByText('from 2 markings of 1 picture').waitFor();
    await page.getByRole('button', { name: 'Marked before (2)' }).click();
    await page
      .getByRole('button', { name: /^Show the points of/ })
      .first()
      .click();
    await page.getByRole('img', { name: /^Points marked by/ }).waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
  });

  it('draws repeats and scorers of a trait with their figures', async () => {
    await settle('/traits');
    await page.getByRole('link', { name: 'Caudal spread' }).click();
    await page.getByRole('heading', { name: 'Caudal spread', level: 1 }).waitFor();
    await page.getByText(/^r 0\.\d\d \(95 %: /).waitFor();
    await page.getByRole('button', { name: /^Why repeatability/ }).click();
    await page.getByText('Intraclass correlation').waitFor();
    await page.getByRole('img', { name: /^Differences between scorers/ }).waitFor();
    await inspect('trait-phone');
  });

  it('without a fault in any page', () => {
    expect(opened.faults).toEqual([]);
  });
});
