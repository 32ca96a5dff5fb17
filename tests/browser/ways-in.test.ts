import { mkdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Secret, TOTP } from 'otpauth';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { now } from '../clock.js';
import { startRecords } from './first-start.js';
import { type OpenPage, openPage } from './harness.js';
import { PHONE, screenFaults, settleAt } from './looking.js';

const folder = join(tmpdir(), 'linewright-pictures');
const PASSWORD = 'a-long-enough-password';

/** A keeper who has a phone for codes, a device with a passkey, and a program. */
describe('ways in beside the password', () => {
  let opened: OpenPage;
  let page: Page;
  let secret = '';
  let spare: string[] = [];

  beforeAll(async () => {
    mkdirSync(folder, { recursive: true });
    opened = await openPage({ viewport: { width: 1280, height: 900 } });
    page = opened.page;
  });
  afterAll(() => opened?.stop());

  /** A passkey is bound to a name, so the page is opened by one. */
  const address = (path: string): string =>
    `${opened.server.url.replace('127.0.0.1', 'localhost')}${path}`;
  const phone = (ahead = 0): string =>
    new TOTP({ secret: Secret.fromBase32(secret) }).generate({ timestamp: now() + ahead });
  const sheet = (): Locator => page.getByRole('dialog');
  const people = (): Promise<void> => settleAt(page, address('/people'));
  const signOut = async (): Promise<void> => {
    await page.context().clearCookies();
    await settleAt(page, address('/'));
  };
  const signIn = async (): Promise<void> => {
    await page.getByLabel(/^Password/).fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  };
  const inside = (): Promise<void> =>
    page.getByRole('heading', { name: 'Begin your book', level: 1 }).waitFor();
  const looked = async (name: string): Promise<void> => {
    expect(await screenFaults(page)).toEqual([]);
    await page.screenshot({ path: join(folder, `ways-in-${name}.png`), fullPage: true });
    await page.setViewportSize(PHONE);
    await page.emulateMedia({ colorScheme: 'dark' });
    await page.screenshot({ path: join(folder, `ways-in-${name}-phone.png`), fullPage: true });
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setViewportSize({ width: 1280, height: 900 });
  };

  it('asks for a code of the phone once one was typed', async () => {
    await page.goto(address('/'));
    await startRecords(page, 'Journey keeper', PASSWORD);
    await people();
    await page.getByRole('button', { name: 'Set up codes' }).click();
    await sheet()
      .getByLabel(/^Your password/)
      .fill('not the password');
    await sheet().getByRole('button', { name: 'Go on' }).click();
    await sheet()
      .getByText(/do not go together/)
      .waitFor();
    await sheet()
      .getByLabel(/^Your password/)
      .fill(PASSWORD);
    await sheet().getByRole('button', { name: 'Go on' }).click();
    secret = ((await sheet().locator('code').textContent()) ?? '').replaceAll(' ', '');
    await looked('offer');
    await sheet()
      .getByLabel(/^Code that/)
      .fill(phone());
    await sheet().getByRole('button', { name: 'Ask for codes from now on' }).click();
    await page.getByText('Spare codes, shown this once.').waitFor();
    spare = ((await page.getByRole('main').locator('code').first().textContent()) ?? '').split(
      '\n',
    );
    expect(spare).toHaveLength(8);
    await page.getByText(/8 spare codes are left/).waitFor();
    await looked('spare-codes');
  });

  it('signs in with the code, and tells a wrong one', async () => {
    await signOut();
    await signIn();
    const code = page.getByLabel(/^Code/);
    await code.waitFor();
    expect(await code.evaluate((field) => field === document.activeElement)).toBe(true);
    await looked('code');
    await code.fill('123456');
    await page.getByRole('button', { name: 'Sign in', exact: true }).click();
    await page.getByText(/That code is not right/).waitFor();
    await code.fill(phone(30_000));
    await page.getByRole('button', { name: 'Sign in', exact: true }).click();
    await inside();
  });

  it('signs in by a passkey that this device made, and no more once it is removed', async () => {
    const devices = await page.context().newCDPSession(page);
    await devices.send('WebAuthn.enable');
    await devices.send('WebAuthn.addVirtualAuthenticator', {
      options: {
        ...{ protocol: 'ctap2', transport: 'internal', hasResidentKey: true },
        ...{ hasUserVerification: true, isUserVerified: true, automaticPresenceSimulation: true },
      },
    });
    await people();
    await page.getByRole('button', { name: 'Add a passkey' }).click();
    await sheet()
      .getByLabel(/^Device/)
      .fill('Blue phone');
    await sheet()
      .getByLabel(/^Your password/)
      .fill(PASSWORD);
    await sheet().getByRole('button', { name: 'Make the passkey' }).click();
    await page.getByRole('cell', { name: 'Blue phone', exact: true }).waitFor();
    await page.getByRole('button', { name: 'Add a passkey' }).click();
    await sheet()
      .getByLabel(/^Device/)
      .fill('The same again');
    await sheet()
      .getByLabel(/^Your password/)
      .fill(PASSWORD);
    await sheet().getByRole('button', { name: 'Make the passkey' }).click();
    await sheet().getByText('This device has a passkey for you already.').waitFor();
    await signOut();
    await page.getByRole('button', { name: 'Sign in with a passkey' }).click();
    await inside();
    await people();
    await page.getByRole('button', { name: 'Remove the passkey Blue phone' }).click();
    await page
      .getByRole('cell', { name: 'Blue phone', exact: true })
      .waitFor({ state: 'detached' });
    await signOut();
    await page.getByRole('button', { name: 'Sign in with a passkey' }).click();
    await page.getByText(/That passkey was not taken/).waitFor();
    await signIn();
    await page.getByLabel(/^Code/).fill(spare[0] ?? '');
    await page.getByRole('button', { name: 'Sign in', exact: true }).click();
    await inside();
  });

  it('lets a program in by a token that is shown once', async () => {
    await people();
    await page.getByRole('button', { name: 'Make a token' }).click();
    await sheet()
      .getByLabel(/^For which program/)
      .fill('Weighing scales');
    await sheet()
      .getByLabel(/^Your password/)
      .fill(PASSWORD);
    await looked('token');
    await sheet().getByRole('button', { name: 'Make the token' }).click();
    await page.getByText(/The token for Weighing scales, shown this once/).waitFor();
    const token = (await page.getByText(/^lw_/).textContent()) ?? '';
    const ask = async (): Promise<unknown> => {
      const answer = await fetch(`${opened.server.url}/graphql`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', authorization: `Bearer ${token}` },
        body: '{"query":"{ lines { id } }"}',
      });
      return answer.json();
    };
    expect(await ask()).toEqual({ data: { lines: [] } });
    await looked('people');
    await page.getByRole('button', { name: 'End the token for Weighing scales' }).click();
    await page
      .getByRole('cell', { name: 'Weighing scales', exact: true })
      .waitFor({ state: 'detached' });
    expect(JSON.stringify(await ask())).toContain('SIGN_IN_NEEDED');
  });

  it('is ended with the password and a code', async () => {
    await page.getByRole('button', { name: 'End codes' }).click();
    await sheet()
      .getByLabel(/^Your password/)
      .fill(PASSWORD);
    await sheet()
      .getByLabel(/^Code of the phone/)
      .fill(spare[1] ?? '');
    await sheet().getByRole('button', { name: 'End codes' }).click();
    await page.getByRole('button', { name: 'Set up codes' }).waitFor();
    await signOut();
    await signIn();
    await inside();
    expect(opened.faults).toEqual([]);
  });
});
