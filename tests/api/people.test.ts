import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASSWORD, recordsOf, type RunningApi, startApi } from './harness.js';
import { type Browser, newBrowser } from './other-browser.js';
import { creation } from '../new-records.js';

const INVITE = `mutation ($input: InvitePersonInput!) { invitePerson(input: $input) {
  path expiresAt account { joined invitedUntil role person { id name } } } }`;
const ACCEPT =
  'mutation ($input: AcceptInvitationInput!) { acceptInvitation(input: $input) { signedIn role person { id name here } } }';
const OPENED = 'query ($token: String!) { invitation(token: $token) { name ownerName } }';
const SIGN_IN =
  'mutation ($name: String, $password: String!) { signIn(name: $name, password: $password) { role person { name } } }';
const LINK_SHUT =
  'This link does not open: it was used, it has ended, or part of it is missing. Ask for a new one.';

interface Invited {
  readonly invitePerson: { path: string; account: { person: { id: string } } };
}

let api: RunningApi;
let owner: Browser;

const invited = async (name: string, role = 'PARTNER'): Promise<{ token: string; id: string }> => {
  const { invitePerson } = await api.graphql<Invited>(INVITE, { input: { name, role } });
  return { token: invitePerson.path.replace('/join#', ''), id: invitePerson.account.person.id };
};

/** Invites somebody and has them come in, in a browser of their own. */
const joined = async (name: string, role = 'PARTNER'): Promise<Browser & { id: string }> => {
  const { token, id } = await invited(name, role);
  const browser = newBrowser(api);
  expect(
    (await browser.send(ACCEPT, { input: { token, password: `${name} likes ten ponds` } })).errors,
  ).toBe(undefined);
  return { ...browser, id };
};

const codeOf = ({ errors }: { errors?: readonly { extensions: { code: string } }[] }) =>
  errors?.[0]?.extensions.code;

beforeAll(async () => {
  api = await startApi();
  owner = api;
});
afterAll(() => api.close());

describe('an invitation', () => {
  it('lets somebody in once, by a password of their own, and its token is stored nowhere', async () => {
    const { token, id } = await invited('Runa');
    const runa = newBrowser(api);
    expect((await runa.send(OPENED, { token })).data).toEqual({
      invitation: { name: 'Runa', ownerName: 'Test keeper' },
    });
    const records = await recordsOf(api);
    const [kept] = (await records.query(
      'SELECT row_to_json(i)::text AS text FROM invitation i',
    )) as {
      text: string;
    }[];
    expect(kept?.text).not.toContain(token);
    const weak = await runa.send(ACCEPT, { input: { token, password: 'password12' } });
    expect(codeOf(weak)).toBe('VALIDATION');
    const input = { token, password: 'three green snails' };
    expect((await runa.send(ACCEPT, { input })).data).toEqual({
      acceptInvitation: {
        signedIn: true,
        role: 'PARTNER',
        person: { id, name: 'Runa', here: false },
      },
    });
    for (const [query, variables] of [
      [ACCEPT, { input }],
      [OPENED, { token }],
      [OPENED, { token: 'none' }],
    ] as const) {
      const again = await newBrowser(api).send(query, variables);
      expect([codeOf(again), again.errors?.[0]?.message]).toEqual(['NOT_FOUND', LINK_SHUT]);
    }
  });

  it('ends with its day, and when a new link is made', async () => {
    const { token, id } = await invited('Tove');
    const renew = `mutation ($id: ID!) { renewInvitation(personId: $id) { path } }`;
    const { renewInvitation } = await api.graphql<{ renewInvitation: { path: string } }>(renew, {
      id,
    });
    expect(codeOf(await owner.send(OPENED, { token }))).toBe('NOT_FOUND');
    const later = renewInvitation.path.replace('/join#', '');
    expect(codeOf(await owner.send(OPENED, { token: later }))).toBe(undefined);
    const records = await recordsOf(api);
    await records.query(`UPDATE invitation SET expires_at = expires_at - interval '8 days'`);
    const input = { token: later, password: 'three green snails' };
    expect(codeOf(await newBrowser(api).send(ACCEPT, { input }))).toBe('NOT_FOUND');
  });

  it('of two who open it at once, lets one in', async () => {
    const { token } = await invited('Twice');
    const input = { token, password: 'three green snails' };
    const answers = await Promise.all([1, 2, 3].map(() => newBrowser(api).send(ACCEPT, { input })));
    expect(answers.map(codeOf).sort()).toEqual(['NOT_FOUND', 'NOT_FOUND', undefined]);
  });

  it('is refused for a name that signs in already, whatever its capitals, and for a second owner', async () => {
    await invited('Arne');
    for (const input of [
      { name: ' ARNE ', role: 'PARTNER' },
      { name: 'test KEEPER', role: 'HOUSEHOLD' },
      { name: 'Second', role: 'OWNER' },
    ])
      expect(codeOf(await owner.send(INVITE, { input }))).toBe('VALIDATION');
  });

  it('is the owner’s alone to make', async () => {
    const partner = await joined('Pelle');
    const household = await joined('Hanna', 'HOUSEHOLD');
    for (const browser of [partner, household])
      for (const [query, variables] of [
        [INVITE, { input: { name: 'More', role: 'PARTNER' } }],
        ['{ accounts { joined } }', {}],
        ['mutation ($id: ID!) { endAccount(personId: $id) { joined } }', { id: partner.id }],
        ['mutation ($id: ID!) { renewInvitation(personId: $id) { path } }', { id: partner.id }],
      ] as const)
        expect(codeOf(await browser.send(query, variables))).toBe('NOT_ALLOWED');
  });
});

