import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASSWORD, type RunningApi, startApi } from './harness.js';
import { creation } from '../new-records.js';

const code = (answer: {
  errors?: readonly { extensions: { code: string } }[];
}): string | undefined => answer.errors?.[0]?.extensions.code;

describe('the session', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ signedIn: false });
  });
  afterAll(() => api.close());

  it('asks for set-up first, and answers nothing else without a session', async () => {
    const { session } = await api.graphql<{ session: { setUpNeeded: boolean; signedIn: boolean } }>(
      '{ session { setUpNeeded signedIn } }',
    );
    expect(session).toEqual({ setUpNeeded: true, signedIn: false });
    expect(code(await api.send('{ lines { id } }'))).toBe('SIGN_IN_NEEDED');
    const input = { code: 'A', name: 'A' };
    expect(code(await api.send(creation('createLine'), { input }))).toBe('SIGN_IN_NEEDED');
    expect((await api.http('/export/pedigree.csv')).status).toBe(401);
  });

  it('refuses a short password by its length', async () => {
    const answer = await api.send(
      'mutation { setUp(input: {personName: "A", password: "short"}) { signedIn } }',
    );
    expect(code(answer)).toBe('VALIDATION');
    expect(answer.errors?.[0]?.message).toContain('5 characters');
  });

  it('sets up once, signs out and in again, with an HttpOnly SameSite cookie', async () => {
    const response = await api.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        query: `mutation { setUp(input: {personName: "A", password: "${PASSWORD}"}) { signedIn person { name } } }`,
      }),
    });
    expect(response.headers.get('set-cookie')).toMatch(/HttpOnly; SameSite=Strict/);
    expect(await response.json()).toEqual({
      data: { setUp: { signedIn: true, person: { name: 'A' } } },
    });
    expect(
      code(
        await api.send(
          `mutation { setUp(input: {personName: "B", password: "${PASSWORD}"}) { signedIn } }`,
        ),
      ),
    ).toBe('SET_UP_DONE');
    await api.graphql('mutation { signOut { signedIn } }');
    expect(code(await api.send('{ lines { id } }'))).toBe('SIGN_IN_NEEDED');
    expect(
      code(await api.send('mutation { signIn(password: "not the password") { signedIn } }')),
    ).toBe('PASSWORD_WRONG');
    await api.graphql(`mutation { signIn(password: "${PASSWORD}") { signedIn } }`);
    expect(await api.graphql('{ lines { id } }')).toEqual({ lines: [] });
  });

  it('does not load the demo over records, nor open it with a foreign Host header', async () => {
    expect(code(await api.send('mutation { loadDemo { signedIn } }'))).toBe('DATABASE_NOT_EMPTY');
    expect(
      code(await api.send('mutation { clearDemo(confirm: "clear the demo") { signedIn } }')),
    ).toBe('NOT_FOUND');
  });

  it('changes the password only for who knows the old one, and ends other sessions', async () => {
    const other = await fetch(`${api.url}/graphql`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ query: `mutation { signIn(password: "${PASSWORD}") { signedIn } }` }),
    });
    const cookie = other.headers.get('set-cookie')?.split(';')[0] ?? '';
    const asOther = async (): Promise<unknown> => {
      const response = await fetch(`${api.url}/graphql`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', cookie },
        body: JSON.stringify({ query: '{ session { signedIn } }' }),
      });
      return response.json();
    };
    expect(await asOther()).toEqual({ data: { session: { signedIn: true } } });
    const change = (current: string, password: string) =>
      api.send(
        'mutation ($current: String, $password: String!) { setPassword(current: $current, password: $password) { signedIn } }',
        { current, password },
      );
    expect(code(await change('not the old one', 'another-long-password'))).toBe('PASSWORD_WRONG');
    expect(code(await change(PASSWORD, 'short'))).toBe('VALIDATION');
    expect(await change(PASSWORD, 'another-long-password')).toEqual({
      data: { setPassword: { signedIn: true } },
    });
    expect(await asOther()).toEqual({ data: { session: { signedIn: false } } });
    expect(await change('another-long-password', PASSWORD)).toEqual({
      data: { setPassword: { signedIn: true } },
    });
  });

  it('holds back an address after ten refusals, in the database, so that every process knows', async () => {
    api.forgetSession();
    const codes: (string | undefined)[] = [];
    // Two were refused above.
    for (let i = 0; i < 9; i++)
      codes.push(code(await api.send('mutation { signIn(password: "wrong again") { signedIn } }')));
    expect(codes.slice(0, 8)).toEqual(Array.from({ length: 8 }, () => 'PASSWORD_WRONG'));
    expect(codes[8]).toBe('TOO_MANY_ATTEMPTS');
    expect(code(await api.send(`mutation { signIn(password: "${PASSWORD}") { signedIn } }`))).toBe(
      'TOO_MANY_ATTEMPTS',
    );
  });
});

describe('a server that other machines can reach', () => {
  it('does not start on a demo without a password, and says how to give one', async () => {
    const dataDir = mkdtempSync(join(tmpdir(), 'linewright-open-'));
    chmodSync(dataDir, 0o755);
    const here = await startApi({ demo: true, environment: { DATA_DIR: dataDir } });
    const started = (environment: Record<string, string>): Promise<RunningApi> =>
      startApi({
        signedIn: false,
        environment: { ...environment, DATABASE_URL: here.served.databaseUrl },
      });
    await expect(started({ HOST: '0.0.0.0' })).rejects.toThrow(/HOST is.*OWNER_PASSWORD/);
    // Behind a proxy on the same machine the address listened on says nothing.
    await expect(started({ TRUST_PROXY: '1' })).rejects.toThrow(/TRUST_PROXY is.*OWNER_PASSWORD/);
    await here.close();
    rmSync(dataDir, { recursive: true, force: true });
  });
});
