import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ask, blueBrood, findInList } from './demo-stock.js';
import {
  type OpenPage,
  type RunningServer,
  openDemo,
  openDemoPage,
  openPage,
  pictures,
} from './harness.js';
import { PHONE, screenFaults, settleAt, widthWithLargeLetters } from './looking.js';

/** Pictures go to docs/pictures only on request, so that a test run leaves the tree as it was. */
const folder =
  process.env['WRITE_PICTURES'] === '1' ? pictures : join(tmpdir(), 'linewright-pictures');

const screens = [
  '/today',
  '/care-plans',
  '/fish',
  '/spawns',
  '/lines',
  '/next-pairing',
  '/planned',
  '/crosses',
  '/loci',
  '/inheritance',
  '/contradictions',
  '/traits',
  '/score-sheets',
  '/import',
  '/export-and-backup',
  '/sharing',
  '/people',
  '/water',
  '/print',
  '/cautions',
  '/relationship',
  '/entries',
  ...['/phone', '/hand-overs', '/club', '/founders', '/start', '/pair', '/fish-acts'],
];

interface TraitMeritAnswer {
  readonly counts: { readonly fish: number; readonly broods: number };
  readonly result: {
    readonly linear: {
      readonly heritability: {
        readonly mean: number;
        readonly bands: readonly {
          readonly probability: number;
          readonly low: number;
          readonly high: number;
        }[];
      };
    };
  };
}

const SCREEN = { viewport: { width: 1280, height: 860 } };

it('the demo opens with one click on an empty server', async () => {
  const opened = await openPage(SCREEN);
  try {
    await openDemo(opened);
    expect(opened.faults).toEqual([]);
  } finally {
    await opened.stop();
  }
});

