import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildPedigree } from '@linewright/pedigree';
import { carrierModel, findLocus } from '@linewright/heredity';
import { newRecords } from '../new-records.js';
import { showAllPairs } from './all-pairs.js';
import { ask } from './demo-stock.js';
import { type OpenPage, type RunningServer, openDemoPage } from './harness.js';
import { quiet, screenFaults, settleAt } from './looking.js';

const folder = join(tmpdir(), 'linewright-pictures');

interface Ids {
  fish: string;
  sire: string;
  dam: string;
  spawn: string;
  /** Day on which that brood was counted. */
  countedOn: string;
}

interface Setting {
  lineId: string | null;
  locusId: string;
  misScoring: number | null;
  frequencies: { alleleId: string; frequency: number }[];
}

describe('heredity, looked at', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;
  let ids: Ids;

  const graphql = <Data>(query: string, variables?: object): Promise<Data> =>
    ask<Data>(page, query, variables);

  /** A blue fish of which it is not settled whether it carries double tail, a pair, and a counted brood. */
  const find = async (): Promise<Ids> => {
    type Fish = { node: { id: string; sex: string; line: { code: string } | null } };
    const { fishList, spawnList } = await graphql<{
      fishList: { edges: Fish[] };
      spawnList: {
        edges: {
          node: { id: string; classCounts: { locusIds: string[]; countedOn: string }[] };
        }[];
      };
    }>(`
      {
        fishList(first: 200, filter: { dispositions: [KEEPER] }) {
          edges {
            node {
              id
              sex
              line {
                code
              }
            }
          }
        }
        spawnList(first: 100, sort: { field: SPAWNED_ON }) {
          edges {
            node {
              id
              classCounts {
                locusIds
                countedOn
              }
            }
          }
        }
      }
    `);
    const blue = fishList.edges.map((one) => one.node).filter((one) => one.line?.code === 'RB');
    let fish: string | undefined;
    for (const { id } of blue) {
      const { fishCarriers } = await graphql<{
        fishCarriers: { loci: { locusId: string; genotypes: { probability: number }[] }[] };
      }>(`{ fishCarriers(fishId: "${id}") { loci { locusId genotypes { probability } } } }`);
      const dt = fishCarriers.loci.find((one) => one.locusId === 'dt');
      if ((dt?.genotypes[0]?.probability ?? 1) > 0.95) continue;
      fish = id;
      break;
    }
    const of = (sex: string): string => blue.find((one) => one.sex === sex)?.id ?? '';
    const counted = spawnList.edges
      .flatMap(({ node }) => node.classCounts.map((count) => ({ ...count, id: node.id })))
      .find((count) => count.locusIds.includes('dt'));
    return {
      fish: fish ?? '',
      sire: of('MALE'),
      dam: of('FEMALE'),
      spawn: counted?.id ?? '',
      countedOn: counted?.countedOn ?? '',
    };
  };

  const settle = (path: string): Promise<void> => settleAt(page, `${server.url}${path}`);

  beforeAll(async () => {
    mkdirSync(folder, { recursive: true });
    opened = await openDemoPage({
      viewport: { width: 1280, height: 860 },
    });
    ({ server, page } = opened);
    ids = await find();
  });
  afterAll(() => opened?.stop());

  it('on a fish: what it carries, which records say so, and which mating would tell', async () => {
    await settle(`/fish/${ids.fish}`);
    const locus = page.getByRole('article', { name: /^Double tail of/ });
    await locus
      .getByText(/Dt\/dt/)
      .first()
      .waitFor();
    expect(await locus.innerText()).toMatch(/\d+\.\d %/);
    // What was assumed of founders stands beside the figure, before anything is unfolded.
    await locus.getByText(/^If (every allele is|alleles are as) .*common .*founders/).waitFor();
    await locus.getByRole('button', { name: /^Why Double tail/ }).click();
    await locus.getByText(/each tested by removing it|changes it alone/).waitFor();
    expect(await locus.innerText()).toMatch(/Before any record is used/);
    await page.screenshot({ path: join(folder, 'carriers-fish.png') });
    await locus.getByRole('button', { name: 'Which test mating would show it?' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.getByText(/any fish known to be dt\/dt/).waitFor();
    await page.keyboard.press('Escape');
  });

  it('what is recorded as seen moves it', async () => {
    await settle(`/fish/${ids.fish}`);
    const locus = page.getByRole('article', { name: /^Double tail of/ });
    await locus
      .getByText(/Dt\/dt/)
      .first()
      .waitFor();
    const before = await locus.innerText();
    await page.getByRole('button', { name: 'Record appearance' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.getByLabel('Locus').selectOption('dt');
    await sheet.getByLabel('What you see').selectOption('double');
    await sheet.getByRole('button', { name: 'Save appearance' }).click();
    await sheet.waitFor({ state: 'detached' });
    // A later look counts in place of the earlier one: a double tail after all, by far the likeliest.
    const first = locus.locator('.genotype-chances_chances > li').first();
    await first.filter({ hasText: /^dt\/dt/ }).waitFor();
    expect(await locus.innerText()).not.toBe(before);
  });

  it('on a pair: classes with their range, and how many fry', async () => {
    await settle(`/pair/${ids.sire}/${ids.dam}`);
    const locus = page.getByRole('article', { name: 'Double tail in the brood' });
    await locus.getByRole('columnheader', { name: 'This pair can give it' }).waitFor();
    await locus.getByRole('button', { name: /^Why the brood at Double tail/ }).click();
    expect(await locus.innerText()).toMatch(/Dt\/dt/);
  });

  it('on a pair of brother and sister: the figure is that of the engine for what both carry together', async () => {
    const records = newRecords({ graphql });
    const [father, mother] = [
      await records.createFish({ tag: 'JP-1', sex: 'MALE' }),
      await records.createFish({ tag: 'JP-2', sex: 'FEMALE' }),
    ];
    const spawnId = await records.createSpawn({ tag: 'JP26-01', sireId: father, damId: mother });
    const sibs = [
      await records.createFish({ tag: 'JP26-01-1', sex: 'MALE', spawnId }),
      await records.createFish({ tag: 'JP26-01-2', sex: 'FEMALE', spawnId }),
    ] as const;
    const seen = [
      [father, 'single'],
      [mother, 'double'],
    ] as const;
    for (const [fishId, phenotype] of seen)
      await records.recordPhenotype({ fishId, locusId: 'dt', phenotype, seenOn: ids.countedOn });
    const { locusSettings } = await graphql<{ locusSettings: Setting[] }>(
      '{ locusSettings { lineId locusId misScoring frequencies { alleleId frequency } } }',
    );
    const general = locusSettings.find(
      ({ lineId, locusId }) => lineId === null && locusId === 'dt',
    );
    const founders = Object.fromEntries(
      (general?.frequencies ?? []).map(({ alleleId, frequency }) => [alleleId, frequency]),
    );
    const engine = carrierModel({
      pedigree: buildPedigree([
        { id: father },
        { id: mother },
        ...sibs.map((id) => ({ id, sire: father, dam: mother })),
      ]),
      locus: findLocus('dt'),
      founders: { general: { alleles: founders } },
      misScoring: general?.misScoring ?? 0.01,
      evidence: seen.map(([fish, phenotype]) => ({ kind: 'phenotype', id: fish, fish, phenotype })),
    });
    const doubles = (genotype: readonly string[]): number =>
      genotype.filter((allele) => allele === 'double').length / 2;
    const together = engine
      .joint(...sibs)
      .reduce((sum, one) => sum + one.probability * doubles(one.sire) * doubles(one.dam), 0);
    const [of, by] = sibs.map((id) =>
      engine
        .posterior(id)
        .genotypes.reduce((sum, one) => sum + one.probability * doubles(one.genotype), 0),
    ) as [number, number];
    // What they have from one father makes both of them likelier to carry it, or neither.
    expect(together).toBeGreaterThan(of * by + 0.01);
    await settle(`/pair/${sibs[0]}/${sibs[1]}`);
    const classes = page
      .getByRole('region', { name: 'Expected classes' })
      .getByRole('table', { name: 'Classes at Double tail' });
    await classes.waitFor();
    expect(await classes.getByRole('row', { name: /double tail/ }).innerText()).toContain(
      `${(100 * together).toFixed(1)} %`,
    );
  });

  it('on a brood: counted against expected, the parents, and rival explanations', async () => {
    await settle(`/spawns/${ids.spawn}`);
    const locus = page.getByRole('article', { name: 'Double tail in the brood' });
    await locus.getByText(/The parents are/).waitFor();
    await locus.getByRole('button', { name: /^Why what the parents are/ }).click();
    await locus.getByText('Before', { exact: true }).waitFor();
    await page.screenshot({ path: join(folder, 'carriers-brood.png') });
  });

  it('on a fish: its best mates are those of the list of pairs, in their order', async () => {
    const { fish } = await ask<{ fish: { line: { id: string } } }>(
      page,
      `query ($id: ID!) { fish(id: $id) { line { id } } }`,
      { id: ids.sire },
    );
    interface Found {
      pairingCandidates: { edges: { node: { sire: { id: string }; dam: { tag: string } } }[] };
    }
    const pairs = async (more: object, first: number) => {
      const { pairingCandidates } = await ask<Found>(
        page,
        `query ($input: PairingInput!, $first: Int) { pairingCandidates(input: $input, sort: WORTH, first: $first) {
          edges { node { sire { id } dam { tag } } } } }`,
        { input: { lineIds: [fish.line.id], linesOfPair: 'WITHIN', ...more }, first },
      );
      return pairingCandidates.edges.map(({ node }) => node);
    };
    // What earlier steps recorded is worked out first.
    await expect.poll(async () => (await pairs({}, 1)).length).toBe(1);
    const [first] = await pairs({}, 1);
    const sireId = first?.sire.id ?? '';
    const best = (await pairs({ sireIds: [sireId] }, 5)).map(({ dam }) => dam.tag);
    expect(best.length).toBeGreaterThan(1);
    await settle(`/fish/${sireId}`);
    await page.getByRole('button', { name: 'Show the best mates' }).click();
    const links = page.getByRole('table', { name: 'Best mates' }).locator('a.lw-tag');
    await links.first().waitFor();
    expect((await links.allInnerTexts()).map((text) => text.trim().split(/\s+/).at(-1))).toEqual(
      best,
    );
  });

  it('tells who carries an allele, from the list of loci', async () => {
    await settle('/loci');
    await page.getByRole('link', { name: 'Who carries Double tail' }).click();
    await page.getByRole('heading', { name: 'Who carries Double tail' }).waitFor();
    const table = page.getByRole('table', { name: 'Fish that carry it, the surest first' });
    await table.waitFor();
    const rows = await table.getByRole('row').count();
    await page.getByText(/^Of \d+ fish in use: /).waitFor();
    await page.getByLabel('Line', { exact: true }).selectOption({ index: 1 });
    await expect.poll(async () => await table.getByRole('row').count()).toBeLessThan(rows);
    expect(await screenFaults(page)).toEqual([]);
  });

  it('shows the records that cannot all be true', async () => {
    await settle('/contradictions');
    const clash = page.getByRole('article', { name: /^Contradiction at Iridescence/ });
    await clash.waitFor();
    expect(await clash.getByRole('listitem').count()).toBeGreaterThanOrEqual(3);
    expect(await clash.innerText()).toMatch(/Look at .* again/);
  });

  it('a locus of your own is defined, revised and withdrawn', async () => {
    await settle('/loci');
    await page.getByRole('button', { name: 'Define a locus' }).click();
    const sheet = page.getByRole('dialog');
    await sheet
      .getByLabel('Name', { exact: true })
      .or(sheet.getByLabel('Name *'))
      .first()
      .fill('Mottle');
    await sheet.getByLabel(/^Short name/).fill('mottle');
    for (const [label, text] of [
      ['Symbol of allele 1', 'Mo'],
      ['What allele 1 does', 'plain'],
      ['Symbol of allele 2', 'mo'],
      ['What allele 2 does', 'mottled'],
      ['Genotype 1', 'Mo/-'],
      ['Appearance 1', 'plain'],
      ['Genotype 2', 'mo/mo'],
      ['Appearance 2', 'mottled'],
    ] as const) {
      await sheet.getByLabel(label).fill(text);
    }
    await sheet.getByRole('button', { name: 'Define the locus' }).click();
    const locus = page.getByRole('article', { name: 'Mottle' });
    await locus.getByText(/your own, version 1/).waitFor();
    // Its looks can be wanted of a brood, and the API takes them.
    await settle('/next-pairing');
    await showAllPairs(page);
    await page.getByRole('combobox', { name: 'Appearance wanted' }).fill('mottled');
    await quiet(page, async () => {
      await page.getByRole('option', { name: 'mottled · Mottle' }).click();
      await page.waitForURL(/look=[^&]*%3Amottled/);
    });
    expect(await page.getByRole('alert').count()).toBe(0);
    await settle('/loci');
    await locus.getByRole('button', { name: 'Withdraw Mottle' }).click();
    await sheet
      .getByLabel(/Reason|Why/)
      .first()
      .fill('two loci after all');
    await sheet.getByRole('button', { name: 'Withdraw' }).click();
    await locus.getByText(/^Withdrawn:/).waitFor();
    await locus.getByRole('button', { name: 'Versions of Mottle' }).click();
    await sheet.getByText(/version 1,/).waitFor();
  });

  it('a locus of your own goes by its name where a brood was counted at it', async () => {
    await newRecords({ graphql }).defineLocus({
      ...{ locusId: 'ms-1', name: 'Mirror scales' },
      alleles: [
        { symbol: 'Ms', name: 'plain' },
        { symbol: 'ms', name: 'mirror' },
      ],
      looks: [
        { genotype: 'Ms/-', phenotype: 'plain scales' },
        { genotype: 'ms/ms', phenotype: 'mirror scales' },
      ],
    });
    await graphql(`
      mutation {
        recordClassCount(
          input: {
            spawnId: "${ids.spawn}"
            locusIds: ["ms-1"]
            phenotype: "plain scales"
            number: 12
            countedOn: "${ids.countedOn}"
          }
        ) {
          id
        }
      }
    `);
    await settle(`/spawns/${ids.spawn}`);
    await page.getByText(/12 fish counted at mirror scales/).waitFor();
    expect(await page.getByText(/at ms-1/).count()).toBe(0);
  });

  it('the next pairing begins with pairs of one line, and cautions where lines are crossed', async () => {
    await settle('/next-pairing?line=all');
    const groups = page.locator('.candidate-table_group');
    await groups.first().waitFor();
    expect(await groups.first().innerText()).toMatch(/^Pairs of one line/);
    // Hardly related fish are of different lines: those pairs stand under a heading with the caution.
    await settle('/next-pairing?line=all&f=1&sort=SIRE&order=DESC');
    await groups.filter({ hasText: 'An outcross is a trial' }).waitFor();
    await page
      .getByRole('button', { name: /^Explain .*(RB.*SB|SB.*RB)/ })
      .first()
      .click();
    await page
      .getByText(/A cross between lines, .* split up in the next/)
      .first()
      .waitFor();
    // A line chosen is where the screen opens the next time.
    await page.getByRole('combobox', { name: 'Lines' }).fill('Reed');
    await page
      .getByRole('listbox')
      .getByRole('option', { name: /Reedwater blue/ })
      .click();
    await page.waitForURL(/line=/);
    await settle('/next-pairing');
    await showAllPairs(page);
    await page
      .getByRole('button', { name: /^Explain RB/ })
      .first()
      .waitFor();
    expect(await groups.count()).toBe(0);
    for (const row of await page.locator('.candidate-table_row').all())
      expect((await row.innerText()).match(/RB\d\d-/g)?.length).toBeGreaterThanOrEqual(2);
  });

  it('opens the list of all pairs by one press, also when the proposal arrives during it', async () => {
    let answered = (): void => undefined;
    const held = new Promise<void>((done) => (answered = done));
    await page.route('**/graphql', async (route) => {
      if (route.request().postData()?.includes('query PairProposal') === true) await held;
      await route.continue();
    });
    await page.goto(`${server.url}/next-pairing`);
    await page.getByText('Fetching the pairs to make now').waitFor();
    await page.getByRole('button', { name: /all pairs in a list/i }).hover();
    await page.mouse.down();
    answered();
    await page
      .getByText(/^By version|^Nothing is said yet/)
      .first()
      .waitFor();
    await page.mouse.up();
    await page.unroute('**/graphql');
    await page.getByRole('search', { name: 'Filter the pairs' }).waitFor({ timeout: 20_000 });
    // The way back leads to it again.
    await page.reload();
    await page.getByRole('search', { name: 'Filter the pairs' }).waitFor();
  });

  it.each(['a fish', 'a pair', 'a brood', 'contradictions', 'loci'] as const)(
    'free of accessibility faults, and fits a phone: %s',
    async (screen) => {
      await settle(
        {
          'a fish': `/fish/${ids.fish}`,
          'a pair': `/pair/${ids.sire}/${ids.dam}`,
          'a brood': `/spawns/${ids.spawn}`,
          contradictions: '/contradictions',
          loci: '/loci',
        }[screen],
      );
      const buttons = page.getByRole('article').getByRole('button', { name: /^Why / });
      if ((await buttons.count()) > 0) await quiet(page, () => buttons.first().click());
      expect(await screenFaults(page)).toEqual([]);
    },
  );

  it('without a fault in any page', () => {
    expect(opened.faults).toEqual([]);
  });
});
