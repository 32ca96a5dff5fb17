import type { Page } from 'playwright-core';

/** On a page that asks for a new password: types it twice. */
export const fillPassword = async (page: Page, password: string): Promise<void> => {
  await page
    .getByLabel(/^Password(?! again)/)
    .first()
    .fill(password);
  await page.getByLabel(/^Password again/).fill(password);
};

/** Begins the records of an empty server that is open, as their owner. */
export const startRecords = async (
  page: Page,
  name = 'Journey keeper',
  password = 'a-long-enough-password',
): Promise<void> => {
  await page.getByLabel(/^Your name/).fill(name);
  await fillPassword(page, password);
  await page.getByRole('button', { name: 'Start keeping records' }).click();
  // An empty book leads.
  await page.getByRole('heading', { name: 'Begin your book', level: 1 }).waitFor();
};
