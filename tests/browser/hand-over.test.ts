import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { fillPassword, startRecords } from './first-start.js';
import { downloaded } from './harness.js';
import { settleAt } from './looking.js';
import { faultsAsWide, openTwo, type TwoPeople } from './two-people.js';

/** The owner at a desk and a partner with a phone. */
describe('fish from hand to hand', () => {
  let two: TwoPeople;
  let owner: Page;
  let partner: Page;
  const ids: Record<string, string> = {};
  const day = daysAgo(-20);

  beforeAll(async () => {
    two = await openTwo();
    [owner, partner] = [two.desk, two.phone];
  });
  afterAll(() => two?.stop());

  const address = (path: string): string => `${two.opened.server.url}${path}`;
  const ask = async <Data>(query: string, variables: object): Promise<Data> => {
    const answer = await owner.request.post(address('/graphql'), { data: { query, variables } });
    return ((await answer.json()) as { data: Data }).data;
  };

  it('begins with the owner’s fish, and a partner who was shown nothing', async () => {
    await owner.goto(two.opened.server.url);
    await startRecords(owner, 'Anna');
    const make = newRecords({ graphql: ask });
    const lineId = await make.createLine({ code: 'R', name: 'Rust' });
    for (const tag of ['R-01', 'R-02', 'R-03'])
      ids[tag] = await make.createFish({ tag, sex: 'MALE', lineId });
    const { invitePerson } = await ask<{ invitePerson: { path: string } }>(
      'mutation { invitePerson(input: { name: "Runa", role: PARTNER }) { path } }',
      {},
    );
    await settleAt(partner, address(invitePerson.path));
    await fillPassword(partner, 'three green snails');
    await partner.getByRole('button', { name: 'Come in' }).click();
    await partner.getByText(/Nothing here was shared with your account/).waitFor();
  });

  it('offers two of a line with a health note, and says that it waits', async () => {
    await settleAt(owner, address(`/fish/${ids['R-01']}`));
    await owner.getByRole('link', { name: 'Hand over' }).click();
    await owner.getByLabel('To whom').selectOption({ label: 'Runa' });
    await owner.getByRole('button', { name: 'More fish of line R' }).click();
    await owner.getByLabel('R-02, keeper').check();
    await owner.getByLabel(/^Health/).fill('Torn fins among its sibs in spring');
    await owner.getByLabel('I see when it spawns there').check();
    expect(await faultsAsWide(owner)).toEqual([]);
    await owner.getByRole('button', { name: 'Offer', exact: true }).click();
    await owner.getByText(/Offered to Runa as a gift on .*, no answer yet/).waitFor();
    expect(await faultsAsWide(owner)).toEqual([]);
  });

  it('stands under Today on the partner’s phone, and moves once it is accepted', async () => {
    await settleAt(partner, address('/today'));
    await partner.getByText('Torn fins among its sibs in spring').waitFor();
    expect(await faultsAsWide(partner)).toEqual([]);
    await partner.getByRole('button', { name: 'Accept: R-01, R-02' }).click();
    await partner.getByText('Anna sees when it spawns').waitFor();
    expect(await faultsAsWide(partner)).toEqual([]);
    await partner.getByLabel(/^Days in quarantine/).fill('21');
    await partner.getByRole('button', { name: 'Take the 2 fish' }).click();
    await partner.getByText(/Given to you by Anna on/).waitFor();
    await settleAt(partner, address(`/fish/${ids['R-01']}`));
    await partner.getByText(/with Runa, in quarantine until/).waitFor();
    expect(await faultsAsWide(partner)).toEqual([]);
    await settleAt(owner, address(`/fish/${ids['R-01']}`));
    await owner.getByText(/with Runa, in quarantine until/).waitFor();
    await owner.getByText(/Given to Runa on/).waitFor();
    // No longer the owner's to hand on.
    expect(await owner.getByRole('link', { name: 'Hand over' }).count()).toBe(0);
  });

  it('lends one, which both see until it comes back', async () => {
    await settleAt(owner, address(`/fish/${ids['R-03']}/hand-over?kind=LOAN`));
    await owner.getByLabel('To whom').selectOption({ label: 'Runa' });
    await owner.getByLabel('To be back on').fill(day);
    await owner.getByRole('button', { name: 'Offer', exact: true }).click();
    await owner.getByText(/Offered to Runa on loan on/).waitFor();
    await settleAt(partner, address('/hand-overs'));
    await partner.getByRole('button', { name: 'Accept: R-03' }).click();
    await partner.getByRole('button', { name: 'Take the fish' }).click();
    await partner.getByText(`On loan from Anna until ${day}`).first().waitFor();
    await settleAt(owner, address(`/fish/${ids['R-03']}`));
    await owner.getByText(`on loan with Runa until ${day}`).first().waitFor();
    await partner.getByRole('button', { name: 'Give it back: R-03' }).click();
    await partner.getByRole('button', { name: 'Tell Anna' }).click();
    await partner.getByText(/by the word of you it comes back/).waitFor();
    await settleAt(owner, address('/today'));
    await owner.getByRole('button', { name: 'It is back: R-03' }).click();
    expect(await faultsAsWide(owner)).toEqual([]);
    await owner.getByRole('button', { name: 'End the loan' }).click();
    await owner.getByRole('button', { name: 'It is back: R-03' }).waitFor({ state: 'detached' });
    await settleAt(owner, address(`/fish/${ids['R-03']}`));
    await owner.getByText(/came back on/).waitFor();
    await settleAt(partner, address('/hand-overs'));
    await partner.getByText(/came back on/).waitFor();
  });

  it('lets the partner take their data along and erase it; the pedigree stays under a pseudonym', async () => {
    await settleAt(partner, address('/people'));
    const taken = partner.waitForEvent('download');
    await partner.getByRole('link', { name: 'Take all of it out' }).click();
    expect((await downloaded(await taken)).subarray(0, 2).toString()).toBe('PK');
    await partner.getByRole('button', { name: 'Erase my data' }).click();
    const sheet = partner.getByRole('dialog');
    await sheet.getByText(/under the name “Keeper 1”/).waitFor();
    expect(await faultsAsWide(partner)).toEqual([]);
    await sheet.getByLabel(/^Your name/).fill('Runa');
    await sheet.getByLabel(/^Your password/).fill('not this one');
    await sheet.getByRole('button', { name: 'Erase my data' }).click();
    await sheet.getByText(/do not go together|not the password/).waitFor();
    await sheet.getByLabel(/^Your password/).fill('three green snails');
    await sheet.getByRole('button', { name: 'Erase my data' }).click();
    await partner.getByRole('button', { name: 'Sign in' }).waitFor();
    // Nothing of it is left in the browser.
    expect(await partner.context().cookies()).toEqual([]);
    expect(await partner.evaluate(() => JSON.stringify(localStorage))).not.toContain('Runa');
    await settleAt(owner, address(`/fish/${ids['R-01']}`));
    await owner.getByText('Keeper 1').first().waitFor();
    expect(await owner.getByRole('main').getByText('Runa').count()).toBe(0);
    expect(two.opened.faults).toEqual([]);
  });
});