describe('signing in', () => {
  it('takes a name and a password, and refuses a wrong name like a wrong password', async () => {
    await joined('Siri');
    const browser = newBrowser(api);
    const right = { name: 'siri', password: 'Siri likes ten ponds' };
    expect((await browser.send(SIGN_IN, right)).data).toEqual({
      signIn: { role: 'PARTNER', person: { name: 'Siri' } },
    });
    const wrong = await browser.send(SIGN_IN, { ...right, password: 'Siri likes no ponds' });
    const nobody = await browser.send(SIGN_IN, { ...right, name: 'Nobody' });
    expect(codeOf(wrong)).toBe('PASSWORD_WRONG');
    expect(nobody).toEqual(wrong);
    const asOwner = await newBrowser(api).send(SIGN_IN, { password: PASSWORD });
    expect(asOwner.data).toEqual({ signIn: { role: 'OWNER', person: { name: 'Test keeper' } } });
    // One person's password opens nobody else's account.
    expect(codeOf(await browser.send(SIGN_IN, { name: 'Siri', password: PASSWORD }))).toBe(
      'PASSWORD_WRONG',
    );
  });
});

describe('sessions', () => {
  const SESSIONS = '{ openSessions { id device current } }';
  interface Sessions {
    readonly openSessions: readonly { id: string; device: string; current: boolean }[];
  }

  it('are listed with their device and ended one by one, by whose they are', async () => {
    const first = await joined('Gro');
    const phone = newBrowser(api, 'Mozilla/5.0 (Android 14; Mobile; rv:130.0) Firefox/130.0');
    await phone.send(SIGN_IN, { name: 'Gro', password: 'Gro likes ten ponds' });
    const listed = (await first.send(SESSIONS)).data as unknown as Sessions;
    expect(listed.openSessions.map(({ device, current }) => [device, current])).toEqual([
      ['', true],
      ['Firefox on Android', false],
    ]);
    const end = 'mutation ($id: ID!) { endSession(id: $id) { current } }';
    const id = listed.openSessions[1]?.id;
    // Nobody ends another's, the owner included.
    expect(codeOf(await owner.send(end, { id }))).toBe('NOT_FOUND');
    expect((await first.send(end, { id })).data).toEqual({ endSession: [{ current: true }] });
    expect(codeOf(await phone.send(SESSIONS))).toBe('SIGN_IN_NEEDED');
    expect(codeOf(await first.send(SESSIONS))).toBe(undefined);
  });
});

describe('signing out', () => {
  it('ends the session and has the browser forget the pictures that it kept', async () => {
    await joined('Una');
    const unas = newBrowser(api);
    await unas.send(SIGN_IN, { name: 'Una', password: 'Una likes ten ponds' });
    const out = await unas.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ query: 'mutation { signOut { signedIn } }' }),
    });
    expect(out.headers.get('clear-site-data')).toBe('"cache"');
    expect(await out.json()).toEqual({ data: { signOut: { signedIn: false } } });
    expect(codeOf(await unas.send('{ openSessions { id } }'))).toBe('SIGN_IN_NEEDED');
  });
});

