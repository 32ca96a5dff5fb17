import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { today } from '../clock.js';
import { type OpenPage, openDemoPage, type RunningServer } from './harness.js';
import { PHONE, quiet, screenFaults, settleAt } from './looking.js';

describe.each([
  { where: 'on a wide screen', screen: { viewport: { width: 1280, height: 900 } } },
  { where: 'on a phone', screen: { viewport: PHONE, hasTouch: true } },
])('from what a line is for to the page of its round, $where', ({ screen }) => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;
  let linePage = '';
  let roundPage = '';

  beforeAll(async () => {
    opened = await openDemoPage(screen);
    ({ server, page } = opened);
    await settleAt(page, `${server.url}/lines`);
    await page.getByRole('link', { name: /^RB/ }).first().click();
    await page.waitForURL(/\/lines\/[\da-f-]{36}$/);
    linePage = page.url();
  });
  afterAll(() => opened?.stop());

  it('says anew what the line is for, some of it by comparing fish two at a time', async () => {
    await page.getByRole('link', { name: 'What it is for' }).click();
    await page.getByRole('heading', { name: 'What RB is for', level: 1 }).waitFor();
    await page.getByLabel('Broods to make').fill('4');
    await page.getByRole('button', { name: 'Compare two fish' }).click();
    const asked = page.getByRole('dialog');
    for (let answers = 1; answers <= 3; answers++) {
      await asked
        .getByRole('button', { name: /^Rather / })
        .first()
        .click();
      await asked.getByText(`${answers} answer`).waitFor();
    }
    await asked.getByRole('button', { name: 'Put these points into the form' }).click();
    await asked.waitFor({ state: 'hidden' });
    await page.getByLabel('Why it changes').fill('There are tanks for four.');
    await page.getByRole('button', { name: 'Save as version 3' }).click();
    const said = page.getByRole('row', { name: /There are tanks for four/ });
    await said.waitFor();
    expect(await said.innerText()).toContain('Broods: 3 → 4');
    expect(await said.innerText()).toMatch(/Caudal spread: .* → /);
  });

  it('keeps what is typed when the page is left, until it is let go', async () => {
    await page.getByLabel('Young to keep').fill('11');
    await page.getByRole('link', { name: 'Line RB' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Stay here' }).last().click();
    expect(await page.getByLabel('Young to keep').inputValue()).toBe('11');
    await page.getByLabel('Young to keep').fill('8');
  });

  it('says what a fish costs that somebody has in mind and that is not proposed', async () => {
    await page.getByRole('main').getByRole('link', { name: 'Next pairing', exact: true }).click();
    await page.getByText('By version 3 of').waitFor();
    const male = page.getByRole('combobox', { name: 'Male you want to use', exact: true });
    const use = page.getByRole('button', { name: 'Use in the pairs' });
    expect(await use.isDisabled()).toBe(true);
    const proposed = await page.getByRole('button', { name: /^Not RB/ }).allInnerTexts();
    await male.click();
    const offered = page.getByRole('option', { name: /^RB\S+ · male/ });
    await offered.first().waitFor();
    const tags = (await offered.allInnerTexts()).map((text) => text.split(' ')[0]!);
    const other = tags.find((tag) => !proposed.includes(`Not ${tag}`))!;
    await offered.filter({ hasText: `${other} · ` }).click();
    await use.click();
    await page.getByText(`${other} must be in a pair.`).waitFor();
    await page.getByText(/^This (costs|changes)/).waitFor();
    await page.getByText('You asked for it, or for one of its fish.').waitFor();
    await page.getByRole('button', { name: `Take back: ${other} must be in a pair` }).click();
    await page.getByText('What you asked for').waitFor({ state: 'hidden' });
  });

  it('makes the pairs that are proposed for that version', async () => {
    const colourOf = (name: string): Promise<string> =>
      page
        .getByRole('button', { name })
        .first()
        .evaluate((button) => getComputedStyle(button).backgroundColor);
    // What is to be done next stands out from what can be changed.
    expect(await colourOf('Make these 3 further pairs')).not.toBe(await colourOf('Not this pair'));
    await page.getByRole('button', { name: 'Make these 3 further pairs' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.getByRole('button', { name: 'Plan these pairs' }).click();
    const anyway = sheet.getByLabel('Plan these pairs anyway');
    const done = sheet.getByRole('link', { name: 'The round’s page' });
    await anyway.or(done).first().waitFor();
    if (await anyway.isVisible()) {
      await anyway.check();
      await sheet.getByRole('button', { name: 'Plan these pairs' }).click();
    }
    await done.click();
    await page.waitForURL(/\/rounds\/[\da-f-]{36}$/);
    roundPage = page.url();
    await page.getByText('0 of 3 have spawned').waitFor();
    expect(await page.getByRole('link', { name: 'version 3 of what line RB is for' }).count()).toBe(
      1,
    );
  });

  it('proposes no further pair while the round takes all the room, and leads to it', async () => {
    await settleAt(page, linePage);
    await page.getByRole('link', { name: 'Propose the next round' }).click();
    await page.getByText('There is room for no further pair: 4 are planned already.').waitFor();
    await page.getByText('4 pairs are planned already: 4 wait for a spawn.').waitFor();
    // The demo has a pair that was planned by hand.
    await page.getByText('1 is planned by hand, not as a round.').waitFor();
    expect(await page.getByRole('button', { name: /^Make th/ }).count()).toBe(0);
    await page.getByRole('link', { name: /^Round of / }).click();
    await page.waitForURL(roundPage);
  });

  it('shows the first spawn of the round on its page, and what was learnt', async () => {
    const pair = page.getByRole('table', { name: 'Pairs of the round' }).getByRole('row').nth(1);
    const [sire = '', dam = ''] = await pair.getByRole('link').allInnerTexts();
    await page.getByRole('link', { name: 'Planned pairings' }).click();
    await page
      .getByRole('button', { name: new RegExp(`^Record spawn of .*${sire}.*${dam}`) })
      .first()
      .click();
    const form = page.getByRole('dialog');
    await form.getByLabel(/^Tag of the spawn/).fill('RB-round-1');
    await form.getByLabel(/^Spawned on/).fill(today());
    await form.getByRole('button', { name: /record/i }).click();
    await form.waitFor({ state: 'hidden' });
    await settleAt(page, roundPage);
    await page.getByText('1 of 3 have spawned').waitFor();
    const came = page.getByRole('table', {
      name: 'What was wished for and what came of RB-round-1',
    });
    expect(await came.getByRole('row').count()).toBeGreaterThan(4);
    await page.getByRole('textbox', { name: 'What was learnt' }).fill('Cold water, few eggs.');
    await quiet(page, () => page.getByRole('button', { name: 'Save what was learnt' }).click());
    await settleAt(page, linePage);
    await page.getByRole('cell', { name: 'Cold water, few eggs.' }).waitFor();
  });

  it('prints what was learnt, without the way around the program', async () => {
    await settleAt(page, roundPage);
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByRole('paragraph').getByText('Cold water, few eggs.').isVisible()).toBe(
      true,
    );
    expect(await page.getByRole('navigation', { name: 'Main', exact: true }).isVisible()).toBe(
      false,
    );
    expect(await page.getByRole('button', { name: 'Save what was learnt' }).isVisible()).toBe(
      false,
    );
    await page.emulateMedia({ media: 'screen' });
  });

  it('has no accessibility fault in light or dark, and fits a phone', async () => {
    for (const address of [roundPage, `${linePage}/purpose`]) {
      await settleAt(page, address);
      expect(await screenFaults(page), address).toEqual([]);
    }
  });

  it('without a fault in the page', () => {
    expect(opened.faults).toEqual([]);
  });
});
