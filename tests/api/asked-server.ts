import { expect } from 'vitest';
import { demoTemplate } from './harness.js';
import type { RealIds } from './hostile-values.js';
import type { UsableLocus } from './largest-work.js';
import { type Measured, type MeteredServer, startMetered } from './metered-server.js';

/**
 * Processor time of the main thread between two turns of its event loop. Alone nothing takes more than 200 ms; beside other tests on two
 * cores, which share their caches, the same work takes up to twice as much. What is worked out in the loop by mistake takes seconds.
 */
const LONGEST_STAND_MS = 400;
const MOST_MEMORY_MB = 600;

export interface Answer {
  readonly status: number;
  readonly codes: readonly string[];
  readonly text: string;
}

let server: MeteredServer;
let cookie = '';

/** The metered server of this file, on a demo of its own, and whoever asks it signed in there. */
export const startAsked = async (): Promise<MeteredServer> => {
  server = await startMetered(await demoTemplate());
  await signIn();
  return server;
};

export const stopAsked = (): Promise<void> => server.stop();

/** Asks without a session from now on. */
export const forgetSession = (): void => {
  cookie = '';
};

/** Headers of whoever asks. */
export const session = (): Record<string, string> => (cookie === '' ? {} : { cookie });

export const post = async (body: string, path = '/graphql'): Promise<Answer> => {
  const response = await fetch(`${server.url}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...session() },
    body,
  });
  const set = response.headers.get('set-cookie');
  if (set !== null) cookie = set.split(';')[0] ?? '';
  const text = await response.text();
  const { errors = [] } = (
    response.headers.get('content-type')?.includes('json') === true ? JSON.parse(text) : {}
  ) as { errors?: { extensions?: { code?: string } }[] };
  const codes = errors.map(({ extensions }) => extensions?.code ?? 'no code');
  return { status: response.status, codes, text };
};

export const signIn = async (): Promise<void> => {
  cookie = '';
  const opened = await post('{"query":"mutation { openDemo { signedIn } }"}');
  if (opened.codes.length > 0) await post('{"query":"mutation { loadDemo { signedIn } }"}');
};

const idsIn = async (query: string): Promise<string[]> =>
  [...(await post(JSON.stringify({ query }))).text.matchAll(/"id":"([^"]+)"/g)].map(
    ([, id]) => id ?? '',
  );

export const realIds = async (): Promise<RealIds> => ({
  males: await idsIn(
    '{ fishList(first: 200, filter: { sexes: [MALE] }) { edges { node { id } } } }',
  ),
  females: await idsIn(
    '{ fishList(first: 200, filter: { sexes: [FEMALE] }) { edges { node { id } } } }',
  ),
  fish: await idsIn('{ fishList(first: 200) { edges { node { id } } } }'),
  spawns: await idsIn('{ spawnList(first: 50) { edges { node { id } } } }'),
  lines: await idsIn('{ lines { id } }'),
  traits: await idsIn('{ traits { id } }'),
  sheets: await idsIn('{ scoreSheets { id } }'),
});

export const asked = async <Data>(query: string, variables: object = {}): Promise<Data> => {
  const { text, codes } = await post(JSON.stringify({ query, variables }));
  expect(codes, text).toEqual([]);
  return (JSON.parse(text) as { data: Data }).data;
};

export const usableLoci = async (): Promise<UsableLocus[]> => {
  const { text } = await post('{"query":"{ loci { id computable own alleles { symbol } } }"}');
  const { data } = JSON.parse(text) as {
    data: {
      loci: { id: string; computable: boolean; own: boolean; alleles: { symbol: string }[] }[];
    };
  };
  return data.loci
    .filter(({ computable, own }) => computable && !own)
    .map(({ id, alleles }) => ({ id, symbols: alleles.map(({ symbol }) => symbol) }));
};

export const faults: string[] = [];
/** Notes what is wrong with how the server stood while it answered. */
export const expectStanding = async (what: string, answer: Answer): Promise<Measured> => {
  const measured = await server.measure();
  const wrong = (told: string): void => void faults.push(`${what}: ${told}`);
  if (answer.status >= 500) wrong(`status ${answer.status}`);
  for (const code of ['INTERNAL', 'INTERNAL_SERVER_ERROR', 'no code'])
    if (answer.codes.includes(code)) wrong(`${code} ${answer.text.slice(0, 300)}`);
  if (measured.standMs > LONGEST_STAND_MS)
    wrong(`held the event loop for ${measured.standMs.toFixed(0)} ms (${answer.codes.join()})`);
  if (measured.peakMb > MOST_MEMORY_MB) wrong(`${measured.peakMb.toFixed(0)} MB of memory`);
  return measured;
};
