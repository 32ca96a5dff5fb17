import { X509Certificate } from 'node:crypto';
import { request as requestPlain } from 'node:http';
import { request } from 'node:https';
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import multicastDns from 'multicast-dns';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { AccountsService } from '../../apps/api/src/accounts/accounts.service.js';
import { announceHomeName } from '../../apps/api/src/home-network/home-name.js';
import { backUp, restore } from './back-up.js';
import { readZip } from './backup-files.js';
import { recordsOf, PASSWORD, type RunningApi, startApi } from './harness.js';

const STATE = `chosen barred problem open { port fingerprint certificateUntil nameTaken
  addresses { address name setUpAddress qr { size } } }`;
const CHOOSE = `mutation ($open: Boolean!) { chooseHomeNetwork(open: $open) { ${STATE} } }`;
const ASK = `{ homeNetwork { ${STATE} } }`;

interface State {
  chosen: boolean;
  barred: string | null;
  problem: string | null;
  open: {
    port: number;
    fingerprint: string;
    addresses: { address: string; name: boolean; setUpAddress: string }[];
  } | null;
}

interface Answer {
  status: number;
  body: Buffer;
  headers: Record<string, unknown>;
}

interface Sent {
  port: number;
  path?: string;
  /** The authority that is trusted; none: over plain HTTP. */
  trusts?: string;
  name?: string;
  json?: object;
  headers?: Record<string, string>;
}

/** As a phone asks: under a name, over TLS that has to be good, or over plain HTTP. */
const ask = ({ port, path = '/', trusts, name = 'linewright.local', json, headers }: Sent) =>
  new Promise<Answer>((resolve, reject) => {
    const options = {
      ...{ host: '127.0.0.1', port, path, method: json === undefined ? 'GET' : 'POST' },
      headers: {
        ...{ host: `${name}:${port}`, accept: '*/*', connection: 'close' },
        ...(json !== undefined && { 'content-type': 'application/json' }),
        ...headers,
      },
    };
    const take = (response: import('node:http').IncomingMessage): void => {
      const pieces: Buffer[] = [];
      response.on('data', (piece: Buffer) => pieces.push(piece));
      response.on('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          body: Buffer.concat(pieces),
          headers: response.headers,
        }),
      );
    };
    const sent =
      trusts === undefined
        ? requestPlain(options, take)
        : request({ ...options, ca: trusts, servername: name }, take);
    sent.on('error', reject);
    sent.end(json === undefined ? undefined : JSON.stringify(json));
  });

const authorityOver = async (port: number): Promise<string> => {
  const { body, headers } = await ask({ port, path: '/house.crt' });
  expect(headers['content-type']).toBe('application/x-x509-ca-cert');
  return new X509Certificate(body).toString();
};

const until = async (holds: () => Promise<boolean>): Promise<void> => {
  while (!(await holds())) await new Promise((resolve) => setTimeout(resolve, 100));
};

const stateOf = async (api: RunningApi): Promise<State> =>
  (await api.graphql<{ homeNetwork: State }>(ASK)).homeNetwork;

