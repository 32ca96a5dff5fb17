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

  it('draws a forecast whose fans can be read as a table', async () => {
    const fan = page.locator('figure', { hasText: 'Mean kinship' });
    await fan.waitFor({ timeout: WAIT_MS });
    await fan.getByText('As a table').click();
    await expect.poll(() => fan.locator('tbody tr').count()).toBe(9);
  });

  it('is free of accessibility faults and fits a phone', async () => {
    expect(await screenFaults(page)).toEqual([]);
  });
});
