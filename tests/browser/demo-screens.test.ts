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
import { screenFaults, settleAt } from './looking.js';

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
    '%s: no accessibility fault in light or dark, and fits a phone',
    async (path) => {
      await settle(path);
      expect(await screenFaults(page)).toEqual([]);
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

  it('without a fault in any page', () => {
    expect(opened.faults).toEqual([]);
  });
});
