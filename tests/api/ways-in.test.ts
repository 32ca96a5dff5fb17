import { Secret, TOTP } from 'otpauth';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { now } from '../clock.js';
import { creation } from '../new-records.js';
import { type GraphqlAnswer, PASSWORD, recordsOf, type RunningApi, startApi } from './harness.js';
import { type Browser, newBrowser } from './other-browser.js';

const SIGN_IN =
  'mutation ($password: String!, $code: String) { signIn(password: $password, code: $code) { signedIn } }';
const OFFER =
  'mutation ($password: String!) { offerSecondStep(password: $password) { secret address qr { size path } } }';
const CONFIRM = 'mutation ($code: String!) { confirmSecondStep(code: $code) }';
const END =
  'mutation ($password: String!, $code: String!) { endSecondStep(password: $password, code: $code) { secondStep { since } } }';
const WAYS =
  '{ waysIn { secondStep { spareCodes } passkeys { name } tokens { id name mayRecord usedAt } } }';
const TOKEN =
  'mutation ($password: String!, $input: MakeTokenInput!) { makeToken(password: $password, input: $input) { secret token { id } } }';

let api: RunningApi;
const password = PASSWORD;
const codeOf = ({ errors }: GraphqlAnswer<unknown>): string | undefined =>
  errors?.[0]?.extensions.code;

beforeAll(async () => {
  api = await startApi();
});
afterAll(() => api.close());

const ways = async (): Promise<{
  secondStep: { spareCodes: number } | null;
  tokens: { id: string; name: string; mayRecord: boolean; usedAt: string | null }[];
}> => (await api.graphql<{ waysIn: never }>(WAYS)).waysIn;

describe('a second step', () => {
  let secret: string;
  let spare: string[];
  /** Right for half a minute at least. */
  const phone = (ahead = 0): string =>
    new TOTP({ secret: Secret.fromBase32(secret) }).generate({ timestamp: now() + ahead });
  const signIn = (code?: string): Promise<GraphqlAnswer<unknown>> =>
    newBrowser(api).send(SIGN_IN, { password, code });

  it('is offered to who knows the password, and counts only once a code was typed', async () => {
    expect(codeOf(await api.send(OFFER, { password: 'not the password' }))).toBe('PASSWORD_WRONG');
    const { offerSecondStep: offer } = await api.graphql<{
      offerSecondStep: { secret: string; address: string; qr: { size: number; path: string } };
    }>(OFFER, { password });
    secret = offer.secret;
    expect(new URL(offer.address).searchParams.get('secret')).toBe(secret);
    expect(offer.qr.path).toMatch(/^M4 4h7v1h-7z/);
    expect((await ways()).secondStep).toBe(null);
    expect(codeOf(await signIn())).toBe(undefined);
    expect(codeOf(await api.send(CONFIRM, { code: '000000x' }))).toBe('CODE_WRONG');
    const { confirmSecondStep } = await api.graphql<{ confirmSecondStep: string[] }>(CONFIRM, {
      code: phone(),
    });
    spare = confirmSecondStep;
    expect(new Set(spare).size).toBe(8);
    expect((await ways()).secondStep).toEqual({ spareCodes: 8 });
  });

  it('asks for a code that is right, and takes none twice', async () => {
    expect(codeOf(await signIn())).toBe('CODE_NEEDED');
    // The one that confirmed it is used up.
    expect(codeOf(await signIn(phone()))).toBe('CODE_WRONG');
    const code = phone(30_000);
    const both = await Promise.all([signIn(`${code.slice(0, 3)} ${code.slice(3)}`), signIn(code)]);
    expect(both.map(codeOf).sort()).toEqual(['CODE_WRONG', undefined]);
    // A wrong password learns nothing of codes.
    const wrong = { password: 'not the password', code };
    expect(codeOf(await newBrowser(api).send(SIGN_IN, wrong))).toBe('PASSWORD_WRONG');
  });

  it('takes each spare code once, however it is typed, and stores none', async () => {
    const [first = ''] = spare;
    expect(codeOf(await signIn(first.toLowerCase().replaceAll('-', ' ')))).toBe(undefined);
    expect(codeOf(await signIn(first))).toBe('CODE_WRONG');
    expect((await ways()).secondStep).toEqual({ spareCodes: 7 });
    const rows = await (
      await recordsOf(api)
    ).query('SELECT string_agg(code_hash, $1) AS text FROM spare_code', [' ']);
    for (const code of spare) expect(JSON.stringify(rows)).not.toContain(code);
    const renewed = await api.graphql<{ renewSpareCodes: string[] }>(
      'mutation ($password: String!) { renewSpareCodes(password: $password) }',
      { password },
    );
    expect(codeOf(await signIn(spare[1]))).toBe('CODE_WRONG');
    spare = renewed.renewSpareCodes;
  });

  it('is asked of one person, wherever they try from, some times only', async () => {
    const codes: (string | undefined)[] = [];
    for (let k = 0; k < 12; k++) codes.push(codeOf(await signIn('111111x')));
    expect(codes.at(-1)).toBe('TOO_MANY_ATTEMPTS');
    await (await recordsOf(api)).query(`DELETE FROM refused_attempt`);
  });

  it('is replaced only by who ends it, with the password and a code', async () => {
    expect(codeOf(await api.send(OFFER, { password }))).toBe('IN_USE');
    expect(codeOf(await api.send(END, { password, code: '000000x' }))).toBe('CODE_WRONG');
    expect(codeOf(await api.send(END, { password: 'not it at all', code: spare[0] }))).toBe(
      'PASSWORD_WRONG',
    );
    const ended = await api.graphql(END, { password, code: spare[0] });
    expect(ended).toEqual({ endSecondStep: { secondStep: null } });
    expect(codeOf(await signIn())).toBe(undefined);
  });
});

