import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenPage, openDemoPage, type RunningServer, WAIT_MS } from './harness.js';
import { screenFaults, settleAt } from './looking.js';

interface Found {
  lineRoutes: {
    waiting: object | null;
    routes: { chance: number; simulations: number; fry: number }[];
  };
}

const ASKED = { share: 0.9, generations: 5, fryPerBrood: 30, withOutcross: true };

describe('where a line can go, looked at', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;
  let lineId = '';

  const ask = async <Data>(query: string, variables: object = {}): Promise<Data> => {
    const answer = await page.request.post(`${server.url}/graphql`, { data: { query, variables } });
    return ((await answer.json()) as { data: Data }).data;
  };
  const found = async (): Promise<Found['lineRoutes']> =>
    (
      await ask<Found>(
        'query ($input: RouteSearchInput!) { lineRoutes(input: $input) { waiting { id } routes { chance simulations fry } } }',
        { input: { lineId, ...ASKED } },
      )
    ).lineRoutes;

  beforeAll(async () => {
    opened = await openDemoPage({ viewport: { width: 1280, height: 860 } });
    ({ server, page } = opened);
    const { lines } = await ask<{ lines: { id: string; code: string }[] }>('{ lines { id code } }');
    lineId = lines.find(({ code }) => code === 'RB')!.id;
  });
  afterAll(() => opened?.stop());

  it('is reached from the line, and its list has the figures of the API', async () => {
    await settleAt(page, `${server.url}/lines/${lineId}`);
    await page.getByRole('link', { name: 'Routes and forecast' }).click();
    await expect
      .poll(async () => (await found()).waiting, { timeout: WAIT_MS, interval: 500 })
      .toBeNull();
    await settleAt(page, `${server.url}/lines/${lineId}/routes`);
    const [best] = (await found()).routes;
    await page.getByText('Chance of each route').waitFor({ timeout: WAIT_MS });
    const first = page.locator('ol > li').first();
    await first.locator('summary').click();
    const text = await first.innerText();
    expect(text).toContain(best!.simulations.toLocaleString('en'));
    expect(text).toContain(`${Math.round(best!.fry).toLocaleString('en')} young`);
  });

  it('goes on showing how far a search is when answers take longer than it waits to ask again', async () => {
    await page.route('**/graphql', async (route) => {
      if (route.request().postData()?.includes('query LineRoutes') === true)
        await new Promise((resolve) => setTimeout(resolve, 2_000));
      await route.continue();
    });
    await page.getByLabel('Time at most').selectOption('2');
    await page.getByText('Searching the routes').waitFor();
    await page.getByText('Searching the routes').waitFor({ state: 'detached' });
    await page.getByText('Chance of each route').waitFor();
    await page.unrouteAll({ behavior: 'wait' });
    await page.getByLabel('Time at most').selectOption('5');
  });

  it('a route is adopted as the plan of the line, and the line’s page follows it', async () => {
    // A route that was opened stays open while the list is searched again.
    const first = page.locator('ol > li').first();
    const adopt = first.getByRole('button', { name: 'Adopt as the line’s plan' });
    if (!(await adopt.isVisible())) await first.locator('summary').click();
    await adopt.click();
    const sheet = page.getByRole('dialog');
    await sheet.getByRole('button', { name: 'Adopt this plan' }).click();
    await sheet.getByText('This route is the line’s plan now').waitFor();
    await sheet.getByRole('link', { name: 'The line’s page' }).click();
    const broods = page.getByRole('table', { name: 'Broods of the plan' });
    await broods.waitFor();
    expect(await broods.getByRole('row').nth(1).innerText()).toContain('to be paired now');
    await page.getByText('On course.').waitFor();
    await page
      .getByRole('button', { name: /^Choose the spawn of generation 1/ })
      .first()
      .click();
    await sheet.getByLabel('Spawn', { exact: true }).selectOption({ label: 'None so far' });
    await sheet.getByRole('button', { name: 'Save' }).click();
    await sheet.waitFor({ state: 'hidden' });
    await broods.getByText('as you said').waitFor();
    expect(await screenFaults(page)).toEqual([]);
    await page.getByRole('link', { name: 'Routes and forecast' }).click();
  });

  it('draws a forecast whose fans can be read as a table', async () => {
    const fan = page.locator('figure', { hasText: 'Mean kinship' });
    await fan.waitFor({ timeout: WAIT_MS });
    await fan.getByText('As a table').click();
    await expect.poll(() => fan.locator('tbody tr').count()).toBe(9);
  });

  it('is free of accessibility faults and fits a phone', async () => {
    expect(await screenFaults(page)).toEqual([]);
  });

  it('leads to what an outcross gives, whose table has the figures of the API', async () => {
    await settleAt(page, `${server.url}/lines/${lineId}`);
    await page.getByRole('link', { name: 'Outcross', exact: true }).click();
    await page.getByLabel('Partner', { exact: true }).last().selectOption('described');
    const { lineOutcross } = await ask<{
      lineOutcross: { backcrosses: { generations: { lineShare: number; inbreeding: number }[] } };
    }>(
      `query ($input: LineOutcrossInput!) { lineOutcross(input: $input) {
        backcrosses { generations { lineShare inbreeding } } } }`,
      { input: { lineId, described: { sex: 'FEMALE', shows: [] }, simulated: false } },
    );
    const rows = page
      .getByRole('group', { name: 'What the young are expected to be' })
      .locator('tbody tr');
    await rows.first().waitFor({ timeout: WAIT_MS });
    const told = await rows.allInnerTexts();
    lineOutcross.backcrosses.generations.forEach(({ lineShare, inbreeding }, k) => {
      expect(told[k]).toContain(`${Number((100 * lineShare).toFixed(1))} %`);
      expect(told[k]).toContain(`${(100 * inbreeding).toFixed(1)} %`);
    });
    await page.getByRole('button', { name: 'Brother × sister' }).click();
    await expect.poll(() => rows.last().innerText()).toContain('50 %');
    await page.getByText('Dotted, not bred yet').waitFor({ timeout: WAIT_MS });
    // What holds for every outcross stands there once.
    expect(await page.getByText('Keep it apart first').count()).toBe(1);
    await page
      .getByRole('heading', { name: 'What the outcross makes better' })
      .waitFor({ timeout: WAIT_MS });
    expect(await screenFaults(page)).toEqual([]);
  });
});
