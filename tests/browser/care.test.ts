import { HOUR } from '@linewright/care';
import type { Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { now } from '../clock.js';
import { type OpenPage, type RunningServer, openPage } from './harness.js';
import { PHONE, accessibilityFaults, screenFaults, settleAt } from './looking.js';
import { newRecords } from '../new-records.js';

/** As an input of type datetime-local takes it, in the clock of the browser, which runs beside the test. */
const localTime = (hoursAgo: number): string => {
  const at = new Date(now() - hoursAgo * HOUR);
  return new Date(at.getTime() - at.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
};

describe('the breeder’s day on a phone', () => {
  let opened: OpenPage;
  let server: RunningServer;
  let page: Page;
  let spawn: string;

  beforeAll(async () => {
    opened = await openPage({
      viewport: PHONE,
      hasTouch: true,
      isMobile: true,
    });
    ({ server, page } = opened);
  });
  afterAll(() => opened?.stop());

  const api = <Data>(query: string, variables: object): Promise<Data> =>
    page.evaluate(async (body) => {
      const answer = await fetch('/graphql', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body,
      });
      return ((await answer.json()) as { data: Data }).data;
    }, JSON.stringify({ query, variables }));
  const open = (path: string): Promise<void> => settleAt(page, `${server.url}${path}`);
  const task = (title: string) => page.getByRole('listitem').filter({ hasText: title });
  const recorded = (what: string) => page.getByRole('status').filter({ hasText: what });
  const violations = (): Promise<string[]> => accessibilityFaults(page);

  it('starts the log of a spawn with the decision to pair', async () => {
    await page.goto(server.url);
    await page.getByLabel(/^Your name/).fill('Journey keeper');
    await page
      .getByLabel(/^Password(?! again)/)
      .first()
      .fill('a-long-enough-password');
    await page.getByLabel(/^Password again/).fill('a-long-enough-password');
    await page.getByRole('button', { name: 'Start keeping records' }).tap();
    await page.getByRole('heading', { name: 'Begin your book', level: 1 }).waitFor();
    const lineId = await newRecords({ graphql: api }).createLine({ code: 'T', name: 'Turquoise' });
    const spawnId = await newRecords({ graphql: api }).createSpawn({ tag: 'T26-01', lineId });
    spawn = `/spawns/${spawnId}`;
    await open(spawn);
    const log = page.getByRole('table', { name: /^Log of this spawn/ });
    await log.getByText('decided to pair').waitFor();
  });

  it('records an event with one tap, and one at an earlier time with a note', async () => {
    await page
      .getByRole('button', { name: /^Begin conditioning/ })
      .first()
      .tap();
    await recorded('Recorded: Begin conditioning').waitFor();
    const log = page.getByRole('table', { name: /^Log of this spawn/ });
    await log.getByText('conditioning begun').waitFor();
    await page.getByRole('button', { name: 'Another step, time or note' }).tap();
    await page.getByLabel('Time of the step').fill(localTime(50));
    await page.getByLabel('Note on the step').fill('seen at dusk');
    await page
      .getByRole('group', { name: 'All steps' })
      .getByRole('button', { name: /^Spawned/ })
      .tap();
    await log.getByText('seen at dusk').waitFor();
    // The dam was not taken out: that comes first among what is next.
    await page
      .getByRole('button', { name: /^Take the dam out.*overdue since/ })
      .first()
      .waitFor();
  });

  it('corrects the time of a record', async () => {
    await page.getByRole('button', { name: /^Correct conditioning begun/ }).tap();
    const form = page.getByRole('dialog');
    await form.getByLabel(/^When/).fill(localTime(12 * 24));
    await form.getByRole('button', { name: 'Save' }).tap();
    await form.waitFor({ state: 'detached' });
    const { spawn: read } = await api<{ spawn: { events: { kind: string; at: string }[] } }>(
      'query ($id: ID!) { spawn(id: $id) { events { kind at } } }',
      { id: spawn.split('/')[2] },
    );
    const at = read.events.find((event) => event.kind === 'CONDITIONING')?.at ?? '';
    expect((now() - Date.parse(at)) / HOUR).toBeCloseTo(288, 0);
  });

  it('takes a photo of a record of the log, keeps it when sending fails, and shows it in the row', async () => {
    const log = page.getByRole('table', { name: /^Log of this spawn/ });
    await log.getByRole('button', { name: /^Photo of conditioning begun/ }).tap();
    const sheet = page.getByRole('dialog', { name: /^Photo: conditioning begun/ });
    const picture = await sharp({
      create: { width: 640, height: 480, channels: 3, background: '#7a3' },
    })
      .jpeg()
      .toBuffer();
    await sheet
      .getByTestId('files')
      .setInputFiles({ name: 'pair.jpg', mimeType: 'image/jpeg', buffer: picture });
    await page.route('**/photos/*?kind=*', (route) => route.abort());
    await sheet.getByRole('button', { name: 'Add photo' }).tap();
    await sheet.getByText('It is kept here').waitFor();
    await page.unroute('**/photos/*?kind=*');
    await sheet.getByRole('button', { name: 'Try again' }).tap();
    await sheet.getByText('1 photo added').waitFor();
    await page.keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' });
    const row = log.getByRole('row').filter({ hasText: 'conditioning begun' });
    const small = row.getByRole('button', { name: /^Open: Photo of conditioning begun, spawn/ });
    const box = await small.boundingBox();
    expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(44);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
      390,
    );
    expect(await violations()).toEqual([]);
    await small.tap();
    const large = page.getByRole('dialog', { name: 'Photo 1 of 1' });
    await large.getByRole('img', { name: /conditioning begun/ }).waitFor();
    await page.keyboard.press('Escape');
    await large.waitFor({ state: 'detached' });
    const { spawn: read } = await api<{
      spawn: { events: { id: string; kind: string }[]; photos: { subjectId: string }[] };
    }>('query ($id: ID!) { spawn(id: $id) { events { id kind } photos { subjectId } } }', {
      id: spawn.split('/')[2],
    });
    const event = read.events.find(({ kind }) => kind === 'CONDITIONING')?.id;
    expect(read.photos.map(({ subjectId }) => subjectId)).toEqual([event]);
  });

  it('lists what is due today, with its reason', async () => {
    await open('/today');
    await page.getByRole('heading', { name: 'Now' }).waitFor();
    await task('Take the dam out, cover the tank').waitFor();
    // What presses comes first, on the first screen of the phone.
    const first = page.locator('.today_task').first();
    expect(await first.textContent()).toContain('Take the dam out');
    expect((await first.boundingBox())?.y).toBeLessThan(500);
    expect(await task('Take the dam out').textContent()).toMatch(/44 h overdue/);
    const hatch = task('Look for hatching');
    await hatch.getByRole('button', { name: /^Why/ }).tap();
    await hatch.getByText(/2 d after “spawned” \(recorded/).waitFor();
    expect(await hatch.textContent()).toContain('common practice, no source');
    expect(await hatch.textContent()).toContain('28.4 ± 0.2 °C');
  });

  it('moves the list when a task is done with one tap, and back when that is undone', async () => {
    const swim = task('Look for free-swimming fry');
    expect(await swim.textContent()).toMatch(/expected .*after “[^”]*hatch/);
    await page.getByRole('button', { name: /^Seen: Look for hatching/ }).tap();
    await recorded('Recorded: Look for hatching').waitFor();
    await task('Look for hatching').waitFor({ state: 'detached' });
    await expect.poll(() => swim.textContent()).not.toMatch(/expected .*after “[^”]*hatch/);
    await page.getByRole('button', { name: 'Undo' }).tap();
    await task('Look for hatching').waitFor();
    await page.getByRole('button', { name: /^Done: Take the dam out/ }).tap();
    await task('Take the dam out').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: /^Seen: Look for hatching/ }).tap();
    await task('Look for hatching').waitFor({ state: 'detached' });
    // The focus goes on where the task stood: by keyboard nobody starts at the top again.
    await page.waitForFunction(() => document.activeElement?.classList.contains('today_task'));
  });

  it('leaves a step out only with a reason', async () => {
    // Six days away: beyond the three days shown at first.
    await page.getByRole('button', { name: 'Show two weeks' }).tap();
    const snails = task('Put snails in to eat the leftovers');
    await snails.getByRole('button', { name: /^Skip/ }).tap();
    await snails.getByLabel('Why it is skipped').fill('not allowed here');
    await snails.getByRole('button', { name: 'Skip', exact: true }).tap();
    await snails.waitFor({ state: 'detached' });
  });

  it("follows the line's own plan", async () => {
    await open('/care-plans');
    await page.getByRole('button', { name: 'Copy Common practice for a line' }).tap();
    await page.getByLabel(/^Line/).selectOption({ label: 'T · Turquoise' });
    await page.getByRole('button', { name: 'Change Look for free-swimming fry' }).tap();
    const form = page.getByRole('dialog');
    await form.getByLabel('About', { exact: true }).fill('12');
    await form.getByLabel('Earliest', { exact: true }).fill('20');
    await form.getByRole('button', { name: 'Add to the plan' }).tap();
    await page.getByRole('button', { name: 'Save the plan' }).tap();
    // Refused with the reason, and what was typed is still there.
    await page
      .getByRole('alert')
      .getByText(/out of order/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Change Look for free-swimming fry' }).tap();
    await form.getByLabel('Earliest', { exact: true }).fill('6');
    await form.getByRole('button', { name: 'Add to the plan' }).tap();
    await page.getByRole('button', { name: 'Save the plan' }).tap();
    await page.getByRole('heading', { name: /^T · Common practice, changed/ }).waitFor();
    await open('/today');
    const swim = task('Look for free-swimming fry');
    await swim.getByRole('button', { name: /^Why/ }).tap();
    await swim.getByText(/12 h after “hatched”/).waitFor();
    expect(await swim.textContent()).toContain('your own');
  });

  it('opens a calendar address, and shows it once', async () => {
    await open('/care-plans');
    await page.getByRole('button', { name: 'Turn on' }).tap();
    const address = (await page.locator('.shown-once_secrets code').textContent()) ?? '';
    const calendar = await fetch(address);
    expect(calendar.headers.get('content-type')).toContain('text/calendar');
    expect(await calendar.text()).toContain('T26-01: Look for free-swimming fry');
    await open('/care-plans');
    expect(await page.locator('.shown-once_secrets code').count()).toBe(0);
    await page.getByRole('button', { name: 'Turn off' }).tap();
    await page.getByText('Off: there is no address.').waitFor();
    expect((await fetch(address)).status).toBe(404);
  });

  it.each(['today', 'the spawn', 'care plans'] as const)(
    'is free of accessibility faults, and no wider than the phone: %s',
    async (screen) => {
      await open({ today: '/today', 'the spawn': spawn, 'care plans': '/care-plans' }[screen]);
      const steps = page.locator('summary', { hasText: 'Every step' });
      if ((await steps.count()) > 0) await steps.tap();
      expect(await screenFaults(page)).toEqual([]);
    },
  );

  it('has targets large enough for a wet thumb', async () => {
    await open('/today');
    const small: string[] = [];
    const targets = page.locator(
      '.frame_bar a, .frame_bar button, .today_done, .today_more button',
    );
    for (const target of await targets.all()) {
      const box = await target.boundingBox();
      // The last part of a line of words may be narrow; its height is what the thumb needs.
      if (box !== null && (box.height < 44 || box.width < 40))
        small.push(`${(await target.textContent()) ?? ''} ${box.width}x${box.height}`);
    }
    expect(await targets.count()).toBeGreaterThan(8);
    expect(small).toEqual([]);
  });

  it('ends with a failed spawn, which says why', async () => {
    await open(spawn);
    // The one thing to do now is on top; what changes the record stands behind one button.
    await page.getByRole('heading', { name: 'Now' }).waitFor();
    await page.getByRole('button', { name: 'Change this spawn' }).tap();
    await page.getByRole('button', { name: 'Failed', exact: true }).tap();
    const form = page.getByRole('dialog');
    await form.getByLabel(/^How it failed/).fill('fry eaten by the sire');
    await form.getByRole('button', { name: 'Record as failed' }).tap();
    await page.getByRole('tab', { name: 'About' }).tap();
    await page.getByText('failed: fry eaten by the sire').waitFor();
    await open('/today');
    await page.getByText(/No spawn needs anything/).waitFor();
  });

  it('without a fault in the page', () => {
    expect(opened.faults).toEqual([]);
  });
});
