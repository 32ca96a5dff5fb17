import { chmodSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
import { ask } from './demo-stock.js';
import { type OpenPage, openPage, WAIT_MS } from './harness.js';
import { startRecords } from './first-start.js';
import { PHONE, screenFaults, settleAt } from './looking.js';

const pictures = join(tmpdir(), 'linewright-pictures');

/** A keeper's room: an install of its own, and the browser before it. */
interface Room {
  readonly name: string;
  readonly opened: OpenPage;
  readonly page: Page;
}

describe('a line between two fish rooms, each with an install of its own', () => {
  let folder = '';
  let anna: Room;
  let runa: Room;
  const ids: Record<string, string> = {};

  const begin = async (name: string): Promise<Room> => {
    const opened = await openPage({ viewport: { width: 1280, height: 900 } });
    const { page } = opened;
    await page.goto(opened.server.url);
    await startRecords(page, name);
    return { name, opened, page };
  };
  const sharing = ({ opened, page }: Room): Promise<void> =>
    settleAt(page, `${opened.server.url}/sharing`);
  const card = ({ page }: Room, of: string): Locator =>
    page.getByRole('article').filter({ has: page.getByRole('heading', { name: of, exact: true }) });
  const look = async (room: Room, of: string): Promise<void> => {
    const answered = room.page.waitForResponse(
      (answer) => answer.request().postData()?.includes('exchangeNow') === true,
    );
    await card(room, of).getByRole('button', { name: 'Look now' }).click();
    await answered;
  };
  const looked = async ({ page }: Room, name: string): Promise<void> => {
    expect(await screenFaults(page)).toEqual([]);
    const main = page.getByRole('main');
    await main.screenshot({ path: join(pictures, `two-installs-${name}.png`) });
    await page.setViewportSize(PHONE);
    await page.emulateMedia({ colorScheme: 'dark' });
    await main.screenshot({ path: join(pictures, `two-installs-${name}-phone.png`) });
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setViewportSize({ width: 1280, height: 900 });
  };
  const fishOf = async ({ page }: Room, tag: string) => {
    const { fishList } = await ask<{
      fishList: {
        edges: { node: { id: string; tag: string; name: string | null; revision: number } }[];
      };
    }>(page, '{ fishList(first: 20) { edges { node { id tag name revision } } } }');
    return fishList.edges.map(({ node }) => node).find((one) => one.tag === tag);
  };
  const rename = async (room: Room, tag: string, name: string): Promise<void> => {
    const { id, revision } = (await fishOf(room, tag))!;
    await ask(
      room.page,
      'mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }',
      { input: { id, revision, name } },
    );
  };

  beforeAll(async () => {
    mkdirSync(pictures, { recursive: true });
    folder = mkdtempSync(join(tmpdir(), 'linewright-shared-'));
    chmodSync(folder, 0o777);
    anna = await begin('Anna');
    runa = await begin('Runa');
    const make = newRecords({ graphql: (query, variables) => ask(anna.page, query, variables) });
    ids['line'] = await make.createLine({ code: 'BOTH', name: 'Line of both' });
    const lineId = ids['line'];
    await make.createFish({ tag: 'BOTH-1', sex: 'MALE', lineId });
    await make.createFish({ tag: 'BOTH-2', sex: 'FEMALE', lineId });
  });
  afterAll(async () => {
    await anna?.opened.stop();
    await runa?.opened.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('are paired by each other’s codes, whose words are the same on both screens', async () => {
    for (const room of [anna, runa]) await sharing(room);
    const codeOf = ({ page }: Room): Promise<string> =>
      page.getByLabel('Your code, to copy').inputValue();
    const codes = [await codeOf(anna), await codeOf(runa)];
    for (const [room, code] of [
      [anna, codes[1]],
      [runa, codes[0]],
    ] as const) {
      const field = room.page.getByLabel('The partner’s code');
      // One copies the code, the other photographs it.
      if (room === anna) await field.fill(code ?? '');
      else {
        const shown = anna.page.getByRole('img', { name: 'Your code as a QR code' });
        await room.page.getByLabel('Picture of a QR code').setInputFiles({
          ...{ name: 'code.png', mimeType: 'image/png', buffer: await shown.screenshot() },
        });
        await expect.poll(() => field.inputValue(), { timeout: WAIT_MS }).toBe(code);
      }
      await room.page.getByRole('button', { name: 'Pair', exact: true }).click();
      await card(room, room === anna ? 'Runa' : 'Anna').waitFor();
    }
    const theirs = await card(anna, 'Runa').getByText('Their words:').locator('strong').innerText();
    expect(theirs.split(/\s+/)).toHaveLength(6);
    const own = runa.page.getByText('Your words:').locator('strong');
    expect(await own.innerText()).toBe(theirs);
    await looked(anna, 'words');
  });

  it('use one folder, which is said to be wrong where it is', async () => {
    for (const [room, of] of [
      [anna, 'Runa'],
      [runa, 'Anna'],
    ] as const) {
      await card(room, of).getByRole('button', { name: 'The words are the same' }).click();
      const field = card(room, of).getByLabel(`Folder for ${of}`);
      await field.fill(join(folder, 'nowhere'));
      await card(room, of).getByRole('button', { name: 'Use this folder' }).click();
      await card(room, of)
        .getByText(/There is no folder/)
        .waitFor();
      await field.fill(folder);
      await card(room, of).getByRole('button', { name: 'Use this folder' }).click();
      await card(room, of).getByText('The folder was not looked into yet.').waitFor();
    }
  });

  it('offer a line that was shared, and take it in by one press', async () => {
    await settleAt(anna.page, `${anna.opened.server.url}/lines/${ids['line']}`);
    await anna.page.getByRole('button', { name: 'Share with a partner' }).click();
    const sheet = anna.page.getByRole('dialog');
    await sheet.getByLabel('They may').selectOption('BREED');
    await sheet.getByRole('button', { name: 'Share the line' }).click();
    await sheet.waitFor({ state: 'detached' });
    await sharing(anna);
    await look(anna, 'Runa');
    await look(runa, 'Anna');
    await runa.page.getByRole('button', { name: 'Take BOTH in and keep it in step' }).click();
    await card(runa, 'Anna')
      .getByText(/taken in last time/)
      .waitFor();
    expect((await fishOf(runa, 'BOTH-1'))?.id).toBe((await fishOf(anna, 'BOTH-1'))?.id);
    await looked(runa, 'taken-in');
  });

  it('show what was changed in both side by side, and one press decides for both', async () => {
    await rename(anna, 'BOTH-1', 'Ember');
    await rename(runa, 'BOTH-1', 'Cinder');
    await look(runa, 'Anna');
    await look(anna, 'Runa');
    const question = anna.page.getByRole('heading', { name: 'Changed in two places' });
    await question.waitFor();
    await looked(anna, 'difference');
    await anna.page.setViewportSize(PHONE);
    await anna.page.getByRole('button', { name: /^Take name of Fish BOTH-1: From Runa/i }).click();
    await question.waitFor({ state: 'detached' });
    await anna.page.setViewportSize({ width: 1280, height: 900 });
    expect((await fishOf(anna, 'BOTH-1'))?.name).toBe('Cinder');
    await look(anna, 'Runa');
    await look(runa, 'Anna');
    expect((await fishOf(runa, 'BOTH-1'))?.name).toBe('Cinder');
    await sharing(runa);
    expect(await runa.page.getByText('Changed in two places').count()).toBe(0);
  });

  it('end it: a key taken back is told to the other side with the reason, and what came before stays', async () => {
    await sharing(anna);
    await card(anna, 'Runa').getByRole('button', { name: 'Take the key of Runa back' }).click();
    const sheet = anna.page.getByRole('dialog');
    await sheet.getByLabel(/^Reason/).fill('We stopped the line');
    await sheet.getByRole('button', { name: 'Take it back' }).click();
    await card(anna, 'Runa')
      .getByText(/You took their key back on .*We stopped the line/)
      .waitFor();
    await look(runa, 'Anna');
    await card(runa, 'Anna')
      .getByText(/Anna took the key of this install back on .*We stopped the line/)
      .waitFor();
    await looked(runa, 'ended');
    expect((await fishOf(runa, 'BOTH-1'))?.name).toBe('Cinder');
    expect([...anna.opened.faults, ...runa.opened.faults]).toEqual([]);
  });
});
