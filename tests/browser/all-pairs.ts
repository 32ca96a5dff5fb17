import type { Page } from 'playwright-core';

/** Leaves the proposal for the list of all pairs. */
export const showAllPairs = (page: Page): Promise<void> =>
  page.getByRole('button', { name: 'All pairs in a list' }).click();
