import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** Opens the list of all pairs: what is worked out above it moves the button under the pointer, so a press may miss. */
export const showAllPairs = async (page: Page): Promise<void> => {
  const hide = page.getByRole('button', { name: 'Hide the list of all pairs' });
  await page.getByRole('button', { name: 'Show all pairs in a list' }).waitFor();
  await expect
    .poll(async () => {
      const show = page.getByRole('button', { name: 'Show all pairs in a list' });
      if (await show.isVisible()) await show.click({ timeout: 5_000 }).catch(() => undefined);
      return hide.isVisible();
    })
    .toBe(true);
};
