import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { fillPassword, startRecords } from './first-start.js';
import { openBrowser, openContext, WAIT_MS } from './harness.js';
import { settleAt } from './looking.js';
import { faultsAsWide, openTwo, type TwoPeople } from './two-people.js';

const SECRET = 'For nobody else';

/** Two people, each before a browser of their own: the owner at a desk, a partner with a phone. */
describe('a line shared with a partner who signs in', () => {
  let two: TwoPeople;
  let owner: Page;
  let partner: Page;
  let link = '';
  const ids: Record<string, string> = {};

  beforeAll(async () => {
    two = await openTwo();
    [owner, partner] = [two.desk, two.phone];
  });
  afterAll(() => two?.stop());

  const address = (path: string): string => `${two.opened.server.url}${path}`;

  it('begins with the owner’s records', async () => {
    await owner.goto(two.opened.server.url);
    await startRecords(owner);
    const make = newRecords({
      graphql: async <Data>(query: string, variables: object): Promise<Data> => {
        const answer = await owner.request.post(address('/graphql'), {
          data: { query, variables },
        });
        return ((await answer.json()) as { data: Data }).data;
      },
    });
    ids['line'] = await make.createLine({ code: 'LENT', name: 'Lent line' });
    const lineId = ids['line'];
    ids['fish'] = await make.createFish({ tag: 'LENT-1', sex: 'MALE', lineId, note: SECRET });
    const day = daysAgo(10);
    ids['spawn'] = await make.createSpawn({ tag: 'LENT-S', lineId, spawnedOn: day });
    const at = `${day}T08:00:00Z`;
    await make.recordSpawnEvent({ spawnId: ids['spawn'], kind: 'SPAWNED', at });
    await make.createFish({ tag: 'OTHER-1', sex: 'FEMALE' });
    await make.createTrait({ key: 'length', name: 'Length', kind: 'MEASURED', unit: 'mm' });
  });

  it('invites by a link that is shown once', async () => {
    await settleAt(owner, address('/people'));
    await owner.getByRole('button', { name: 'Invite somebody' }).click();
    await owner.getByRole('dialog').getByLabel(/^Name/).fill('Runa');
    await owner.getByRole('button', { name: 'Make the link' }).click();
    const shown = owner.getByText('The link for Runa, shown this once.');
    await shown.waitFor();
    link = (await owner.getByRole('main').locator('code').textContent()) ?? '';
    expect(link).toMatch(/^http.*\/join#[\w-]{43}$/);
    expect(await faultsAsWide(owner)).toEqual([]);
    await owner.reload();
    await owner.getByRole('cell', { name: /^invited until/ }).waitFor();
    expect(await owner.getByText(link).count()).toBe(0);
  });

  it('lets the partner in with a password of their own, and shows nothing yet', async () => {
    await settleAt(partner, link);
    expect(await faultsAsWide(partner)).toEqual([]);
    await fillPassword(partner, 'password12');
    await partner.getByRole('button', { name: 'Come in' }).click();
    await partner.getByText(/common or easily guessed/).waitFor();
    await fillPassword(partner, 'three green snails');
    await partner.getByRole('button', { name: 'Come in' }).click();
    await partner.getByText(/Nothing here was shared with your account/).waitFor();
    // Their account is their own from the beginning.
    await settleAt(partner, address('/people'));
    for (const name of ['Set up codes', 'Make a token', 'Erase my data'])
      await partner.getByRole('button', { name }).waitFor();
    // Used once: whoever finds it later is told so.
    const later = await openContext(await openBrowser(), { serviceWorkers: 'block' });
    const stranger = await later.newPage();
    await stranger.goto(link);
    await stranger.getByText(/This link does not open/).waitFor({ timeout: WAIT_MS });
    await later.close();
  });

  it('shares the line to look and score, without notes', async () => {
    await settleAt(owner, address(`/lines/${ids['line']}`));
    await owner.getByRole('button', { name: 'Share with a partner' }).click();
    const sheet = owner.getByRole('dialog');
    await sheet.getByLabel('They may').selectOption('SCORE');
    expect(await faultsAsWide(owner)).toEqual([]);
    await sheet.getByRole('button', { name: 'Share the line' }).click();
    await owner.getByRole('cell', { name: 'scores, photos' }).waitFor();
  });

  it('shows the owner what the partner sees, and the way back', async () => {
    await owner.getByRole('button', { name: 'See what Runa sees' }).click();
    await owner.getByText('Nothing can be changed here.').waitFor();
    await settleAt(owner, address(`/fish/${ids['fish']}`));
    await owner.getByRole('heading', { name: 'LENT-1', level: 1 }).waitFor();
    expect(await owner.getByText(SECRET).count()).toBe(0);
    for (const name of ['Decide', 'Record scores', 'Score on a sheet'])
      expect(await owner.getByRole('button', { name }).count()).toBe(0);
    expect(await faultsAsWide(owner)).toEqual([]);
    await owner.getByRole('button', { name: 'Back to my own view' }).click();
    await owner.getByText(SECRET).first().waitFor();
  });

  it('lets the partner see the line’s fish alone, and score it', async () => {
    await settleAt(partner, address('/fish'));
    await partner.getByText('LENT-1').first().waitFor();
    expect(await partner.getByText('OTHER-1').count()).toBe(0);
    await partner.getByText('place not shared with you').first().waitFor();
    expect(await partner.getByRole('button', { name: 'New fish' }).count()).toBe(0);
    await settleAt(partner, address(`/spawns/${ids['spawn']}`));
    await partner.getByRole('cell', { name: 'spawned', exact: true }).waitFor();
    await partner.getByRole('tab', { name: 'About' }).click();
    await partner.getByText('not shared with you').first().waitFor();
    expect(await partner.getByText('Next, one tap each:').count()).toBe(0);
    expect(
      await partner.getByRole('button', { name: /^(Correct|Photo of|Withdraw)/ }).count(),
    ).toBe(0);
    for (const part of ['purpose', 'routes']) {
      await settleAt(partner, address(`/lines/${ids['line']}/${part}`));
      await partner.getByText(/its plan and its rounds are not shared with you/).waitFor();
    }
    await settleAt(partner, address(`/fish/${ids['fish']}`));
    expect(await partner.getByText(SECRET).count()).toBe(0);
    await partner.getByRole('button', { name: 'Record scores' }).click();
    await partner
      .getByRole('dialog')
      .getByLabel(/^Length/)
      .fill('41');
    await partner.getByRole('button', { name: 'Save scores' }).click();
    await partner.getByRole('cell', { name: /41 mm/ }).first().waitFor();
    await partner.getByRole('button', { name: 'Score on a sheet' }).waitFor();
    // Their own score is theirs to correct; the fish is not.
    await partner.getByRole('button', { name: 'All scores' }).click();
    await partner.getByRole('button', { name: /^Correct Length of/ }).waitFor();
    expect(await partner.getByRole('button', { name: 'Decide' }).count()).toBe(0);
    expect(await faultsAsWide(partner)).toEqual([]);
    await settleAt(owner, address(`/fish/${ids['fish']}`));
    await owner.getByRole('cell', { name: 'Runa' }).first().waitFor();
  });

  it('lets them record spawns of their own once they may breed with the line', async () => {
    await settleAt(owner, address(`/lines/${ids['line']}`));
    await owner.getByRole('button', { name: /^Change what Runa/ }).click();
    await owner.getByRole('dialog').getByLabel('They may').selectOption('BREED');
    await owner.getByRole('dialog').getByRole('button', { name: 'Save' }).click();
    await owner.getByRole('cell', { name: /Breed with/ }).waitFor();
    await settleAt(partner, address('/spawns'));
    await partner.getByRole('button', { name: 'New spawn' }).click();
    const sheet = partner.getByRole('dialog');
    expect(await sheet.getByLabel('Line', { exact: true }).inputValue()).toBe(ids['line']);
    await sheet.getByLabel(/^Tag/).fill('RUNA-S');
    await sheet.getByRole('button', { name: 'Save spawn' }).click();
    await partner.getByRole('heading', { name: 'Spawn RUNA-S' }).waitFor();
    await settleAt(partner, address('/fish'));
    await partner.getByRole('button', { name: 'New fish' }).waitFor();
    expect(await faultsAsWide(partner)).toEqual([]);
  });

  it('takes the line back, and the partner sees nothing from then on', async () => {
    await settleAt(owner, address(`/lines/${ids['line']}`));
    await owner.getByRole('button', { name: 'Take the line back from Runa' }).click();
    await owner.getByRole('button', { name: 'Take it back' }).click();
    await owner.getByText('Nobody but you and your household sees this line here.').waitFor();
    await settleAt(partner, address(`/fish/${ids['fish']}`));
    await partner
      .getByText(/Nothing here was shared with your account/)
      .first()
      .waitFor();
    expect(await partner.getByText('LENT-1').count()).toBe(0);
  });

  it('ends the account: its browser is signed out, and the name stays', async () => {
    await settleAt(owner, address('/people'));
    await owner.getByRole('button', { name: 'End the account of Runa' }).click();
    await owner.getByRole('button', { name: 'End the account', exact: true }).click();
    await owner.getByRole('button', { name: 'End the account of Runa' }).waitFor({
      state: 'detached',
    });
    await owner.getByRole('cell', { name: 'Runa' }).waitFor();
    await partner.goto(address('/fish'));
    await partner.getByRole('button', { name: 'Sign in' }).waitFor();
    expect(two.opened.faults).toEqual([]);
  });
});
