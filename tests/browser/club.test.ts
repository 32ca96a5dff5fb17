import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { today } from '../clock.js';
import { newRecords } from '../new-records.js';
import { fillPassword, startRecords } from './first-start.js';
import { settleAt } from './looking.js';
import { faultsAsWide, openTwo, type TwoPeople } from './two-people.js';

/** The owner at a desk, and a keeper with lines of their own and a phone. */
describe('a club on one server', () => {
  let two: TwoPeople;
  let owner: Page;
  let keeper: Page;
  const ids: Record<string, string> = {};

  beforeAll(async () => {
    two = await openTwo();
    [owner, keeper] = [two.desk, two.phone];
  });
  afterAll(() => two?.stop());

  const address = (path: string): string => `${two.opened.server.url}${path}`;
  const asked = async <Data>(page: Page, query: string, variables: object): Promise<Data> => {
    const answer = await page.request.post(address('/graphql'), { data: { query, variables } });
    return ((await answer.json()) as { data: Data }).data;
  };
  /** A line with a pair in use, recorded by whoever is signed in there. */
  const lineOf = async (page: Page, code: string): Promise<[lineId: string, sireId: string]> => {
    const make = newRecords({
      graphql: (query, variables) => asked(page, query, variables),
    });
    const lineId = await make.createLine({ code, name: `Line ${code}` });
    const sireId = await make.createFish({ tag: `${code}-1`, sex: 'MALE', lineId });
    const damId = await make.createFish({ tag: `${code}-2`, sex: 'FEMALE', lineId });
    for (const id of [sireId, damId])
      await asked(
        page,
        'mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }',
        { input: { id, disposition: 'KEEPER', on: today() } },
      );
    return [lineId, sireId];
  };

  it('lets a keeper in, who has lines of their own that the owner does not see', async () => {
    await owner.goto(two.opened.server.url);
    await startRecords(owner);
    [ids['line'] = '', ids['fish'] = ''] = await lineOf(owner, 'HOUSE');
    await settleAt(owner, address('/people'));
    await owner.getByRole('button', { name: 'Invite somebody' }).click();
    await owner.getByRole('dialog').getByLabel(/^Name/).fill('Solveig');
    await owner.getByRole('dialog').getByLabel('As').selectOption('KEEPER');
    await owner.getByRole('button', { name: 'Make the link' }).click();
    await owner.getByText('The link for Solveig, shown this once.').waitFor();
    const link = await owner.getByRole('main').locator('code').textContent();
    await settleAt(keeper, link ?? '');
    await fillPassword(keeper, 'three green snails');
    await keeper.getByRole('button', { name: 'Come in' }).click();
    await keeper.getByRole('heading', { name: 'Begin your book', level: 1 }).waitFor();
    [ids['kept'] = ''] = await lineOf(keeper, 'SOL');
    await settleAt(keeper, address(`/lines/${ids['kept']}`));
    for (const name of ['Correct', 'Share with a partner'])
      await keeper.getByRole('button', { name }).waitFor();
    // What is the house's is not offered to them.
    expect(await keeper.getByRole('link', { name: 'Share a line' }).count()).toBe(0);
    await settleAt(keeper, address('/traits'));
    expect(await keeper.getByRole('button', { name: 'New trait' }).count()).toBe(0);
    await settleAt(keeper, address('/lines'));
    await keeper.getByText('Line SOL').first().waitFor();
    expect(await keeper.getByText('Line HOUSE').count()).toBe(0);
    await settleAt(owner, address('/lines'));
    await owner.getByText('Line HOUSE').first().waitFor();
    expect(await owner.getByText('Line SOL').count()).toBe(0);
  });

  it('shows a line once its keeper ticks it, and not before', async () => {
    await settleAt(keeper, address('/club'));
    await keeper.getByText('Nobody shows a line to the club yet.').waitFor();
    await settleAt(owner, address(`/lines/${ids['line']}`));
    await owner.getByLabel('Shown to the club').click();
    await expect.poll(() => owner.getByLabel('Shown to the club').isChecked()).toBe(true);
    expect(await faultsAsWide(owner)).toEqual([]);
    await settleAt(keeper, address(`/club?line=${ids['kept']}`));
    await keeper.getByRole('cell', { name: 'HOUSE Line HOUSE' }).waitFor();
    expect(await keeper.getByText('HOUSE-1').count()).toBe(0);
    expect(await faultsAsWide(keeper)).toEqual([]);
  });

  it('takes a request, which is answered and leads to offering a fish', async () => {
    await keeper.getByRole('button', { name: 'Ask Journey keeper about HOUSE' }).click();
    const sheet = keeper.getByRole('dialog');
    await sheet.getByLabel('What you would like').selectOption('LOAN');
    await sheet.getByLabel(/^In your words/).fill('A male for one brood?');
    await sheet.getByRole('button', { name: 'Send' }).click();
    await keeper.getByText('waits for an answer').waitFor();
    await settleAt(owner, address('/today'));
    await owner.getByText('“A male for one brood?”').waitFor();
    await owner.getByRole('button', { name: 'Answer Solveig' }).click();
    await owner.getByLabel('A word with it').fill('Come on Sunday');
    expect(await faultsAsWide(owner)).toEqual([]);
    await owner.getByRole('button', { name: 'Send the answer' }).click();
    // It waits no more, so it is gone from today.
    await owner.getByRole('heading', { name: 'Asked in the club' }).waitFor({ state: 'detached' });
    await settleAt(owner, address('/club'));
    await owner.getByRole('button', { name: 'Choose the fish for Solveig' }).click();
    await owner.getByRole('link', { name: 'Offer HOUSE-1' }).click();
    await owner.getByRole('heading', { name: 'Hand over HOUSE-1' }).waitFor();
    await settleAt(keeper, address('/club'));
    await keeper.getByText('“Come on Sunday”').waitFor();
  });

  it('lets whoever may look comment, and the other read it', async () => {
    await settleAt(owner, address(`/lines/${ids['line']}`));
    await owner.getByRole('button', { name: 'Share with a partner' }).click();
    await owner.getByRole('dialog').getByRole('button', { name: 'Share the line' }).click();
    await owner.getByRole('button', { name: 'Change what Solveig sees' }).waitFor();
    // Their own lines are nobody else's to look at.
    expect(await owner.getByRole('button', { name: 'See what Solveig sees' }).count()).toBe(0);
    await settleAt(keeper, address(`/lines/${ids['line']}`));
    // Somebody else’s line is theirs to change and to share.
    for (const name of ['Correct', 'Share with a partner'])
      expect(await keeper.getByRole('button', { name }).count()).toBe(0);
    await settleAt(keeper, address(`/fish/${ids['fish']}`));
    for (const name of ['Decide', 'Correct', 'Record scores'])
      expect(await keeper.getByRole('button', { name }).count()).toBe(0);
    await keeper.getByRole('button', { name: 'Comment' }).click();
    await keeper
      .getByRole('dialog')
      .getByLabel(/^Comment/)
      .fill('A fine broad male');
    await keeper.getByRole('button', { name: 'Write it' }).click();
    await keeper.getByText('A fine broad male').waitFor();
    expect(await faultsAsWide(keeper)).toEqual([]);
    await settleAt(owner, address(`/fish/${ids['fish']}`));
    await owner.getByText('A fine broad male').waitFor();
    expect(await owner.getByText(/^Solveig, /).count()).toBe(1);
  });
});