describe('somebody of the household', () => {
  it('keeps the owner’s records under a name of their own', async () => {
    const household = await joined('Liv', 'HOUSEHOLD');
    const made = await household.send(creation('createLine', 'id person { here }'), {
      input: { code: 'LIV', name: 'By Liv' },
    });
    expect(made.errors?.[0]?.message ?? null).toBe(null);
    expect(made.data).toMatchObject({ createLine: { person: { here: true } } });
    const records = await recordsOf(api);
    expect(
      await records.query(
        `SELECT by_name AS name, by_account_id AS id FROM record_history ORDER BY sequence DESC LIMIT 1`,
      ),
    ).toEqual([{ name: 'Liv', id: household.id }]);
    expect(codeOf(await household.send('mutation { makeBackup { underWay } }'))).toBe(
      'NOT_ALLOWED',
    );
    expect(codeOf(await household.send('mutation { clearDemo(confirm: "x") { signedIn } }'))).toBe(
      'NOT_ALLOWED',
    );
  });
});

describe('a file taken in by somebody of the household', () => {
  it('is theirs in every history, and its records are the owner’s, of a long file too', async () => {
    const own = await startApi({ environment: { LONG_FROM_FISH: '5' } });
    try {
      const { invitePerson } = await own.graphql<Invited>(INVITE, {
        input: { name: 'Siv', role: 'HOUSEHOLD' },
      });
      const siv = newBrowser(own);
      const token = invitePerson.path.replace('/join#', '');
      await siv.send(ACCEPT, { input: { token, password: 'Siv likes ten ponds' } });
      const csv = (prefix: string, fish: number): string =>
        ['tag,spread', ...Array.from({ length: fish }, (_, k) => `${prefix}-${k},150`)].join('\n');
      const begin = `mutation ($input: BeginImportInput!) { beginImport(input: $input) { computation { id } } }`;
      for (const [prefix, fish] of [
        ['SHORT', 2],
        ['LONG', 9],
      ] as const) {
        const input = { id: crypto.randomUUID(), purpose: 'TAKE', fileName: 'f.csv' };
        const { errors } = await siv.send(begin, { input: { ...input, text: csv(prefix, fish) } });
        expect(errors).toBe(undefined);
      }
      const records = await recordsOf(own);
      const taken = async (): Promise<number> =>
        ((await records.query('SELECT 1 FROM past_import')) as object[]).length;
      await expect.poll(taken, { timeout: 60_000 }).toBe(2);
      const by = await records.query(
        `SELECT DISTINCT by_name AS name, by_account_id AS id FROM record_history
         UNION SELECT by_name, by_account_id FROM past_import UNION SELECT scorer, by_account_id FROM score`,
      );
      expect(by).toEqual([{ name: 'Siv', id: invitePerson.account.person.id }]);
      const whose = await records.query(
        'SELECT DISTINCT p.here FROM fish f JOIN person p ON p.id = f.person_id',
      );
      expect(whose).toEqual([{ here: true }]);
    } finally {
      await own.close();
    }
  });
});

describe('somebody who leaves', () => {
  it('loses every session and the way in, and stays a name', async () => {
    const leaving = await joined('Odd');
    const end = 'mutation ($id: ID!) { endAccount(personId: $id) { person { name } } }';
    const { endAccount } = await api.graphql<{ endAccount: { person: { name: string } }[] }>(end, {
      id: leaving.id,
    });
    expect(endAccount.map(({ person }) => person.name)).not.toContain('Odd');
    expect(codeOf(await leaving.send('{ openSessions { id } }'))).toBe('SIGN_IN_NEEDED');
    const again = { name: 'Odd', password: 'Odd likes ten ponds' };
    expect(codeOf(await newBrowser(api).send(SIGN_IN, again))).toBe('PASSWORD_WRONG');
    const { people } = await api.graphql<{ people: { name: string }[] }>('{ people { name } }');
    expect(people.map(({ name }) => name)).toContain('Odd');
    // The same person may come back.
    const back = await owner.send(INVITE, {
      input: { name: 'Odd', role: 'PARTNER', personId: leaving.id },
    });
    expect(back.errors).toBe(undefined);
    const [self] = (
      await api.graphql<{ accounts: { person: { id: string } }[] }>(
        '{ accounts { person { id } } }',
      )
    ).accounts;
    expect(codeOf(await owner.send(end, { id: self?.person.id }))).toBe('NOT_ALLOWED');
  });
});
