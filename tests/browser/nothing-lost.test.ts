import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { dataFolder, type OpenPage, openPage } from './harness.js';
import { screenFaults, settleAt } from './looking.js';
import { newRecords } from '../new-records.js';

const PASSWORD = 'a-long-enough-password';

describe('a first start from another machine, and nothing lost after it', () => {
  let opened: OpenPage;
  let page: Page;
  let folder: string;

  beforeAll(async () => {
    folder = dataFolder();
    // No folder can be made below a file, whoever asks.
    writeFileSync(join(folder, 'file'), '');
    opened = await openPage(
      { viewport: { width: 1280, height: 900 } },
      // Behind a proxy everyone is from elsewhere, on this machine too.
      { TRUST_PROXY: '1', PLAIN_HTTP: '1', BACKUP_DIR: join(folder, 'file', 'backups') },
    );
    ({ page } = opened);
  });
  afterAll(async () => {
    await opened?.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  const open = (path: string): Promise<void> => settleAt(page, `${opened.server.url}${path}`);
  const api = <Data>(query: string, variables: object = {}): Promise<Data> =>
    page.evaluate(async (body) => {
      const answer = await fetch('/graphql', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body,
      });
      return ((await answer.json()) as { data: Data }).data;
    }, JSON.stringify({ query, variables }));
  const question = () => page.getByRole('dialog', { name: 'Not saved yet' });
  const stay = async () => {
    await question().getByRole('button', { name: 'Stay here' }).last().click();
    await question().waitFor({ state: 'detached' });
  };
  const leave = () => question().getByRole('button', { name: 'Leave without saving' }).click();
  /** What the browser asks of its own on a reload; answered as told. */
  const reload = async (answer: 'stay' | 'leave'): Promise<string[]> => {
    const asked: string[] = [];
    page.once('dialog', (dialog) => {
      asked.push(dialog.type());
      void (answer === 'leave' ? dialog.accept() : dialog.dismiss());
    });
    // Not `page.reload()`, which waits for a page that never comes when the answer is to stay.
    await page.evaluate(() => setTimeout(() => location.reload(), 0));
    await expect.poll(() => asked.length).toBe(1);
    return asked;
  };

  it('asks for the code of the console, names a wrong one, and takes the right one', async () => {
    await page.goto(opened.server.url);
    await page.getByRole('heading', { name: 'First start', level: 1 }).waitFor();
    expect(await screenFaults(page)).toEqual([]);
    await page.getByLabel(/^Your name/).fill('Journey keeper');
    await page
      .getByLabel(/^Password(?! again)/)
      .first()
      .fill(PASSWORD);
    await page.getByLabel(/^Password again/).fill(PASSWORD);
    const code = page.getByLabel(/^Code/);
    // By keyboard alone: Enter sends it, and the field that is wrong has the focus.
    await page.keyboard.press('Enter');
    await page.getByText('Type the code that the console of the server shows.').waitFor();
    await expect.poll(() => code.evaluate((e) => e === document.activeElement)).toBe(true);
    await page.keyboard.type('WRONG-CODE');
    await page.keyboard.press('Enter');
    await page.getByText(/first start from another machine needs the code/i).waitFor();
    expect(await page.getByLabel(/^Your name/).inputValue()).toBe('Journey keeper');
    expect(await screenFaults(page)).toEqual([]);
    const printed = /needs this code: (\S+)/.exec(opened.server.said())?.[1];
    expect(printed).toBeDefined();
    await code.fill(printed ?? '');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Begin your book', level: 1 }).waitFor();
  });

  it('Escape and the cross ask before a sheet drops what was typed, and nothing is lost by staying', async () => {
    await open('/fish');
    await page.getByRole('button', { name: 'New fish' }).first().click();
    const sheet = page.getByRole('dialog', { name: 'New fish' });
    await sheet.waitFor();
    // Untouched it closes at once.
    await page.keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'New fish' }).first().click();
    await sheet.getByLabel(/^Tag/).fill('NL-1');
    await page.keyboard.press('Escape');
    await question().waitFor();
    expect(await screenFaults(page)).toEqual([]);
    // The key that was pressed by mistake, pressed again, changes nothing.
    await page.keyboard.press('Escape');
    await question().waitFor({ state: 'detached' });
    expect(await sheet.getByLabel(/^Tag/).inputValue()).toBe('NL-1');
    await sheet.getByRole('button', { name: 'Close' }).click();
    await stay();
    expect(await sheet.getByLabel(/^Tag/).inputValue()).toBe('NL-1');
    // What is saved is left without a question.
    await sheet.getByRole('button', { name: 'Save fish' }).click();
    await page.getByRole('heading', { name: /NL-1/, level: 1 }).waitFor();
    expect(await question().count()).toBe(0);
    await page.goBack();
    await page.getByRole('heading', { name: 'Fish', level: 1 }).waitFor();
  });

  it('back asks, stays with all that was typed, or leaves', async () => {
    await open('/fish');
    await page
      .getByRole('navigation', { name: 'Main', exact: true })
      .getByRole('link', { name: 'Spawns' })
      .click();
    await page.getByRole('heading', { name: 'Spawns', level: 1 }).waitFor();
    await page.getByRole('button', { name: 'New spawn' }).first().click();
    const sheet = page.getByRole('dialog', { name: 'New spawn' });
    await sheet.getByLabel(/^Tag/).fill('NL26-01');
    await sheet.getByLabel(/^Note/).fill('typed with care');
    await page.evaluate(() => history.back());
    await stay();
    expect(page.url()).toMatch(/\/spawns$/);
    expect(await sheet.getByLabel(/^Note/).inputValue()).toBe('typed with care');
    await page.evaluate(() => history.back());
    await leave();
    await page.getByRole('heading', { name: 'Fish', level: 1 }).waitFor();
    expect(await question().count()).toBe(0);
  });

  it('a reload is asked about by the browser, while something is typed and no longer', async () => {
    await open('/water');
    await page.getByRole('button', { name: 'Record reading' }).first().click();
    await page.getByRole('textbox', { name: 'Vessel' }).fill('rack 2');
    expect(await reload('stay')).toEqual(['beforeunload']);
    expect(await page.getByRole('textbox', { name: 'Vessel' }).inputValue()).toBe('rack 2');
    expect(await reload('leave')).toEqual(['beforeunload']);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await expect.poll(() => page.getByRole('textbox', { name: 'Vessel' }).count()).toBe(0);
    let asked = false;
    page.once('dialog', (dialog) => {
      asked = true;
      void dialog.accept();
    });
    await page.reload();
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(asked).toBe(false);
    page.removeAllListeners('dialog');
  });

  it('forms that are no sheet ask as well: pasted rows, a plan, a note on the log', async () => {
    const links = page.getByRole('navigation', { name: 'Main', exact: true });
    await open('/import');
    await page.getByLabel('Or paste the rows').fill('tag,sex\nNL-9,male\n');
    await links.getByRole('link', { name: 'Today' }).click();
    await stay();
    expect(await page.getByLabel('Or paste the rows').inputValue()).toContain('NL-9');
    await links.getByRole('link', { name: 'Today' }).click();
    await leave();
    await page.getByRole('heading', { name: 'Today', level: 1 }).waitFor();
    const spawnId = await newRecords({ graphql: api }).createSpawn({ tag: 'NL26-09' });
    await open(`/spawns/${spawnId}`);
    await page.getByRole('button', { name: 'Another step, time or note' }).click();
    await page.getByLabel('Note on the step').fill('nest at dusk');
    await links.getByRole('link', { name: 'Today' }).click();
    await stay();
    expect(await page.getByLabel('Note on the step').inputValue()).toBe('nest at dusk');
    await page
      .getByRole('group', { name: 'All steps' })
      .getByRole('button', { name: /^Begin conditioning/ })
      .click();
    await page.getByRole('status').filter({ hasText: 'Recorded' }).waitFor();
    await links.getByRole('link', { name: 'Today' }).click();
    await page.getByRole('heading', { name: 'Today', level: 1 }).waitFor();
  });

  it('a brood that is recorded already is asked about, with the form as it was typed', async () => {
    const fish = (tag: string, sex: 'MALE' | 'FEMALE') =>
      newRecords({ graphql: api }).createFish({ tag, sex, hatchDate: daysAgo(300) });
    const pair = { sireId: await fish('NL-M', 'MALE'), damId: await fish('NL-F', 'FEMALE') };
    await newRecords({ graphql: api }).planPairing({
      ...pair,
      plannedOn: daysAgo(2),
      confirmed: true,
    });
    await newRecords({ graphql: api }).createSpawn({
      ...pair,
      tag: 'NL26-02',
      spawnedOn: daysAgo(2),
    });
    await open('/planned');
    await page.getByRole('button', { name: 'Record spawn of NL-M by NL-F' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.getByLabel(/^Tag of the spawn/).fill('NL26-03');
    await sheet.getByLabel(/^Spawned on/).fill(daysAgo(2));
    await sheet.getByLabel('Note').fill('second tank');
    await sheet.getByRole('button', { name: 'Record spawn' }).click();
    await sheet.getByText(/Spawn NL26-02 of this pair/).waitFor();
    expect(await screenFaults(page)).toEqual([]);
    expect(await sheet.getByLabel('Note').inputValue()).toBe('second tank');
    await sheet.getByLabel('This is another spawn: save it too').check();
    await sheet.getByRole('button', { name: 'Record spawn' }).click();
    await page.getByRole('heading', { name: /NL26-03/, level: 1 }).waitFor();
    expect(await question().count()).toBe(0);
  });

  it('a backup that failed is told on Today until one is good', async () => {
    await open('/export-and-backup');
    await page.getByRole('button', { name: 'Make a backup now' }).click();
    await page.getByText(/The backup of .* failed/).waitFor();
    await open('/today');
    await page.getByRole('alert').filter({ hasText: 'failed' }).waitFor();
    await page.getByRole('link', { name: 'See the backups' }).waitFor();
    expect(await screenFaults(page)).toEqual([]);
    rmSync(join(folder, 'file'));
    await open('/export-and-backup');
    await page.getByRole('button', { name: 'Make a backup now' }).click();
    await page.getByText(/Last good backup/).waitFor();
    await open('/today');
    expect(await page.getByRole('alert').count()).toBe(0);
  });

  it('throws no error of its own meanwhile', () => {
    expect(opened.faults).toEqual([]);
  });

  it('a page whose database is away says that it asks by itself, and goes on when it is back', async () => {
    let answered: (body: string) => boolean = () => false;
    const away = { message: 'The database is away.', extensions: { code: 'DATABASE_AWAY' } };
    await page.route('**/graphql', (route) =>
      answered(route.request().postData() ?? '')
        ? route.continue()
        : route.fulfill({ json: { data: null, errors: [away] } }),
    );
    const told = page.getByText('This page asks again by itself every few seconds');
    await page.goto(`${opened.server.url}/fish`);
    await told.first().waitFor();
    // Who asks is known again; what the page itself reads is not.
    answered = (body) => /session \{/.test(body);
    await page.getByRole('heading', { name: 'Fish', level: 1 }).waitFor();
    await told.first().waitFor();
    answered = () => true;
    await expect.poll(() => told.count()).toBe(0);
    await page.unroute('**/graphql');
  });
});