describe('a token of a program', () => {
  const made = async (input: object): Promise<{ program: Browser; id: string }> => {
    const { makeToken } = await api.graphql<{
      makeToken: { secret: string; token: { id: string } };
    }>(TOKEN, { password, input: { name: 'weighing scales', days: 30, ...input } });
    return { program: programWith(makeToken.secret), id: makeToken.token.id };
  };
  const programWith = (secret: string): Browser => {
    const headers = { 'content-type': 'application/json', authorization: `Bearer ${secret}` };
    return {
      http: (path) => fetch(`${api.url}${path}`, { headers }),
      send: async <Data>(query: string, variables: object = {}) => {
        const body = JSON.stringify({ query, variables });
        const answer = await fetch(`${api.url}/graphql`, { method: 'POST', headers, body });
        return (await answer.json()) as GraphqlAnswer<Data>;
      },
    };
  };
  const LINE = creation('createLine', 'id');
  const FISH = '{ fishList(first: 1) { edges { node { id } } } }';
  const EXPORT = '/export/fish.csv';

  it('reads, and records only where that was said', async () => {
    const { program } = await made({ mayRecord: false });
    expect(codeOf(await program.send(FISH))).toBe(undefined);
    expect((await program.http(EXPORT)).status).toBe((await api.http(EXPORT)).status);
    const line = { input: { code: 'TK', name: 'By token' } };
    const refused = await program.send(LINE, line);
    expect([codeOf(refused), refused.errors?.[0]?.message]).toEqual([
      'NOT_ALLOWED',
      'This token only reads: make one that may record, on the page "People".',
    ]);
    const recorder = await made({ mayRecord: true });
    expect(codeOf(await recorder.program.send(LINE, line))).toBe(undefined);
    expect(
      (await ways()).tokens.map(({ mayRecord, usedAt }) => [mayRecord, usedAt !== null]),
    ).toEqual([
      [true, true],
      [false, true],
    ]);
  });

  it('opens neither the account nor the install', async () => {
    const { program, id } = await made({ mayRecord: true });
    for (const [query, variables] of [
      [WAYS, {}],
      ['{ openSessions { id } }', {}],
      ['{ accounts { joined } }', {}],
      ['mutation { makeBackup { underWay } }', {}],
      ['mutation { signOut { signedIn } }', {}],
      [TOKEN, { password, input: { name: 'more', days: 1, mayRecord: true } }],
      ['mutation ($id: ID!) { endToken(id: $id) { tokens { id } } }', { id }],
    ] as const)
      expect([query, codeOf(await program.send(query, variables))]).toEqual([query, 'NOT_ALLOWED']);
  });

  it('is nowhere in the database, ends by hand and by its day, and is nobody else’s to end', async () => {
    const { program, id } = await made({ mayRecord: false });
    const end = 'mutation ($id: ID!) { endToken(id: $id) { tokens { name } } }';
    const records = await recordsOf(api);
    const { secret, token } = (
      await api.graphql<{ makeToken: { secret: string; token: { id: string } } }>(TOKEN, {
        ...{ password, input: { name: 'by its day', days: 1, mayRecord: false } },
      })
    ).makeToken;
    const [{ text }] = (await records.query(
      'SELECT string_agg(t::text, $1) AS text FROM program_token t',
      [' '],
    )) as [{ text: string }];
    expect(text).not.toContain(secret.slice(3));
    expect(codeOf(await programWith(secret).send(FISH))).toBe(undefined);
    await records.query(
      `UPDATE program_token SET expires_at = expires_at - interval '25 hours' WHERE id = $1`,
      [token.id],
    );
    expect(codeOf(await programWith(secret).send(FISH))).toBe('SIGN_IN_NEEDED');
    await api.graphql(end, { id });
    expect(codeOf(await program.send(FISH))).toBe('SIGN_IN_NEEDED');
    expect(codeOf(await api.send(end, { id }))).toBe('NOT_FOUND');
    expect(codeOf(await programWith('lw_none').send(FISH))).toBe('SIGN_IN_NEEDED');
  });

  it.each([
    [{ name: ' ' }, 'Say which program the token is for.'],
    [{ days: 0 }, 'A token lasts 1 to 366 days; 0 was given.'],
    [{ days: 367 }, 'A token lasts 1 to 366 days; 367 was given.'],
  ])('is refused with %j', async (wrong, message) => {
    const input = { name: 'scales', days: 30, mayRecord: false, ...wrong };
    const refused = await api.send(TOKEN, { password, input });
    expect([codeOf(refused), refused.errors?.[0]?.message]).toEqual(['VALIDATION', message]);
  });

  it('lets a partner’s program see what the partner sees', async () => {
    const { invitePerson } = await api.graphql<{ invitePerson: { path: string } }>(
      'mutation ($input: InvitePersonInput!) { invitePerson(input: $input) { path } }',
      { input: { name: 'Runa', role: 'PARTNER' } },
    );
    const runa = newBrowser(api);
    const own = 'three green snails';
    await runa.send(
      'mutation ($input: AcceptInvitationInput!) { acceptInvitation(input: $input) { signedIn } }',
      { input: { token: invitePerson.path.replace('/join#', ''), password: own } },
    );
    const { data } = await runa.send<{ makeToken: { secret: string } }>(TOKEN, {
      ...{ password: own, input: { name: 'scales', days: 2, mayRecord: true } },
    });
    const program = programWith(data?.makeToken.secret ?? '');
    expect(await program.send(FISH)).toEqual(await runa.send(FISH));
    expect(codeOf(await program.send(FISH))).toBe('NOT_ALLOWED');
  });
});

