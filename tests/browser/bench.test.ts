import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { WAIT_MS, type RunningServer, openBrowser, openContext, startServer } from './harness.js';
import { accessibilityFaults, PHONE, quiet, screenFaults, settleAt } from './looking.js';
import { type LosingRoad, losingRoad } from './losing-road.js';
import { newRecords } from '../new-records.js';

const folder = join(tmpdir(), 'linewright-pictures');
const PASSWORD = 'a-long-enough-password';

interface SeenFish {
  tag: string;
  disposition: string;
  dispositionReason: string | null;
  sex: string;
  revision: number;
  id: string;
  latestScores: { value: number }[];
  history: { action: string }[];
}

describe('the sorting bench on a phone', () => {
  let server: RunningServer;
  let road: LosingRoad;
  let browser: Browser;
  let context: BrowserContext;
  let page: Page;
  let spawnId = '';
  const faults: string[] = [];

  beforeAll(async () => {
    mkdirSync(folder, { recursive: true });
    [server, browser] = await Promise.all([startServer(), openBrowser()]);
    road = await losingRoad(server.url);
    context = await openContext(browser, { viewport: PHONE, hasTouch: true });
    page = await context.newPage();
    page.setDefaultTimeout(WAIT_MS);
    page.on('pageerror', (error) => faults.push(error.message));
  });
  afterAll(async () => {
    await context?.close();
    await road?.close();
    await server?.stop();
  });

  /** Past the page, so that it answers while the page has no connection. */
  const api = async <Data = Record<string, never>>(
    query: string,
    variables: object = {},
  ): Promise<Data> => {
    const response = await context.request.post(`${road.url}/graphql`, {
      data: { query, variables },
    });
    const { data, errors } = (await response.json()) as { data: Data; errors?: unknown };
    if (errors !== undefined) throw new Error(JSON.stringify(errors));
    return data;
  };
  const brood = async () => {
    const { spawn } = await api<{
      spawn: {
        fish: SeenFish[];
        losses: { number: number; reason: string; locusId: string | null }[];
        classCounts: { number: number; phenotype: string; note: string | null }[];
      };
    }>(
      `query ($id: ID!) { spawn(id: $id) {
         fish { id tag sex disposition dispositionReason revision latestScores { value } history { action } }
         losses { number reason locusId } classCounts { number phenotype note } } }`,
      { id: spawnId },
    );
    return spawn;
  };
  const fishOf = async (number: string) =>
    (await brood()).fish.find((each) => each.tag === `W26-01-${number}`);
  const card = (number: string) => page.getByRole('article', { name: `Fish W26-01-${number}` });
  const strip = () => page.getByRole('status', { name: 'Entries on this device' });
  const tapDecision = (word: string, number: string) =>
    page.getByRole('button', { name: `${word} W26-01-${number}`, exact: true }).tap();
  const cull = async (number: string, reason: string) => {
    await tapDecision('Cull', number);
    await page
      .getByRole('group', { name: `Reason to cull W26-01-${number}` })
      .getByRole('button', { name: reason })
      .tap();
  };
  /** Any fish of the brood, past those between. */
  const goToFish = async (number: string) => {
    const choice = page.getByLabel('Go to fish');
    const option = choice.locator('option', { hasText: new RegExp(`^W26-01-${number}(,|$)`) });
    await choice.selectOption((await option.getAttribute('value')) ?? '');
    await card(number).waitFor();
  };
  /** What was just tapped may be on its way into the device's store: counting in there waits behind it. */
  const keptOnDevice = () =>
    page.evaluate(async () => {
      const done = <T>(request: IDBRequest<T>): Promise<T> =>
        new Promise((resolve, reject) => {
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(request.error ?? new Error('no reason given'));
        });
      const database = await done(indexedDB.open('linewright'));
      const count = await done(database.transaction('entries').objectStore('entries').count());
      database.close();
      return count;
    });
  const everythingSent = async (): Promise<void> => {
    await expect.poll(keptOnDevice).toBe(0);
    await strip().getByRole('link').waitFor({ state: 'detached' });
  };
  const violations = (): Promise<string[]> => accessibilityFaults(page);

  it('goes from a planned pair to a spawn with jarred fish', async () => {
    await api('mutation ($input: SetUpInput!) { setUp(input: $input) { signedIn } }', {
      input: { personName: 'Bench keeper', password: PASSWORD },
    });
    for (const [tag, sex] of [
      ['W25-01-01', 'MALE'],
      ['W25-02-01', 'FEMALE'],
    ] as const)
      await newRecords({ graphql: api }).createFish({ tag, sex, hatchDate: '2025-09-01' });
    await newRecords({ graphql: api }).createTrait({
      key: 'spread',
      name: 'Spread',
      kind: 'MEASURED',
      unit: 'degrees',
      minimum: 0,
      maximum: 200,
    });
    await newRecords({ graphql: api }).createTrait({
      key: 'ventrals',
      name: 'Ventrals',
      kind: 'ORDINAL',
      minimum: 1,
      maximum: 5,
    });
    await page.goto(`${road.url}/next-pairing`);
    await page.getByRole('button', { name: 'All pairs in a list' }).tap();
    await page.getByRole('button', { name: /^Plan this pair: / }).tap();
    await page.getByRole('dialog').getByRole('button', { name: /plan/i }).tap();
    await page
      .getByRole('link', { name: /^Planned: / })
      .first()
      .waitFor();
    await page.goto(`${road.url}/planned`);
    await page
      .getByRole('button', { name: /^Record spawn of/ })
      .first()
      .tap();
    const form = page.getByRole('dialog');
    await form.getByLabel(/^Tag of the spawn/).fill('W26-01');
    await form.getByRole('button', { name: /record/i }).tap();
    await form.waitFor({ state: 'detached' });
    await page.goto(`${road.url}/spawns`);
    await page.getByRole('link', { name: 'W26-01', exact: true }).first().tap();
    await page.getByRole('heading', { name: 'W26-01', level: 1 }).waitFor();
    spawnId = new URL(page.url()).pathname.split('/')[2] ?? '';

    await page.goto(`${road.url}/spawns/${spawnId}/sort`);
    await page.getByRole('button', { name: 'Jar fish' }).tap();
    await page.getByRole('dialog').getByLabel('Number of jars').fill('12');
    await page.getByRole('dialog').getByText('W26-01-12').waitFor();
    await page.getByRole('button', { name: 'Jar them' }).tap();
    await card('01').waitFor();
    await everythingSent();
    expect((await brood()).fish).toHaveLength(12);
  });

  it('sexes, scores, keeps, holds and culls, with targets large enough for a wet thumb', async () => {
    await page.getByRole('button', { name: 'male', exact: true }).tap();
    await page.getByRole('textbox', { name: 'Spread of W26-01-01' }).fill('175');
    await page.getByRole('group', { name: 'Ventrals' }).getByRole('button', { name: '4' }).tap();
    const small = await page.evaluate(() =>
      [...document.querySelectorAll('.sorting_bench button:not(.lw-link-button), .sorting_box')]
        .map((each) => each.getBoundingClientRect())
        .filter((box) => box.width > 0 && (box.height < 48 || box.width < 48)),
    );
    expect(small).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(PHONE.width);
    await page.screenshot({ path: join(folder, 'bench-phone.png') });
    await tapDecision('Keep', '01');
    await card('02').waitFor();
    // Another jar is picked up: its fish is found by the last part of the tag, as a scanner types it, and the one before again.
    await page.getByText('Find a fish by the code on its jar').tap();
    const code = page.getByRole('textbox', { name: 'Code of the jar, or tag' });
    for (const number of ['11', '2']) {
      await code.fill(number);
      await code.press('Enter');
      await card(number.padStart(2, '0')).waitFor();
    }
    await page.getByText('Find a fish by the code on its jar').tap();
    await tapDecision('Hold', '02');
    await card('03').waitFor();
    await tapDecision('Cull', '03');
    await page.getByText(/never keep two fighting fish in one jar/).waitFor();
    await page.screenshot({ path: join(folder, 'bench-phone-cull.png') });
    await page
      .getByRole('group', { name: 'Reason to cull W26-01-03' })
      .getByRole('button', { name: 'bent spine' })
      .tap();
    await card('04').waitFor();
    await everythingSent();
    const [first, second, third] = (await brood()).fish;
    expect([first?.sex, first?.disposition, first?.latestScores.length]).toEqual([
      'MALE',
      'KEEPER',
      2,
    ]);
    expect(second?.disposition).toBe('HOLD');
    expect([third?.disposition, third?.dispositionReason]).toEqual(['CULLED', 'bent spine']);
  });

  it('goes on without a connection, through a reload', async () => {
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
    await context.setOffline(true);
    await tapDecision('Keep', '04');
    await card('05').waitFor();
    await page.getByRole('textbox', { name: 'Spread of W26-01-05' }).fill('120');
    await cull('05', 'bent spine');
    await card('06').waitFor();
    await strip()
      .getByRole('link', { name: /^3 entries wait on this device/ })
      .waitFor();

    await page.reload();
    await card('06').waitFor();
    await strip()
      .getByRole('link', { name: /^3 entries wait on this device/ })
      .waitFor();
    await page.getByText('5 of 12 sorted').waitFor();
    await page.screenshot({ path: join(folder, 'bench-phone-offline.png') });

    await tapDecision('Place', '06');
    await card('07').waitFor();
    // A slip of the thumb, taken back before anything left the device.
    await tapDecision('Keep', '07');
    await card('08').waitFor();
    await page.getByRole('button', { name: 'Undo' }).tap();
    await card('07').getByText('unsorted').waitFor();
    await cull('07', 'stunted');
    await card('08').waitFor();
    await page.getByRole('button', { name: 'Jar fish' }).tap();
    await page.getByRole('button', { name: 'Jar them' }).tap();
    await page.getByRole('button', { name: 'Cull fry' }).tap();
    const form = page.getByRole('dialog');
    await form.getByLabel('Number of fry').fill('20');
    await form.getByRole('button', { name: 'bent spine' }).tap();
    await form.getByLabel('Thought to be heritable').check();
    await form.getByLabel('Locus thought to cause it').selectOption('dt');
    await form.getByLabel('Count them in this class').selectOption({ index: 1 });
    await form.getByRole('button', { name: 'Record the cull' }).tap();
    await form.waitFor({ state: 'detached' });
    await strip().getByRole('link').tap();
    await page.getByRole('heading', { name: 'On this device', level: 1 }).waitFor();
    await page.screenshot({ path: join(folder, 'waiting-phone.png') });
    expect(await page.getByRole('listitem').filter({ hasText: 'W26-01' }).count()).toBeGreaterThan(
      7,
    );
    expect((await fishOf('04'))?.disposition).toBe('UNSORTED');
    expect((await brood()).losses).toEqual([]);
  });

  it('sends everything once when the connection is back, and shows what was changed elsewhere', async () => {
    const elsewhere = await fishOf('04');
    await api('mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }', {
      input: {
        id: elsewhere?.id,
        disposition: 'DIED',
        on: '2026-11-20',
        reason: 'found dead',
        revision: elsewhere?.revision,
      },
    });
    await context.setOffline(false);
    await strip().getByText('1 entry needs you', { exact: true }).waitFor();
    const both = page.getByRole('table', { name: /Yours and the server’s version/ });
    await both.waitFor();
    await both.getByRole('cell', { name: /^keeper/ }).waitFor();
    await both.getByRole('cell', { name: /found dead/ }).waitFor();
    await page.screenshot({ path: join(folder, 'conflict-phone.png') });

    const { fish, losses, classCounts } = await brood();
    const of = (number: string) => fish.find((each) => each.tag === `W26-01-${number}`);
    expect(of('04')?.disposition).toBe('DIED');
    expect([of('05')?.disposition, of('05')?.latestScores.map((s) => s.value)]).toEqual([
      'CULLED',
      [120],
    ]);
    expect(of('06')?.disposition).toBe('PLACED');
    expect([of('07')?.disposition, of('07')?.dispositionReason]).toEqual(['CULLED', 'stunted']);
    expect(fish).toHaveLength(13);
    expect(losses).toEqual([{ number: 20, reason: 'bent spine', locusId: 'dt' }]);
    expect(classCounts.map((each) => each.number)).toEqual([20]);
    for (const number of ['05', '06', '07'])
      expect(of(number)?.history.filter((each) => each.action === 'decided')).toHaveLength(1);

    await page.getByRole('button', { name: 'Save what I entered' }).tap();
    await everythingSent();
    expect((await fishOf('04'))?.disposition).toBe('KEEPER');
  });

  it('undoes what the server has had for a while', async () => {
    await page.goto(`${road.url}/spawns/${spawnId}/sort`);
    await card('08').waitFor();
    await tapDecision('Place', '08');
    await card('09').waitFor();
    await everythingSent();
    expect((await fishOf('08'))?.disposition).toBe('PLACED');
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.getByText(/^Undone: W26-01-08/).waitFor();
    await expect.poll(async () => (await fishOf('08'))?.disposition).toBe('UNSORTED');
    expect((await fishOf('08'))?.history[0]?.action).toBe('undone');
  });

  it('waits for the person when the session has ended, then sends', async () => {
    await context.clearCookies();
    await tapDecision('Keep', '08');
    const sheet = page.getByRole('dialog', { name: 'Sign in to go on' });
    await sheet.waitFor();
    await sheet.getByLabel(/^Password/).fill(PASSWORD);
    await sheet.getByRole('button', { name: 'Sign in' }).tap();
    await everythingSent();
    expect((await fishOf('08'))?.disposition).toBe('KEEPER');
  });

  it('warns before signing out while entries wait', async () => {
    await context.setOffline(true);
    await tapDecision('Keep', '09');
    await strip().getByRole('link').waitFor();
    await page.getByRole('button', { name: 'More' }).tap();
    await page.getByRole('button', { name: 'Sign out' }).tap();
    const sheet = page.getByRole('dialog', { name: 'Entries wait on this device' });
    await sheet.getByText(/1 entry has not reached the server/).waitFor();
    await context.setOffline(false);
    await sheet.getByRole('button', { name: 'Stay and send them' }).tap();
    await page
      .getByRole('dialog', { name: 'All places' })
      .getByRole('button', { name: 'Close' })
      .tap();
    await everythingSent();
    expect((await fishOf('09'))?.disposition).toBe('KEEPER');
  });

  it('counts a class at a locus with a cull, on the fish it was seen in', async () => {
    await card('10').waitFor();
    await page.getByLabel('Count by one locus while sorting').selectOption('dt');
    await tapDecision('Cull', '10');
    await page
      .getByRole('group', { name: 'Reason to cull W26-01-10' })
      .getByRole('button', { name: 'double tail' })
      .tap();
    await card('11').waitFor();
    await everythingSent();
    expect((await fishOf('10'))?.dispositionReason).toBe('double tail');
    expect((await brood()).classCounts).toContainEqual({
      number: 1,
      phenotype: 'double tail',
      note: 'W26-01-10',
    });
  });

  it('applies an entry once when the answer is lost on the way', async () => {
    const before = road.lost();
    road.loseAnswerTo('decideFish');
    await tapDecision('Hold', '11');
    await card('12').waitFor();
    await expect.poll(() => road.lost()).toBe(before + 1);
    await everythingSent();
    const seen = await fishOf('11');
    expect([seen?.disposition, seen?.revision]).toEqual(['HOLD', 2]);
    expect(seen?.history.filter((each) => each.action === 'decided')).toHaveLength(1);
  });

  it('sends from two tabs of one device once', async () => {
    const other = await context.newPage();
    await other.goto(`${road.url}/spawns/${spawnId}/sort`);
    const decideThere = (word: string) =>
      other.getByRole('button', { name: `${word} W26-01-13`, exact: true }).tap();
    await other.getByRole('article', { name: 'Fish W26-01-12' }).waitFor();
    await other.getByRole('button', { name: 'Next →' }).tap();
    await context.setOffline(true);
    await tapDecision('Hold', '12');
    await decideThere('Place');
    for (const tab of [page, other])
      await tab
        .getByRole('status', { name: 'Entries on this device' })
        .getByRole('link', { name: /^2 entries wait/ })
        .waitFor();
    await context.setOffline(false);
    await everythingSent();
    await other.close();
    for (const [number, disposition] of [
      ['12', 'HOLD'],
      ['13', 'PLACED'],
    ] as const) {
      const seen = await fishOf(number);
      expect(seen?.disposition).toBe(disposition);
      expect(seen?.history.filter((each) => each.action === 'decided')).toHaveLength(1);
    }
  });

  /** The card's own looks: name, total and faults of every look at a fish that stands. */
  const looksAt = async (number: string) => {
    const { fish } = await api<{
      fish: {
        sheetScorings: {
          note: string | null;
          withdrawn: object | null;
          scores: { value: number }[];
          faults: { name: string }[];
          total: { total: number | null };
        }[];
      };
    }>(
      `query ($id: ID!) { fish(id: $id) { sheetScorings {
         note withdrawn { reason } scores { value } faults { name } total { total } } } }`,
      { id: (await fishOf(number))?.id },
    );
    return fish.sheetScorings
      .filter((look) => look.withdrawn === null)
      .map(({ note, scores, faults: seen, total }) => [
        scores.map((score) => score.value).sort((a, b) => b - a),
        seen.map((fault) => fault.name),
        total.total,
        note,
      ]);
  };
  const fault = (severity: string, name: string) =>
    page.getByRole('group', { name: `Faults, ${severity}` }).getByRole('button', { name });

  it('scores on a sheet without a connection: one look, sent once, undone before and after', async () => {
    const { traits } = await api<{ traits: { id: string; name: string }[] }>(
      '{ traits { id name } }',
    );
    const traitId = (name: string) => traits.find((each) => each.name === name)!.id;
    const sheetOf = (name: string, more: object = {}) =>
      newRecords({ graphql: api }).createScoreSheet({
        name,
        content: {
          lines: [
            { traitId: traitId('Spread'), noneAt: 120, fullAt: 180, weight: 3 },
            { traitId: traitId('Ventrals'), noneAt: 1, fullAt: 5, weight: 1 },
          ],
          faults: [
            { name: 'Torn fin', severity: 'SLIGHT' },
            { name: 'Bent rays', severity: 'MINOR' },
            { name: 'Gap at the dorsal', severity: 'MAJOR' },
            { name: 'Spoon head', severity: 'SEVERE' },
            { name: 'Blind in an eye', severity: 'DISQUALIFYING' },
          ],
          deductions: [{ severity: 'MAJOR', points: 10 }],
          ...more,
        },
      });
    await sheetOf('Any day');
    await sheetOf('Newly jarred', { fromAgeDays: 0, toAgeDays: 20 });
    await page.goto(`${road.url}/spawns/${spawnId}/sort`);
    await goToFish('01');
    const choice = page.getByLabel('Score on');
    // What the device kept is shown at once; the sheets come with the answer of the server.
    await expect.poll(() => choice.locator('option').count()).toBe(3);
    // The brood has no day of hatching, so no sheet is made for its age.
    expect(await choice.inputValue()).toBe('none');
    await quiet(page, () => choice.selectOption({ label: 'Any day (any age)' }));
    await context.setOffline(true);
    await page.reload();
    await card('01').waitFor();
    await page.getByRole('button', { name: 'Next →' }).tap();
    await card('02').waitFor();

    await page.getByRole('textbox', { name: 'Spread of W26-01-02' }).fill('165');
    await page.getByRole('group', { name: 'Ventrals' }).getByRole('button', { name: '5' }).tap();
    await fault('major', 'Gap at the dorsal').tap();
    await fault('slight', 'Torn fin').tap();
    await fault('slight', 'Torn fin').tap();
    // With another choice the mark is told, not lost.
    const others = await choice.inputValue();
    await choice.selectOption('none');
    const left = page
      .getByRole('alert')
      .filter({ hasText: /^Marked on the sheet “Any day”: Gap at/ });
    await left.waitFor();
    await tapDecision('Hold', '02');
    await card('02').waitFor();
    await choice.selectOption(others);
    await left.waitFor({ state: 'detached' });
    await page.getByLabel('Note on these scores').fill('left side');
    // (3 x 0.75 + 1) / 4 of 100, less 10.
    await page.getByText('71.3 of 100').waitFor();
    const small = await page.evaluate(() =>
      [
        ...document.querySelectorAll(
          '.sorting_bench :is(button:not(.lw-link-button), select, input)',
        ),
      ]
        .map((each) => each.getBoundingClientRect())
        .filter((box) => box.width > 18 && (box.height < 48 || box.width < 48)),
    );
    expect(small).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(PHONE.width);
    for (const colorScheme of ['dark', 'light'] as const) {
      await page.emulateMedia({ colorScheme });
      await page.screenshot({
        path: join(folder, `bench-sheet-${colorScheme}.png`),
        fullPage: true,
      });
      expect(await violations()).toEqual([]);
    }
    await page.getByRole('button', { name: 'Next →' }).tap();
    await strip()
      .getByRole('link', { name: /^1 entry waits/ })
      .waitFor();

    // A note alone is no look; a look taken back before it left; one with its decision.
    await page.getByLabel('Note on these scores').fill('stray');
    await tapDecision('Hold', '03');
    await page.getByText('Score a trait or mark a fault too').waitFor();
    await page.getByLabel('Note on these scores').fill('');
    await fault('slight', 'Torn fin').tap();
    await tapDecision('Hold', '03');
    await strip()
      .getByRole('link', { name: /^3 entries wait/ })
      .waitFor();
    await page.getByRole('button', { name: 'Undo' }).tap();
    await strip()
      .getByRole('link', { name: /^1 entry waits/ })
      .waitFor();
    await card('03').waitFor();
    await fault('disqualifying', 'Blind in an eye').tap();
    await page.getByText('disqualified by a fault').waitFor();
    await tapDecision('Hold', '03');
    await strip()
      .getByRole('link', { name: /^3 entries wait/ })
      .waitFor();
    expect(await looksAt('02')).toEqual([]);

    // The first answer is lost on the way back.
    const before = road.lost();
    road.loseAnswerTo('scoreOnSheet');
    await context.setOffline(false);
    await expect.poll(() => road.lost()).toBe(before + 1);
    await everythingSent();
    expect(await looksAt('02')).toEqual([[[165, 5], ['Gap at the dorsal'], 71.25, 'left side']]);
    expect(await looksAt('03')).toEqual([[[], ['Blind in an eye'], null, null]]);
    expect((await fishOf('03'))?.disposition).toBe('HOLD');

    // Sent: the decision and the look are taken back together.
    await page.getByRole('button', { name: 'Undo' }).tap();
    await expect.poll(() => looksAt('03')).toEqual([]);
    await everythingSent();
    expect((await fishOf('03'))?.disposition).toBe('CULLED');
    expect(await looksAt('02')).toHaveLength(1);
  });

  it('offers the sheet of the age first, and keeps a look that the server refuses', async () => {
    const id = crypto.randomUUID();
    const day = daysAgo(10);
    await newRecords({ graphql: api }).createSpawn({ id, tag: 'W26-02', hatchDate: day });
    await newRecords({ graphql: api }).addFishToSpawn({ spawnId: id, number: 2 });
    const { spawn } = await api<{ spawn: { fish: { id: string; tag: string }[] } }>(
      'query ($id: ID!) { spawn(id: $id) { fish { id tag } } }',
      { id },
    );
    await page.goto(`${road.url}/spawns/${id}/sort`);
    await page.getByRole('article', { name: 'Fish W26-02-01' }).waitFor();
    const choice = page.getByLabel('Score on');
    expect((await choice.locator('option').allTextContents())[0]).toMatch(/^Newly jarred/);
    expect(await choice.locator('option:checked').textContent()).toMatch(/^Newly jarred/);
    // By keyboard: one key goes from trait to trait and on to the faults.
    const focused = () => page.evaluate(() => document.activeElement?.textContent?.trim());
    await page.keyboard.press('s');
    await page.keyboard.type('150');
    await page.keyboard.press('Enter');
    await page.keyboard.press('s');
    expect(await focused()).toBe('1');
    await page.keyboard.press('s');
    expect(await focused()).toBe('Torn fin');
    await page.keyboard.press('Space');
    await page.getByText('50.0 of 100').waitFor();
    await page.keyboard.press('Space');
    await context.setOffline(true);
    await fault('minor', 'Bent rays').tap();
    await page.getByRole('button', { name: 'Next →' }).tap();
    await strip()
      .getByRole('link', { name: /^1 entry waits/ })
      .waitFor();
    await api('mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }', {
      input: {
        id: spawn.fish.find((each) => each.tag.endsWith('01'))?.id,
        reason: 'entered twice',
      },
    });
    await context.setOffline(false);
    await strip().getByText('1 entry needs you', { exact: true }).waitFor();
    await strip().getByRole('link').tap();
    await page.getByText(/W26-02-01 was withdrawn \(entered twice\)/).waitFor();
    await page.screenshot({ path: join(folder, 'bench-sheet-refused.png') });
    await page.getByRole('button', { name: 'Discard this entry' }).tap();
    await everythingSent();
  });

  it('is free of accessibility faults, light and dark', async () => {
    for (const path of [`/spawns/${spawnId}/sort?locus=dt`, '/entries']) {
      await settleAt(page, `${road.url}${path}`);
      expect(await screenFaults(page)).toEqual([]);
    }
    await page.goto(`${road.url}/spawns/${spawnId}/sort`);
    await page.getByRole('button', { name: /^Cull W26/ }).tap();
    await page.screenshot({ path: join(folder, 'bench-cull.png') });
    expect(await screenFaults(page)).toEqual([]);
  });

  it('sorts by keyboard at a desk', async () => {
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setViewportSize({ width: 1280, height: 860 });
    await page.goto(`${road.url}/spawns/${spawnId}/sort?as=cards`);
    await page.getByRole('button', { name: 'Jar fish' }).click();
    await page.getByRole('dialog').getByLabel('Number of jars').fill('40');
    await page.getByRole('button', { name: 'Jar them' }).click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.getByText('13 of 53 sorted').waitFor();
    await everythingSent();
    await page.reload();
    await goToFish('14');
    const unsorted = (await brood()).fish.filter((each) => each.disposition === 'UNSORTED');
    for (const [key, sex] of [
      ['q', 'UNCERTAIN'],
      ['n', 'UNSEXED'],
    ] as const) {
      await page.keyboard.press(key);
      await everythingSent();
      await expect
        .poll(async () => (await brood()).fish.find(({ id }) => id === unsorted[0]?.id)?.sex)
        .toBe(sex);
    }
    const started = performance.now();
    for (let n = 0; n < unsorted.length; n += 1) {
      for (const key of [['k'], ['h'], ['c', '1'], ['m', 'p']][n % 4] ?? [])
        await page.keyboard.press(key);
    }
    const minutes = (performance.now() - started) / 60_000;
    await page.screenshot({ path: join(folder, 'bench-desk.png') });
    await everythingSent();
    const after = (await brood()).fish;
    expect(after.filter((each) => each.disposition === 'UNSORTED')).toEqual([]);
    for (const { id } of unsorted) {
      const decided = after.find((each) => each.id === id)?.history ?? [];
      expect(decided.filter((each) => each.action === 'decided')).toHaveLength(1);
    }
    process.stdout.write(
      `Sorted ${unsorted.length} fish by keyboard: ${Math.round(unsorted.length / minutes)} a minute.\n`,
    );
    expect(await violations()).toEqual([]);
    await page.goto(`${road.url}/spawns/${spawnId}/sort?as=list`);
    await page.getByRole('row').nth(3).waitFor();
    await page.screenshot({ path: join(folder, 'bench-list.png') });
    expect(await violations()).toEqual([]);
  });

  /** A brood of its own for one test: no step before it has sorted its fish. */
  const freshBrood = async (tag: string, number: number, more: object = {}) => {
    const id = crypto.randomUUID();
    await newRecords({ graphql: api }).createSpawn({ id, tag, ...more });
    await newRecords({ graphql: api }).addFishToSpawn({ spawnId: id, number });
    await page.setViewportSize(PHONE);
    await page.goto(`${road.url}/spawns/${id}/sort?as=cards`);
    const fish = (n: string) => page.getByRole('article', { name: `Fish ${tag}-${n}` });
    await fish('01').waitFor();
    return { id, fish };
  };

  it('comes back without a connection to the fish in hand and what is half typed', async () => {
    const { id, fish } = await freshBrood('R26-01', 4);
    await page.getByRole('button', { name: 'Next →' }).tap();
    await page.getByRole('button', { name: 'Next →' }).tap();
    await fish('03').waitFor();
    await page.waitForLoadState('networkidle');
    await context.setOffline(true);
    await page.getByRole('textbox', { name: 'Spread of R26-01-03' }).fill('16');
    await page.getByPlaceholder('Reason in your words').fill('bent spi');
    await page.getByLabel('Date of the entries').fill('2026-11-01');
    await page.reload();
    await fish('03').waitFor();
    const typed = page.getByRole('textbox', { name: 'Spread of R26-01-03' });
    expect(await typed.inputValue()).toBe('16');
    expect(await page.getByPlaceholder('Reason in your words').inputValue()).toBe('bent spi');
    expect(await page.getByLabel('Date of the entries').inputValue()).toBe('2026-11-01');
    // Another look elsewhere, and a draft of its own for each fish.
    await page.goto(`${road.url}/spawns/${id}`);
    await page.getByText('Kept on this device: spawn R26-01').waitFor();
    await page.screenshot({ path: join(folder, 'spawn-kept-phone.png') });
    await page.getByRole('link', { name: 'Open the bench of R26-01' }).tap();
    await fish('03').waitFor();
    expect(await typed.inputValue()).toBe('16');
    await context.setOffline(false);
    await page.getByLabel('Date of the entries').fill('');
    await typed.fill('166');
    await page.getByPlaceholder('Reason in your words').fill('');
    await page.getByRole('button', { name: 'Hold R26-01-03', exact: true }).tap();
    await fish('04').waitFor();
    await everythingSent();
    await page.reload();
    await fish('04').waitFor();
  });

  it('gives back what was typed when the device has no room for it', async () => {
    const { fish } = await freshBrood('R26-02', 3);
    await page.evaluate(() => {
      const stores = window as unknown as { room: boolean };
      stores.room = false;
      // oxlint-disable-next-line typescript/unbound-method
      const { add } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.add = function (...given) {
        if (!stores.room) throw new DOMException('full', 'QuotaExceededError');
        return add.apply(this, given);
      };
    });
    await page.getByRole('textbox', { name: 'Spread of R26-02-01' }).fill('171');
    await page.getByRole('button', { name: 'Keep R26-02-01', exact: true }).tap();
    await page.getByText(/has no room left, so the entry was NOT kept/).waitFor();
    await fish('01').waitFor();
    const typed = page.getByRole('textbox', { name: 'Spread of R26-02-01' });
    expect(await typed.inputValue()).toBe('171');
    await page.evaluate(() => Object.assign(window, { room: true }));
    await page.getByRole('button', { name: 'Keep R26-02-01', exact: true }).tap();
    await fish('02').waitFor();
    await everythingSent();
  });

  it('warns at entry of a cull larger than the brood left, with the figures', async () => {
    const { id } = await freshBrood('R26-03', 5);
    await newRecords({ graphql: api }).recordSpawnCount({
      spawnId: id,
      stage: 'FREE_SWIMMING',
      countedOn: '2026-09-04',
      number: 30,
    });
    await page.reload();
    await page.getByRole('button', { name: 'Cull fry' }).tap();
    const form = page.getByRole('dialog');
    await form.getByRole('button', { name: 'Record the cull' }).tap();
    // Both told at once, each beside its field.
    await form.getByText('Give a whole number of fry, 1 to 5000.').waitFor();
    await form.getByText(/Give the reason/).waitFor();
    await form.getByLabel('Number of fry').fill('26');
    await form.getByRole('button', { name: 'stunted' }).tap();
    await form.getByRole('button', { name: 'Record the cull' }).tap();
    await form
      .getByText(
        /26 is more than can be left: 25 fry without a record \(30 counted \(free-swimming/,
      )
      .waitFor();
    expect(await violations()).toEqual([]);
    await form.getByLabel('Number of fry').fill('25');
    await form.getByRole('button', { name: 'Record the cull' }).tap();
    await form.waitFor({ state: 'detached' });
    await everythingSent();
    // Undone after it was withdrawn elsewhere: told, and nothing else is held up by it.
    const { spawn } = await api<{ spawn: { losses: { id: string }[] } }>(
      'query ($id: ID!) { spawn(id: $id) { losses { id } } }',
      { id },
    );
    await api(
      'mutation ($input: WithdrawFromSpawnLogInput!) { withdrawFromSpawnLog(input: $input) { id } }',
      { input: { spawnId: id, recordId: spawn.losses[0]?.id, reason: 'miscounted' } },
    );
    await page.getByRole('button', { name: 'Undo' }).tap();
    await strip().getByText('1 entry needs you', { exact: true }).waitFor();
    await page.getByRole('button', { name: /^Hold R26-03-01/ }).tap();
    await expect
      .poll(async () => {
        const answer = await api<{ spawn: { fish: { disposition: string }[] } }>(
          'query ($id: ID!) { spawn(id: $id) { fish { disposition } } }',
          { id },
        );
        return answer.spawn.fish[0]?.disposition;
      })
      .toBe('HOLD');
    await strip().getByRole('link').tap();
    await page.getByRole('button', { name: 'Discard this entry' }).tap();
    await everythingSent();
  });

  it('lets a day be changed that the server could not take', async () => {
    const { fish } = await freshBrood('R26-04', 2, { hatchDate: '2026-09-01' });
    await page.getByLabel('Date of the entries').fill('2026-08-01');
    await page
      .getByText(/2026-08-01 is before these fish hatched/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Keep R26-04-01', exact: true }).tap();
    await page.getByText(/^Not entered/).waitFor();
    await fish('01').waitFor();
    await page.getByLabel('Date of the entries').fill('2199-01-01');
    await page.getByRole('button', { name: 'Keep R26-04-01', exact: true }).tap();
    await strip().getByText('1 entry needs you', { exact: true }).waitFor();
    await page.getByLabel('Date of the entries').fill('');
    await strip().getByRole('link').tap();
    await page.getByLabel('Another day').fill('2026-11-20');
    await page.getByRole('button', { name: 'Use this day' }).tap();
    await everythingSent();
    await page.getByRole('link', { name: 'Sort R26-04' }).tap();
    await fish('02').waitFor();
    await page.getByText('1 of 2 sorted').waitFor();
  });

  it('works where the browser keeps nothing, and says so', async () => {
    const { id } = await freshBrood('R26-05', 2);
    const denied = await openContext(browser, {
      viewport: PHONE,
      storageState: await context.storageState(),
    });
    await denied.addInitScript(() => {
      const deny = () => {
        throw new DOMException('denied', 'SecurityError');
      };
      IDBFactory.prototype.open = deny;
      for (const name of ['localStorage', 'sessionStorage'])
        Object.defineProperty(window, name, { get: deny });
    });
    const other = await denied.newPage();
    other.on('pageerror', (error) => faults.push(error.message));
    await other.goto(`${road.url}/spawns/${id}/sort`);
    await other.getByRole('article', { name: 'Fish R26-05-01' }).waitFor();
    await denied.setOffline(true);
    await other.getByRole('button', { name: 'Place R26-05-01', exact: true }).click();
    await other.getByText(/This browser keeps nothing/).waitFor();
    await denied.setOffline(false);
    const there = other.getByRole('status', { name: 'Entries on this device' });
    await there.getByRole('link').waitFor({ state: 'detached' });
    await denied.close();
    const { spawn } = await api<{ spawn: { fish: { disposition: string }[] } }>(
      'query ($id: ID!) { spawn(id: $id) { fish { disposition } } }',
      { id },
    );
    expect(spawn.fish[0]?.disposition).toBe('PLACED');
  });

  it('shows sorted fish as sorted all the while a hundred entries are sent', async () => {
    await freshBrood('R26-06', 100);
    await page.locator('h1').click();
    await context.setOffline(true);
    for (let n = 0; n < 100; n += 1) await page.keyboard.press('k');
    await strip()
      .getByRole('link', { name: /^100 entries wait/ })
      .waitFor();
    const progress = page.getByRole('group', { name: 'Progress' });
    await progress.filter({ hasText: '100 of 100 sorted' }).waitFor();
    // The page itself notes each change, however quickly the next one follows.
    const noted = await page.evaluateHandle(() => {
      const seen = new Set<string>();
      const note = (): void => {
        const group = document.querySelector('[role="group"][aria-label="Progress"]');
        seen.add(/\d+ of \d+ sorted/.exec(group?.textContent ?? '')?.[0] ?? 'none');
      };
      note();
      new MutationObserver(note).observe(document.body, {
        ...{ childList: true, characterData: true, subtree: true },
      });
      return seen;
    });
    await context.setOffline(false);
    await everythingSent();
    expect(await noted.evaluate((seen) => [...seen])).toEqual(['100 of 100 sorted']);
  });

  it('opens the fish list on the fish that are here, newest first, with a way to all', async () => {
    await page.goto(`${road.url}/fish`);
    await page.getByText(/fish alive here/).waitFor();
    const here = await page.locator('.screen_lead').innerText();
    expect(await page.getByText('culled ·').count()).toBe(0);
    await page.screenshot({ path: join(folder, 'fish-list-phone.png') });
    await page
      .getByRole('link', { name: 'Also show fish with partners, placed, culled and dead' })
      .tap();
    await page.waitForURL(/use=all/);
    await expect
      .poll(async () => Number.parseInt(await page.locator('.screen_lead').innerText(), 10))
      .toBeGreaterThan(Number.parseInt(here, 10));
  });

  it('tells what the server cannot take beside its field, once', async () => {
    await page.goto(`${road.url}/fish`);
    await page.getByRole('button', { name: 'New fish' }).tap();
    const form = page.getByRole('dialog');
    await form.getByLabel(/^Tag/).fill('W25-01-01');
    await form
      .getByRole('button', { name: /save|record|add/i })
      .last()
      .tap();
    await form.getByText(/"W25-01-01" is on another of your fish/).waitFor();
    expect(await form.getByText(/is on another of your fish/).count()).toBe(1);
  });

  it('leaves nothing of the records on the device of who signs out', async () => {
    const kept = (): Promise<string[]> =>
      page.evaluate(async () => {
        const found = [localStorage, sessionStorage].flatMap((store) => Object.keys(store));
        const database = await new Promise<IDBDatabase>((done, failed) => {
          const opening = indexedDB.open('linewright');
          opening.onsuccess = () => done(opening.result);
          opening.onerror = () => failed(opening.error!);
        });
        const names = [...database.objectStoreNames];
        for (const name of names) {
          const rows = await new Promise<number>((done) => {
            const counting = database.transaction(name).objectStore(name).count();
            counting.onsuccess = () => done(counting.result);
          });
          if (rows > 0) found.push(name);
        }
        database.close();
        // How far a page was scrolled, by a number drawn for each visit: no record, and gone with the tab.
        const noRecords = ['linewright-colours', 'react-router-scroll-positions'];
        return found.filter((key) => !noRecords.includes(key)).sort();
      });
    await page.goto(`${road.url}/next-pairing`);
    await page.goto(`${road.url}/spawns/${spawnId}/sort`);
    await page.locator('h1').waitFor();
    await everythingSent();
    expect(await kept()).toEqual(expect.arrayContaining(['linewright-session', 'sent', 'taken']));
    await page.getByRole('button', { name: 'More' }).tap();
    await page.getByRole('button', { name: 'Sign out' }).tap();
    await page.getByLabel(/^Password/).waitFor();
    expect(await kept()).toEqual([]);
    await page.goBack();
    await page.getByLabel(/^Password/).waitFor();
  });

  it('without a fault in the page', () => {
    expect(faults).toEqual([]);
  });
});
