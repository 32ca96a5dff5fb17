import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenPage, openDemoPage } from './harness.js';
import { quiet, screenFaults, settleAt } from './looking.js';

describe('several fish chosen in the list', () => {
  let opened: OpenPage;
  let page: Page;
  beforeAll(async () => {
    opened = await openDemoPage({ viewport: { width: 1280, height: 900 } });
    ({ page } = opened);
  });
  afterAll(() => opened?.stop());

  const bar = () => page.getByRole('group', { name: 'Chosen fish' });
  const says = (words: string) => bar().getByRole('status').filter({ hasText: words }).waitFor();
  const boxes = () => page.getByRole('checkbox', { name: /^Choose / });
  const dialog = () => page.getByRole('dialog');
  const settled = (during: () => Promise<unknown>) => quiet(page, during);
  const press = (name: string | RegExp, where = dialog()) =>
    settled(() => where.getByRole('button', { name }).click());
  const totalHere = async () => {
    const lead = await page
      .getByText(/^\d+ fish/)
      .first()
      .innerText();
    return Number(/^(\d+) fish/.exec(lead)?.[1]);
  };

  it('by pointer and by keyboard, one by one and a range, in boxes as large as a finger', async () => {
    await page.getByRole('button', { name: 'Choose several' }).click();
    await boxes().nth(0).click();
    await boxes()
      .nth(3)
      .click({ modifiers: ['Shift'] });
    await says('4 fish chosen.');
    await boxes().nth(5).focus();
    await page.keyboard.press('Space');
    await boxes().nth(7).focus();
    await page.keyboard.press('Shift+Space');
    await says('7 fish chosen.');
    await boxes().nth(6).click();
    await says('6 fish chosen.');
    // A tap beside the drawn box, still in its target, chooses too and does not open the fish.
    const box = await boxes().nth(8).boundingBox();
    await page.mouse.click(box!.x + 34, box!.y + 30);
    await says('7 fish chosen.');
    expect(new URL(page.url()).pathname).toBe('/fish');
  });

  it('stay chosen through a filter, a look at a fish and a reload; those out of sight are told', async () => {
    await page.getByLabel('Find').fill('no such fish');
    await says('7 fish chosen, none of them in this list.');
    await page.getByLabel('Find').fill('');
    await says('7 fish chosen.');
    await settled(() => page.locator('.lw-row-link').first().click());
    await page.waitForURL(/\/fish\/[0-9a-f-]{36}$/);
    await page.goBack();
    await says('7 fish chosen.');
    await page.reload();
    await says('7 fish chosen.');
    await bar().getByRole('button', { name: 'Choose none' }).click();
    await says('No fish is chosen yet');
  });

  it('no more than 200 at once, and what is beyond is told', async () => {
    await settleAt(page, `${opened.server.url}/fish?use=all`);
    await page.getByRole('button', { name: 'Choose several' }).click();
    const total = await totalHere();
    expect(total).toBeGreaterThan(200);
    await press('Choose the first 200', bar());
    await says(`200 fish chosen. ${total - 200} more`);
    await bar().getByRole('button', { name: 'Choose none' }).click();
  });

  it('are decided about with the cautions of a single decision', async () => {
    await settleAt(page, `${opened.server.url}/fish`);
    await page.getByRole('button', { name: 'Choose several' }).click();
    await boxes().nth(0).click();
    await boxes().nth(1).click();
    await press('Decide…', bar());
    await dialog()
      .getByLabel(/^Decision/)
      .selectOption('PLACED');
    await dialog()
      .getByText(/ask your authority first/)
      .waitFor();
    await dialog()
      .getByLabel(/^Decision/)
      .selectOption('CULLED');
    await dialog()
      .getByText(/ask a vet/)
      .waitFor();
    await press('Show what changes');
    await dialog()
      .getByText(/Give the reason for the cull/)
      .waitFor();
    await press('Cancel');
    await says('2 fish chosen.');
    await bar().getByRole('button', { name: 'Choose none' }).click();
  });

  it('all change or none: what stands in the way is named and can be left out; a lost save keeps all', async () => {
    const before = await totalHere();
    await press(/^Choose all/, bar());
    await says(`${before} fish chosen.`);
    await press('Withdraw…', bar());
    await dialog()
      .getByLabel(/^Reason/)
      .fill('entered twice');
    await press('Show what changes');
    await dialog()
      .getByText(/stand in the way/)
      .first()
      .waitFor();
    const parents = await dialog()
      .getByRole('cell', { name: /is a parent of spawn/ })
      .count();
    expect(parents).toBeGreaterThan(0);
    expect(await dialog().getByRole('button', { name: 'Withdraw', exact: true }).isDisabled()).toBe(
      true,
    );
    await press(`Leave these ${parents} out of the choice`);
    const rest = before - parents;
    const save = dialog().getByRole('button', { name: `Withdraw ${rest} fish` });
    await save.waitFor();
    await page.route('**/graphql', (route) => route.abort());
    await save.click();
    await dialog()
      .getByText(/does not answer/)
      .waitFor();
    await page.unroute('**/graphql');
    await press('Back');
    expect(
      await dialog()
        .getByLabel(/^Reason/)
        .inputValue(),
    ).toBe('entered twice');
    await press('Show what changes');
    await settled(() => save.click());
    await page.getByText(`${rest} fish withdrawn: entered twice.`).waitFor();
    await expect.poll(totalHere).toBe(parents);
    await says('No fish is chosen yet');
  });

  it('go back as one, and each one tells it in its history', async () => {
    const parents = await totalHere();
    await settled(() => page.getByRole('button', { name: 'Take it back' }).click());
    await page.getByText(/^Taken back: \d+ fish are as before/).waitFor();
    await expect.poll(totalHere).toBeGreaterThan(parents);
    await settled(() => page.getByRole('link', { name: 'See what was done' }).click());
    await page.getByRole('heading', { name: /fish withdrawn: entered twice/, level: 1 }).waitFor();
    const row = page.getByRole('table', { name: 'What changed' }).getByRole('row').nth(1);
    expect(await row.innerText()).toMatch(/no longer withdrawn[^]*withdrawn: entered twice/);
    await settled(() => row.getByRole('link').click());
    await settled(() => page.getByRole('button', { name: 'Show history' }).click());
    await page.getByRole('link', { name: /^taken back, \d+ fish in one act$/ }).waitFor();
  });

  it('on screens without faults, light and dark, on a phone too', async () => {
    await settleAt(page, `${opened.server.url}/fish-acts`);
    expect(await screenFaults(page)).toEqual([]);
    await settled(() =>
      page
        .getByRole('link', { name: /fish withdrawn/ })
        .first()
        .press('Enter'),
    );
    expect(await screenFaults(page)).toEqual([]);
    await settleAt(page, `${opened.server.url}/fish`);
    await page.getByRole('button', { name: 'Choose several' }).click();
    await boxes().nth(0).click();
    expect(await screenFaults(page)).toEqual([]);
    await press('Line…', bar());
    await press('Show what changes');
    expect(await screenFaults(page)).toEqual([]);
  });

  it('without a fault in the page', () => {
    expect(opened.faults).toEqual([]);
  });
});