describe('a passkey', () => {
  it('needs an address with a name, and says which', async () => {
    const refused = await api.send('mutation { askPasskey { id } }');
    expect(codeOf(refused)).toBe('PASSKEY_REFUSED');
    expect(refused.errors?.[0]?.message).toContain(
      `open http://localhost:${new URL(api.url).port}`,
    );
  });

  it('that never was is refused, and its question is gone', async () => {
    const { port } = new URL(api.url);
    const named = async (query: string, variables: object = {}): Promise<GraphqlAnswer<never>> => {
      const answer = await fetch(`http://localhost:${port}/graphql`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ query, variables }),
      });
      return (await answer.json()) as GraphqlAnswer<never>;
    };
    const asked = (await named('mutation { askPasskey { id options } }')) as GraphqlAnswer<{
      askPasskey: { id: string; options: string };
    }>;
    const { id, options } = asked.data!.askPasskey;
    expect(JSON.parse(options)).toMatchObject({ rpId: 'localhost', userVerification: 'required' });
    const answers = ['{', '{}', JSON.stringify({ id: 'none', rawId: 'none', type: 'public-key' })];
    for (const answer of answers) {
      const refused = await named(
        'mutation ($input: PasskeyAnswerInput!) { signInWithPasskey(input: $input) { signedIn } }',
        { input: { id, answer } },
      );
      expect(codeOf(refused)).toBe('PASSKEY_REFUSED');
    }
    const left = await (await recordsOf(api)).query('SELECT 1 FROM passkey_challenge');
    expect(left).toEqual([]);
  });
});