describe('the home network of an install with a password', () => {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-home-'));
  let api: RunningApi;
  const choose = async (open: boolean): Promise<State> =>
    (await api.graphql<{ chooseHomeNetwork: State }>(CHOOSE, { open })).chooseHomeNetwork;
  const further = async (): Promise<RunningApi> => {
    const { url } = (await recordsOf(api)).options as unknown as { url: string };
    const other = await startApi({
      signedIn: false,
      environment: { DATABASE_URL: url, DATA_DIR: join(folder, 'second') },
    });
    await other.graphql('mutation ($p: String!) { signIn(password: $p) { signedIn } }', {
      p: PASSWORD,
    });
    return other;
  };
  beforeAll(async () => {
    api = await startApi({ environment: { DATA_DIR: folder } });
  });
  afterAll(async () => {
    await api.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('is closed until it is opened, and makes no certificate before', async () => {
    expect(await stateOf(api)).toMatchObject({ chosen: false, barred: null, open: null });
    expect(readdirSync(folder)).not.toContain('certificate');
    const { status } = await ask({ port: Number(new URL(api.url).port), name: 'linewright.local' });
    expect(status).toBe(421);
  });

  it('opens at once: over TLS the install, over plain HTTP only how a phone is taught', async () => {
    const { open, problem } = await choose(true);
    expect(problem).toBeNull();
    const port = open!.port;
    expect(open!.addresses[0]).toMatchObject({
      address: `https://linewright.local:${port}`,
      setUpAddress: `http://linewright.local:${port}`,
      name: true,
    });
    const trusts = await authorityOver(port);
    expect(new X509Certificate(trusts).fingerprint256.replaceAll(':', ' ')).toBe(open!.fingerprint);
    expect(statSync(join(folder, 'certificate', 'house-authority.pem')).mode & 0o777).toBe(0o600);

    const session = await ask({
      port,
      trusts,
      path: '/graphql',
      json: { query: '{ session { loopback signedIn } }' },
    });
    expect(JSON.parse(session.body.toString())).toEqual({
      data: { session: { loopback: false, signedIn: false } },
    });
    const signedIn = await ask({
      ...{ port, trusts, path: '/graphql' },
      json: { query: `mutation { signIn(password: "${PASSWORD}") { signedIn } }` },
    });
    expect(String(signedIn.headers['set-cookie'])).toMatch(/; Secure/);

    const plain = await ask({ port, path: '/fish' });
    expect(plain.body.toString()).toContain(open!.fingerprint);
    const asked = { query: '{ session { signedIn } }' };
    expect((await ask({ port, path: '/graphql', json: asked })).status).toBe(400);
  });

  it('answers to its names and addresses at home alone', async () => {
    const { port } = (await stateOf(api)).open!;
    const trusts = await authorityOver(port);
    const healthz = (name: string, headers = {}) =>
      ask({ port, trusts, path: '/healthz', name, headers });
    expect((await healthz('linewright.local')).status).toBe(200);
    expect((await healthz('localhost', { host: 'evil.local' })).status).toBe(421);
    const plain = await ask({ port, headers: { host: '"><script>' } });
    expect(plain.status).toBe(400);
  });

  it('is trusted by no phone that was not taught its certificate', async () => {
    const { port } = (await stateOf(api)).open!;
    const nobody: string[] = [];
    await expect(ask({ port, trusts: nobody as never })).rejects.toThrow(/self-signed/);
  });

  it('puts the address for phones on printed codes', async () => {
    const { port } = (await stateOf(api)).open!;
    const { printAddress } = await api.graphql<{ printAddress: object }>(
      '{ printAddress { address basis reachable } }',
    );
    expect(printAddress).toEqual({
      address: `https://linewright.local:${port}`,
      basis: 'HOME',
      reachable: true,
    });
  });

  it('goes into no backup: neither the key, nor the choice once it is restored', async () => {
    const file = await backUp(api, join(folder, 'backups'));
    const names = [...(await readZip(file)).entries()];
    expect(
      names.filter(([name, bytes]) => /certificate/.test(name) || bytes.includes('PRIVATE KEY')),
    ).toEqual([]);
    const fresh = await startApi({ signedIn: false });
    await restore(fresh, file);
    const [{ open }] = await (
      await recordsOf(fresh)
    ).query('SELECT home_network AS open FROM install_state');
    expect(open).toBe(false);
    await fresh.close();
  });

  it('is seen by a second process, open at its start and closed when the first closes it', async () => {
    const second = await further();
    const there = await stateOf(second);
    expect(there).toMatchObject({ chosen: true, problem: null });
    expect((await ask({ port: there.open!.port })).status).toBe(200);
    const { port } = (await stateOf(api)).open!;
    await choose(false);
    await expect(ask({ port })).rejects.toThrow(/ECONNREFUSED/);
    await until(async () => (await stateOf(second)).open === null);
    await expect(ask({ port: there.open!.port })).rejects.toThrow(/ECONNREFUSED/);
    await second.close();
  });

  it('says which port is taken, and opens once it is free', async () => {
    const second = await further();
    await second.graphql(CHOOSE, { open: true });
    await until(async () => (await stateOf(api)).open !== null);
    const { port } = (await stateOf(api)).open!;
    const { url } = (await recordsOf(api)).options as unknown as { url: string };
    const third = await startApi({
      signedIn: false,
      environment: { DATABASE_URL: url, HOME_PORT: String(port) },
    });
    await third.graphql('mutation ($p: String!) { signIn(password: $p) { signedIn } }', {
      p: PASSWORD,
    });
    expect((await stateOf(third)).problem).toContain(`Port ${port} is taken`);
    await choose(false);
    await Promise.all([second.close(), third.close()]);
  });
});

describe('the home network of others', () => {
  it('is not opened while there is no password, nor behind a proxy', async () => {
    const open = await startApi();
    const records = await recordsOf(open);
    await records.query('DELETE FROM credential');
    const { errors } = await open.send(CHOOSE, { open: true });
    expect(errors?.[0]?.extensions.code).toBe('PASSWORD_FIRST');
    // Chosen while there was one: without a password it stays shut.
    await records.query('UPDATE install_state SET home_network = true');
    expect(await stateOf(open)).toMatchObject({ chosen: true, open: null });
    expect((await stateOf(open)).barred).toContain('password');
    await open.close();

    const proxied = await startApi({
      environment: { TRUST_PROXY: '1', PUBLIC_ADDRESS: 'http://127.0.0.1', PLAIN_HTTP: '1' },
      signedIn: false,
    });
    const { firstStartCode } = proxied.served.app.get(AccountsService, { strict: false });
    await proxied.graphql('mutation ($input: SetUpInput!) { setUp(input: $input) { signedIn } }', {
      input: { personName: 'Behind a proxy', password: PASSWORD, code: firstStartCode },
    });
    expect((await proxied.send(CHOOSE, { open: true })).errors?.[0]?.message).toContain('proxy');
    await proxied.close();
  });
});

describe('the name at home', () => {
  it('is answered with the addresses of this machine, until it is stopped', async () => {
    const port = 20_000 + (process.pid % 20_000);
    const announced = announceHomeName({
      addresses: () => ['192.168.77.7'],
      port,
      onFault: (error) => expect.unreachable(String(error)),
    });
    const phone = multicastDns({ port });
    const heard: { data: unknown; ttl: number }[] = [];
    phone.on('response', ({ answers = [] }) => {
      for (const answer of answers)
        if (answer.type === 'A' && answer.name === 'linewright.local')
          heard.push({ data: answer.data, ttl: answer.ttl ?? -1 });
    });
    await new Promise<void>((resolve) => phone.once('ready', () => resolve()));
    await until(async () => {
      phone.query('linewright.local', 'A');
      return Promise.resolve(heard.length > 0);
    });
    expect(heard[0]).toEqual({ data: '192.168.77.7', ttl: 120 });
    expect(announced.isTaken()).toBe(false);
    // Another machine that answers to it is noticed.
    phone.respond([{ name: 'linewright.local', type: 'A', ttl: 120, data: '192.168.77.8' }]);
    await until(() => Promise.resolve(announced.isTaken()));
    await announced.stop();
    await until(() => Promise.resolve(heard.some(({ ttl }) => ttl === 0)));
    await new Promise<void>((resolve) => phone.destroy(() => resolve()));
  });
});
