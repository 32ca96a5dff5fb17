import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenPage, type RunningServer, openDemoPage } from './harness.js';
import { accessibilityFaults, screenFaults, settleAt } from './looking.js';
import { newRecords } from '../new-records.js';

const folder = join(tmpdir(), 'linewright-pictures');

interface Named {
  id: string;
  tag: string;
  sex: string;
}
interface Health {
  inUseCount: number;
  figures: {
    inbreeding: { value: number };
    meanKinship: { value: number };
    effective: Record<
      'founders' | 'ancestors' | 'genomesByRetention' | 'genomesByKinship' | 'sizeFromSexes',
      { value: number }
    >;
    founders: { fish: Named; contribution: number; retention: number }[];
    kinship: { fish: Named; meanKinship: number; inbreedingBasis: string }[];
  };
}
interface MapAnswer {
  fish: { fish: Named }[];
  coancestry: number[];
}

const percent = (value: number, decimals = 2): string => `${(value * 100).toFixed(decimals)} %`;

describe('a line’s health and its relationship map, looked at', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;
  let lineId = '';

  beforeAll(async () => {
    mkdirSync(folder, { recursive: true });
    opened = await openDemoPage({
      viewport: { width: 1280, height: 860 },
    });
    ({ server, page } = opened);
  });
  afterAll(() => opened?.stop());

  const settle = (path: string): Promise<void> => settleAt(page, `${server.url}${path}`);

  const ask = async <Data>(query: string, variables: object): Promise<Data> => {
    const answer = await page.request.post(`${server.url}/graphql`, { data: { query, variables } });
    return ((await answer.json()) as { data: Data }).data;
  };

  const mapOf = async (lineIds: string[] | null, includeUnsorted = false): Promise<MapAnswer> =>
    (
      await ask<{ relationshipMap: MapAnswer }>(
        'query ($lineIds: [ID!], $u: Boolean) { relationshipMap(lineIds: $lineIds, includeUnsorted: $u) { coancestry fish { fish { id tag sex } } } }',
        { lineIds, u: includeUnsorted },
      )
    ).relationshipMap;

  const violations = (): Promise<string[]> => accessibilityFaults(page);

  const fact = (name: string): Promise<string> =>
    page
      .locator('.stock-figures_figures .facts_facts > div')
      .filter({ has: page.locator('dt', { hasText: new RegExp(`^${name}$`) }) })
      .locator('.lw-figure')
      .innerText();

  it('is reached from the list of lines, and shows the figures of the API', async () => {
    await settle('/lines');
    await page.getByRole('link', { name: 'Health of line RB' }).click();
    await page.getByRole('heading', { name: 'Health of line RB', level: 1 }).waitFor();
    lineId = /lines\/([^/]+)\/health/.exec(page.url())![1]!;
    const { lineHealth } = await ask<{ lineHealth: Health }>(
      `query ($lineId: ID!) { lineHealth(lineId: $lineId) { inUseCount figures { inbreeding { value } meanKinship { value }
        effective { founders { value } ancestors { value } genomesByRetention { value } genomesByKinship { value } sizeFromSexes { value } }
        founders { contribution retention fish { id tag sex } } kinship { meanKinship inbreedingBasis fish { id tag sex } } } } }`,
      { lineId },
    );
    const { inUseCount, figures } = lineHealth;
    await page.getByText(new RegExp(`^${inUseCount} fish of \\d+ recorded$`)).waitFor();
    // Some of the demo's founders are of unknown origin: these means are the least they can be.
    expect(figures.kinship.some((one) => one.inbreedingBasis !== 'KNOWN')).toBe(true);
    expect(await fact('Mean F')).toBe(`≥ ${percent(figures.inbreeding.value)}`);
    expect(await fact('Mean kinship')).toBe(`≥ ${percent(figures.meanKinship.value)}`);
    for (const [name, figure] of [
      ['Effective founders', figures.effective.founders],
      ['Effective ancestors', figures.effective.ancestors],
      ['Founder genome equivalents, by retention', figures.effective.genomesByRetention],
      ['Genome equivalents, by mean kinship', figures.effective.genomesByKinship],
      ['From the numbers of sires and dams', figures.effective.sizeFromSexes],
    ] as const) {
      expect(await fact(name), name).toMatch(new RegExp(`^${figure.value.toFixed(2)}( ±|$)`));
    }
    const cells = (caption: string) =>
      page.getByRole('group', { name: caption }).locator('tbody tr').allInnerTexts();
    const founders = await cells('Founders by their share in the fish in use');
    expect(founders).toHaveLength(figures.founders.length);
    figures.founders.forEach(({ fish, contribution, retention }, k) => {
      expect(founders[k]).toContain(fish.tag);
      expect(founders[k]).toContain(percent(contribution, 1));
      expect(founders[k]).toContain(percent(retention, 1));
    });
    const kinship = await cells('Fish in use by mean kinship');
    expect(kinship).toHaveLength(inUseCount);
    figures.kinship.forEach(({ fish, meanKinship }, k) => {
      expect(kinship[k]).toContain(fish.tag);
      expect(kinship[k]).toContain(percent(meanKinship));
    });
    await page.screenshot({ path: join(folder, 'line-health.png') });
  });

  it('explains a figure in place, and gives the plots as tables', async () => {
    await page.getByRole('button', { name: 'Why Effective founders?' }).click();
    const why = page.locator('.lw-reason:visible');
    expect(await why.innerText()).toContain('1 / sum of p²');
    expect(await why.innerText()).toContain('Lacy RC (1989)');
    expect(await why.innerText()).toContain('founders with a part');
    const tables = page.getByText('As a table');
    expect(await tables.count()).toBe(2);
    await tables.first().click();
    const plot = page.getByRole('region', { name: /^F by generation/ });
    await expect.poll(() => plot.locator('tbody tr').count()).toBeGreaterThan(3);
  });

  it('counts the unsorted when asked, and keeps that in the address', async () => {
    await newRecords({ graphql: ask }).createFish({
      tag: 'RB-undecided',
      sex: 'UNSEXED',
      disposition: 'UNSORTED',
      lineId,
    });
    await settle(`/lines/${lineId}/health`);
    const counted = page.locator('.section_aside', { hasText: 'recorded' });
    const count = async (): Promise<number> => Number.parseInt(await counted.innerText(), 10);
    const before = await count();
    const box = page.getByLabel('Count the unsorted too');
    await box.check();
    await page.waitForURL(/unsorted=yes/);
    await expect.poll(count).toBeGreaterThan(before);
    // The choice stays under the finger while the figures are fetched.
    expect(await box.evaluate((input) => document.activeElement === input)).toBe(true);
  });

  it.each(['health', 'relationship', 'all lines'])(
    'is free of accessibility faults and fits a phone, all reasons open: %s',
    async (screen) => {
      await settle(screen === 'all lines' ? '/relationship' : `/lines/${lineId}/${screen}`);
      for (const why of await page.getByRole('button', { name: /^Why / }).all()) await why.click();
      expect(await screenFaults(page)).toEqual([]);
      // What is only heard must not stretch the page behind what scrolls.
      const { scrollHeight, clientHeight } = await page.evaluate(() => document.documentElement);
      expect(scrollHeight).toBe(clientHeight);
    },
  );

  it('goes to a pair by keyboard: arrows to a cell, Enter to its page', async () => {
    const { fish, coancestry } = await mapOf([lineId]);
    const cells = fish.flatMap((row, i) =>
      fish.slice(0, i).map((column, j) => ({
        i,
        j,
        value: coancestry[(i * (i + 1)) / 2 + j]!,
        sexes: `${row.fish.sex} ${column.fish.sex}`,
      })),
    );
    const mates = cells.find(({ sexes, i }) => i > 2 && sexes === 'FEMALE MALE')!;
    await settle(`/lines/${lineId}/relationship`);
    const map = page.getByRole('application', { name: /Coancestry/ });
    await map.focus();
    const go = async ({ i, j }: { i: number; j: number }): Promise<void> => {
      await page.keyboard.press('Home');
      for (let k = 0; k < fish.length; k += 10) await page.keyboard.press('PageUp');
      for (let k = 0; k < i; k++) await page.keyboard.press('ArrowDown');
      for (let k = 0; k < j; k++) await page.keyboard.press('ArrowRight');
    };
    const males = cells.find(({ sexes }) => sexes === 'MALE MALE')!;
    await go(males);
    await page.getByText('Both are males').waitFor();
    expect(await page.getByRole('button', { name: 'Open pair' }).count()).toBe(0);
    await page.keyboard.press('Enter');
    expect(page.url()).toContain('/relationship');
    await go(mates);
    await page.getByRole('button', { name: 'Open pair' }).waitFor();
    await page.keyboard.press('Enter');
    const [sire, dam] = [fish[mates.j]!.fish, fish[mates.i]!.fish];
    await page.waitForURL(`**/pair/${sire.id}/${dam.id}`);
    await page.getByRole('heading', { name: `${sire.tag} by ${dam.tag}`, level: 1 }).waitFor();
    await page
      .getByText(new RegExp(`^F (≥ )?${percent(mates.value).replace('.', '\\.')}`))
      .first()
      .waitFor();
  });

  it('goes to a pair by click: one to choose, one to open; and back', async () => {
    await settle(`/lines/${lineId}/relationship`);
    const canvas = page.locator('.relationship-map_scroll canvas');
    const box = (await canvas.boundingBox())!;
    const { fish } = await mapOf([lineId]);
    const button = page.getByRole('button', { name: 'Open pair' });
    let at = { x: 0, y: 0 };
    for (let step = 0; step < 40; step++) {
      at = { x: box.width * (0.3 + 0.012 * step), y: Math.min(box.height, 600) * 0.5 };
      await canvas.click({ position: at });
      if ((await button.count()) > 0) break;
    }
    expect(await button.count()).toBe(1);
    const words = await page.locator('.lw-drawing .selected_selected').innerText();
    const [first, second] = fish.filter((one) => words.includes(one.fish.tag));
    expect(page.url()).toContain('/relationship');
    await canvas.click({ position: at });
    await page.waitForURL('**/pair/**');
    // The address is there before the page.
    await page
      .locator('h1', { hasText: first!.fish.tag })
      .filter({ hasText: second!.fish.tag })
      .waitFor();
    await page.goBack();
    await page.waitForURL('**/relationship');
  });

  it('lists one fish with all others', async () => {
    await settle(`/lines/${lineId}/relationship`);
    const { fish, coancestry } = await mapOf([lineId]);
    await page.getByLabel('Fish', { exact: true }).selectOption({ label: fish[1]!.fish.tag });
    const table = page.getByRole('group', {
      name: `Coancestry of ${fish[1]!.fish.tag} with all others`,
    });
    const rows = await table.locator('tbody tr').allInnerTexts();
    expect(rows).toHaveLength(fish.length - 1);
    const withFirst = rows.find((row) => row.includes(fish[0]!.fish.tag));
    expect(withFirst).toContain(percent(coancestry[1]!));
  });

  it('maps more than two hundred fish', async () => {
    const text = [
      'tag,sex',
      ...Array.from({ length: 120 }, (_, i) => `MANY-${i},${i % 2 === 0 ? 'male' : 'female'}`),
    ].join('\n');
    await ask(
      `mutation ($text: String!) { confirmImport(fileName: "many.csv", text: $text, columns: [
        { header: "tag", role: TAG }, { header: "sex", role: SEX }], repairs: { unmarked: KEEPER }) { fish } }`,
      { text },
    );
    const { fish } = await mapOf(null, true);
    expect(fish.length).toBeGreaterThan(200);
    await settle('/relationship?unsorted=yes');
    await page.getByText(`${fish.length} fish`, { exact: true }).waitFor();
    const map = page.getByRole('application', { name: new RegExp(`${fish.length} fish by`) });
    await map.focus();
    await page.keyboard.press('End');
    await page.getByText(fish.at(-1)!.fish.tag).first().waitFor();
    await page.screenshot({ path: join(folder, 'relationship-map.png') });
  });

  it('a fish’s page says where its F comes from', async () => {
    const { fishList } = await ask<{
      fishList: { edges: { node: Named & { inbreedingCoefficient: number } }[] };
    }>(
      'query ($id: ID!) { fishList(filter: { lineIds: [$id], inUse: true }, first: 50) { edges { node { id tag sex inbreedingCoefficient } } } }',
      { id: lineId },
    );
    const inbred = fishList.edges.find(({ node }) => node.inbreedingCoefficient > 0.1)!.node;
    await settle(`/fish/${inbred.id}`);
    const rows = page.getByRole('group', { name: 'F by founder' }).locator('tbody tr');
    await rows.first().waitFor();
    const parts = (await rows.allInnerTexts()).map((row) => Number(/([\d.]+) %/.exec(row)![1]));
    const sum = parts.reduce((total, part) => total + part, 0);
    expect(Math.abs(sum - inbred.inbreedingCoefficient * 100)).toBeLessThan(0.001 * parts.length);
    expect(await violations()).toEqual([]);
  });

  it('without a fault in any page', () => {
    expect(opened.faults).toEqual([]);
  });
});
