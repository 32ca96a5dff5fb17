import type { Page } from 'playwright-core';
import { openBrowser, openContext, type OpenPage, openPage, WAIT_MS } from './harness.js';
import { accessibilityFaults, PHONE } from './looking.js';

/** Two people on one server, each before a browser of their own: one at a desk, one with a phone. */
export interface TwoPeople {
  readonly opened: OpenPage;
  readonly desk: Page;
  readonly phone: Page;
  stop(): Promise<void>;
}

export const openTwo = async (): Promise<TwoPeople> => {
  const opened = await openPage({ viewport: { width: 1280, height: 900 } });
  const context = await openContext(await openBrowser(), {
    ...{ serviceWorkers: 'block', viewport: PHONE, hasTouch: true },
  });
  const phone = await context.newPage();
  phone.setDefaultTimeout(WAIT_MS);
  const stop = async (): Promise<void> => {
    await context.close();
    await opened.stop();
  };
  return { opened, desk: opened.page, phone, stop };
};

/** What is wrong with a page as wide as it is, in dark and in light. */
export const faultsAsWide = async (page: Page): Promise<string[]> => {
  const found: string[] = [];
  for (const colorScheme of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme });
    for (const fault of await accessibilityFaults(page)) found.push(`${colorScheme}: ${fault}`);
  }
  const width = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  if (width > 0) found.push(`${width} px too wide`);
  return found;
};