describe('the demo, looked at', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;

  beforeAll(async () => {
    mkdirSync(folder, { recursive: true });
    opened = await openDemoPage(SCREEN);
    ({ server, page } = opened);
  });
  afterAll(() => opened?.stop());

  const settle = (path: string): Promise<void> => settleAt(page, `${server.url}${path}`);

  it.each(screens)(
    '%s: no accessibility fault in light or dark, and fits a phone, with large letters too',
    async (path) => {
      await settle(path);
      expect(await screenFaults(page)).toEqual([]);
      expect(await widthWithLargeLetters(page)).toBeLessThanOrEqual(PHONE.width);
    },
  );

  it.each([
    ['/files', '/export-and-backup'],
    ['/share', '/sharing'],
    ['/waiting', '/entries'],
    ['/pairing', '/next-pairing'],
  ])('%s of before leads to %s', async (before, now) => {
    await settle(before);
    expect(new URL(page.url()).pathname).toBe(now);
  });

  it('draws the pedigree of a line-bred fish, each fish once', async () => {
    await page.emulateMedia({ colorScheme: 'light' });
    await settle('/fish');
    const brood = await blueBrood(page);
    await findInList(page, brood);
    await page
      .getByRole('link', { name: new RegExp(`^${brood}-`) })
      .first()
      .click();
    // The list's own heading is there at once; the address changes when the fish's page has come.
    await page.waitForURL(/\/fish\/[\da-f-]{36}$/);
    await page.goto(`${page.url()}/pedigree`);
    const drawing = page.locator('svg').filter({ hasText: 'RB' }).first();
    await drawing.waitFor();
    const text = await drawing.innerHTML();
    const tags = [...text.matchAll(/>(RB\d\d-\d\d-\d\d)</g)].map((match) => match[1]);
    expect(new Set(tags).size).toBeGreaterThan(10);
    await page.screenshot({ path: join(folder, 'pedigree.png') });
  });

  it('tells of a trait what the API reckoned: what is inherited, and between which bounds', async () => {
    const { traits } = await ask<{ traits: { id: string; name: string }[] }>(
      page,
      '{ traits { id name } }',
    );
    const length = traits.find(({ name }) => name === 'Body length')!;
    const { traitMerit } = await ask<{ traitMerit: TraitMeritAnswer }>(
      page,
      `{
        traitMerit(traitId: "${length.id}") {
          counts {
            fish
            broods
          }
          result {
            linear {
              heritability {
                mean
                bands {
                  probability
                  low
                  high
                }
              }
            }
          }
        }
      }`,
    );
    const { mean, bands } = traitMerit.result.linear.heritability;
    const { low, high } = bands.find(({ probability }) => probability === 0.95)!;
    const whole = (share: number): string => `${Math.round(100 * share)} %`;
    await settle(`/traits/${length.id}`);
    const inherited = page.getByRole('region', { name: 'How much is inherited' });
    await inherited.getByText(`About ${whole(mean)} of the differences`).waitFor();
    const said = await inherited.innerText();
    expect(said).toContain(`between ${whole(low)} and ${whole(high)}`);
    expect(said).toContain(
      `${traitMerit.counts.fish} fish of ${traitMerit.counts.broods} broods scored`,
    );
    // By keyboard: what it rests on opens in place.
    await inherited
      .getByRole('button', { name: 'Why heritability of Body length?' })
      .press('Enter');
    await inherited.getByText('A single estimate by REML').waitFor();
    expect(await screenFaults(page)).toEqual([]);
  });

  it('cautions once on a page that scores are of fish that somebody had chosen', async () => {
    const { traits, lines, fishList } = await ask<{
      traits: { id: string; name: string }[];
      lines: { id: string; code: string }[];
      fishList: { edges: { node: { id: string } }[] };
    }>(
      page,
      '{ traits { id name } lines { id code } fishList(first: 1, filter: { dispositions: [KEEPER] }) { edges { node { id } } } }',
    );
    const length = traits.find(({ name }) => name === 'Body length')!;
    const said = 'In simulated lines with only the best half of each brood scored';
    const cautions = (): Promise<number> =>
      page.locator('main').getByText(said).filter({ visible: true }).count();
    await settle(`/traits/${length.id}`);
    await page.getByText('What each generation gained on the one before').waitFor();
    expect(await cautions()).toBe(1);
    await settle(`/lines/${lines.find(({ code }) => code === 'PE')!.id}`);
    await page.getByRole('region', { name: 'Is it moving?' }).scrollIntoViewIfNeeded();
    await page.getByText('What each generation gained on the one before').waitFor();
    expect(await cautions()).toBe(1);
    // Nine traits, one caution; how much too small stands folded beneath it.
    await settle(`/fish/${fishList.edges[0]!.node.id}`);
    const passes = page.getByRole('region', { name: 'What it passes on' });
    await passes.getByText('How much too small, trait by trait').waitFor();
    expect(await passes.getByText('What stands after “give or take” is too small').count()).toBe(1);
    expect(await cautions()).toBe(0);
  });

  it('draws the dozen of a brood once, whoever presses, before the fish to sort', async () => {
    const { fishList } = await ask<{
      fishList: { edges: { node: { spawn: { id: string } } }[] };
    }>(
      page,
      '{ fishList(first: 1, filter: { dispositions: [UNSORTED] }) { edges { node { spawn { id } } } } }',
    );
    const spawnId = fishList.edges[0]!.node.spawn.id;
    const bench = `/spawns/${spawnId}/sort`;
    const draws = async (): Promise<string[][]> => {
      const { spawn } = await ask<{ spawn: { scoringDraws: { fish: { tag: string }[] }[] } }>(
        page,
        `{ spawn(id: "${spawnId}") { scoringDraws { fish { tag } } } }`,
      );
      return spawn.scoringDraws.map(({ fish }) => fish.map(({ tag }) => tag));
    };
    const button = (at: Page) =>
      at.getByRole('button', { name: /^Draw (a dozen|all \d+) to score/ });
    const chosen = (at: Page) =>
      at.getByRole('group', { name: 'Drawn, not scored yet' }).getByRole('button');
    await settle(bench);
    const other = await page.context().newPage();
    await settleAt(other, `${server.url}${bench}`);
    await button(other).waitFor();
    const offered = await button(page).boundingBox();
    const keep = await page.getByRole('button', { name: /^Keep/ }).first().boundingBox();
    expect(offered!.y).toBeLessThan(keep!.y);
    await button(page).press('Enter');
    await chosen(page).first().waitFor();
    const [first, ...more] = await draws();
    expect(more).toEqual([]);
    expect(await chosen(page).allInnerTexts()).toEqual(first);
    // Opened before the first press, this page still offers it.
    await button(other).click();
    await chosen(other).first().waitFor();
    expect(await chosen(other).allInnerTexts()).toEqual(first);
    expect(await draws()).toEqual([first]);
    await other.close();
    await settle(bench);
    expect(await chosen(page).allInnerTexts()).toEqual(first);
    expect(await screenFaults(page)).toEqual([]);
  });

  it('without a fault in any page', () => {
    expect(opened.faults).toEqual([]);
  });
});
