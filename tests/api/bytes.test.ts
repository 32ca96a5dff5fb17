import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { get, type IncomingHttpHeaders } from 'node:http';
import { fileURLToPath } from 'node:url';
import { brotliDecompressSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';

const viewer = fileURLToPath(new URL('../../apps/viewer/dist', import.meta.url));
/** What the pages load before any of them shows, and what the largest screen adds to that, as they go over the network. */
const FIRST = 285_000;
const SCREEN = 150_000;
/** An address kept for documentation: some other machine's. */
const OTHER_MACHINE = '192.0.2.7';

interface Got {
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

/** Asks as a browser does, and takes the answer as it came over the network. */
const got = (url: string, from: string | null, headers: Record<string, string> = {}) =>
  new Promise<Got>((resolve, reject) => {
    const asked = { 'accept-encoding': 'gzip, deflate, br', accept: 'text/html,*/*' };
    const sender = from === null ? {} : { 'x-forwarded-for': from };
    get(url, { headers: { ...asked, ...sender, ...headers } }, (answer) => {
      const parts: Buffer[] = [];
      answer.on('data', (part: Buffer) => parts.push(part));
      answer.on('end', () => resolve({ headers: answer.headers, body: Buffer.concat(parts) }));
    }).on('error', reject);
  });

const sent = (file: string): number => {
  const path = `${viewer}/assets/${file}`;
  return statSync(existsSync(`${path}.br`) ? `${path}.br` : path).size;
};
const allSent = (files: ReadonlySet<string>): number =>
  [...files].reduce((bytes, file) => bytes + sent(file), 0);

/** Scripts and all that they load at once, without what they load later. */
const loadedBy = (files: Iterable<string>, loaded = new Set<string>()): Set<string> => {
  for (const file of files) {
    if (loaded.has(file)) continue;
    loaded.add(file);
    if (!file.endsWith('.js')) continue;
    const text = readFileSync(`${viewer}/assets/${file}`, 'utf8');
    const imports = text.matchAll(/(?:from|import)\s*"\.\/([^"]+\.js)"/g);
    loadedBy(
      Array.from(imports, ([, name]) => name!),
      loaded,
    );
  }
  return loaded;
};
const inPage = (): string[] =>
  Array.from(
    readFileSync(`${viewer}/index.html`, 'utf8').matchAll(/assets\/([^"]+\.(?:js|css))/g),
    ([, name]) => name!,
  );

describe('what goes over the network', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
    api.served.app.set('trust proxy', 1);
  });
  afterAll(() => api.close());

  it('is compressed for another machine and plain for this one', async () => {
    const plain = await got(`${api.url}/fish`, null);
    const small = await got(`${api.url}/fish`, OTHER_MACHINE);
    expect(plain.headers['content-encoding']).toBeUndefined();
    expect(small.headers['content-encoding']).toBe('br');
    expect(small.body.length).toBeLessThan(plain.body.length);
    expect(brotliDecompressSync(small.body).toString()).toBe(plain.body.toString());
  });

  it('is compressed where it is what the records say', async () => {
    const ask = (headers: Record<string, string>): Promise<Response> =>
      api.http('/graphql', {
        method: 'POST',
        headers: { 'content-type': 'application/json', ...headers },
        body: JSON.stringify({ query: '{ loci { id name alleles { symbol name } } }' }),
      });
    const [plain, small] = [await ask({}), await ask({ 'x-forwarded-for': OTHER_MACHINE })];
    expect(plain.headers.get('content-encoding')).toBeNull();
    expect(small.headers.get('content-encoding')).toBe('gzip');
    const text = await plain.text();
    expect(text).toContain('"alleles"');
    expect(await small.text()).toBe(text);
  });

  it('is a file of the pages once and for all, as it was compressed when they were built', async () => {
    const file = inPage().find((name) => name.endsWith('.js'))!;
    const { headers, body } = await got(`${api.url}/assets/${file}`, null);
    expect(headers['cache-control']).toBe('public,max-age=31536000,immutable');
    expect(headers['content-type']).toMatch(/javascript/);
    expect(headers['content-encoding']).toBe('br');
    expect(body.length).toBe(sent(file));
    expect(brotliDecompressSync(body).equals(readFileSync(`${viewer}/assets/${file}`))).toBe(true);
  });

  it.each(['/', '/fish', '/sw.js', '/manifest.webmanifest'])(
    'is asked for each time: %s',
    async (path) => {
      const { headers, body } = await got(`${api.url}${path}`, null);
      expect(headers['cache-control']).toBe('no-cache');
      expect(body.length).toBeGreaterThan(100);
      const again = await got(`${api.url}${path}`, null, { 'if-none-match': headers.etag! });
      expect(again.body.length).toBe(0);
    },
  );

  it('stays within what a phone loads', () => {
    const first = loadedBy(inPage());
    expect(allSent(first)).toBeLessThan(FIRST);
    const screens = readdirSync(`${viewer}/assets`).filter((name) => /-screen-.*\.js$/.test(name));
    expect(screens.length).toBeGreaterThan(20);
    const large = screens.flatMap((screen) => {
      const more = [...loadedBy([screen])].filter((file) => !first.has(file));
      const bytes = allSent(new Set(more));
      return bytes > SCREEN ? [`${screen}: ${bytes}`] : [];
    });
    expect(large).toEqual([]);
  });
});
