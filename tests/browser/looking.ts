import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page, Request } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const QUIET_MS = 150;
/** The narrowest phone the screens are made for. */
export const PHONE = { width: 390, height: 844 };

/** Waits until nothing was asked of the server for a moment: a screen asks its next question at once. */
export const quiet = async (page: Page, during: () => Promise<unknown>): Promise<void> => {
  const open = new Set<Request>();
  let since = performance.now();
  const asked = (request: Request): void => {
    open.add(request);
    since = performance.now();
  };
  const answered = (request: Request): void => {
    open.delete(request);
    since = performance.now();
  };
  page.on('request', asked).on('requestfinished', answered).on('requestfailed', answered);
  try {
    await during();
    for (let workedOff = 0; workedOff !== since;) {
      while (open.size > 0 || performance.now() - since < QUIET_MS) await page.waitForTimeout(25);
      workedOff = since;
      // On a busy machine a page may still be at work on its answer, and ask again after it.
      await page.evaluate(
        () => new Promise((done) => requestIdleCallback(done, { timeout: 5_000 })),
      );
    }
  } finally {
    page.off('request', asked).off('requestfinished', answered).off('requestfailed', answered);
  }
};

/** Goes to an address and waits for its heading, its figures and its drawings. */
export const settleAt = (page: Page, address: string): Promise<void> =>
  quiet(page, async () => {
    await page.goto(address);
    await page.locator('h1').first().waitFor();
    await page.waitForFunction(() => document.querySelector('.states_loading') === null);
  });

interface Found {
  violations: { id: string; nodes: { target: unknown[] }[] }[];
}

/** Faults against WCAG 2.2 A and AA, each with the first part of the page that has it. */
export const accessibilityFaults = async (page: Page): Promise<string[]> => {
  if (!(await page.evaluate('typeof axe === "object"'))) await page.evaluate(axe);
  const { violations } = await page.evaluate(() =>
    (globalThis as unknown as { axe: { run: (o: object) => Promise<Found> } }).axe.run({
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'],
      resultTypes: ['violations'],
    }),
  );
  return violations.map(({ id, nodes }) => `${id}: ${String(nodes[0]?.target)}`);
};

const widthOf = (page: Page): Promise<number> =>
  page.evaluate(() =>
    Math.max(
      document.documentElement.scrollWidth,
      document.querySelector('.frame_main')?.scrollWidth ?? 0,
    ),
  );

/** WCAG 2.2, 1.4.4: how wide a screen is on a phone whose reader asked the browser for letters of 200 %. */
export const widthWithLargeLetters = async (page: Page): Promise<number> => {
  const before = page.viewportSize();
  await page.setViewportSize(PHONE);
  const letters = (size: string): Promise<void> =>
    page.evaluate((asked) => {
      document.documentElement.style.fontSize = asked;
    }, size);
  await letters('200%');
  const width = await widthOf(page);
  await letters('');
  if (before !== null) await page.setViewportSize(before);
  return width;
};

/**
 * What is wrong with the screen that is open: in light as wide as it is, in dark on a phone,
 * and whether it reaches past the phone's edge. Leaves the page light and as wide as it was.
 */
export const screenFaults = async (page: Page): Promise<string[]> => {
  const before = page.viewportSize();
  await page.emulateMedia({ colorScheme: 'light' });
  const found = await accessibilityFaults(page);
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.setViewportSize(PHONE);
  found.push(...(await accessibilityFaults(page)).map((each) => `dark on a phone: ${each}`));
  const width = await widthOf(page);
  if (width > PHONE.width) found.push(`${width} px wide on a phone`);
  await page.emulateMedia({ colorScheme: 'light' });
  if (before !== null) await page.setViewportSize(before);
  return found;
};
