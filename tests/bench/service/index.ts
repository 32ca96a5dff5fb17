import { chromium } from 'playwright-core';
import { quiet, systemBrowser } from '../../browser/browser-program.js';
import { loadKeepers } from './load.js';
import { addresses, openScreen, type Question } from './screens.js';
import { type BenchServer, startBenchServer } from './server.js';

/** Fish beside the demo's. A million only when it is asked for: `SERVICE_FISH=1000000`. */
const SIZES = process.env['SERVICE_FISH']?.split(',').map(Number) ?? [1_000, 10_000, 100_000];
const ROUNDS = 5;

const rounded = (ms: number): number => Math.round(ms * 10) / 10;
const middle = (times: readonly number[]): number =>
  times.toSorted((a, b) => a - b)[times.length >> 1] ?? 0;

/** Without the ids and tags of this run, so that two runs show the same names. */
const nameOf = (screen: string): string => screen.replaceAll(/[\da-f]{8}-[\da-f-]{27}/g, ':id');

type Emit = (line: object) => void;

const asked = async (server: BenchServer, cookie: string, { body }: Question) => {
  const since = performance.now();
  const answer = await fetch(`${server.url}/graphql`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'linewright-zone': 'UTC', cookie },
    body,
  });
  const text = await answer.text();
  return { ms: performance.now() - since, bytes: text.length, refused: text.includes('"errors"') };
};

/** Every question that a screen sent, asked again by itself. */
const askAll = async (
  server: BenchServer,
  cookie: string,
  questions: readonly Question[],
  emit: Emit,
): Promise<void> => {
  for (const question of questions) {
    await server.measure();
    const times: number[] = [];
    let bytes = 0;
    let refused = false;
    for (let round = 0; round < ROUNDS; round += 1) {
      const one = await asked(server, cookie, question);
      times.push(one.ms);
      bytes = one.bytes;
      refused ||= one.refused;
    }
    const { standMs, statements } = await server.measure();
    emit({
      ...{
        what: 'operation',
        name: question.name,
        fish: server.stock.fish,
        unit: 'ms',
        warm: rounded(middle(times)),
      },
      ...{
        most: rounded(Math.max(...times)),
        bytes,
        statements: Math.round((statements / ROUNDS) * 10) / 10,
      },
      ...{ stand: rounded(standMs), ...(refused && { refused }) },
    });
  }
};

const F = (id: string): Question => ({
  name: 'inbreeding of one fish',
  body: JSON.stringify({ query: `{ fish(id: "${id}") { inbreedingCoefficient } }` }),
});

/** What the first question after a change takes, and how long the loop stands for it. */
const changeRecords = async (server: BenchServer, cookie: string, emit: Emit): Promise<void> => {
  const { client, stock } = server;
  const changes = {
    'after a score': `INSERT INTO score SELECT (jsonb_populate_record(t, jsonb_build_object('id', gen_random_uuid()))).* FROM (SELECT r FROM score r LIMIT 1) one(t)`,
    'after a changed parent': `UPDATE spawn SET dam_id = NULL WHERE id = '${stock.spawnId}'`,
  };
  for (const [after, change] of Object.entries(changes)) {
    await client.query(change);
    await server.measure();
    const { ms } = await asked(server, cookie, F(stock.sireId));
    const { standMs, statements } = await server.measure();
    emit({
      ...{ what: after, name: F('').name, fish: stock.fish, unit: 'ms', value: rounded(ms) },
      ...{ stand: rounded(standMs), statements },
    });
  }
};

const measure = async (fish: number, emit: Emit): Promise<void> => {
  const server = await startBenchServer(fish, 200);
  const browser = await chromium.launch({ ...systemBrowser(), args: quiet });
  try {
    emit({ what: 'start', fish: server.stock.fish, unit: 'ms', value: Math.round(server.startMs) });
    const page = await browser.newPage({ viewport: { width: 1280, height: 860 } });
    page.setDefaultTimeout(120_000);
    await page.goto(server.url);
    await page.getByRole('button', { name: /demo/i }).first().click();
    await page.getByRole('heading', { name: 'Fish', level: 1 }).waitFor();
    const all = new Map<string, Question>();
    for (const screen of addresses(server.stock)) {
      await server.measure();
      const first = await openScreen(page, server.url, screen).catch((error: unknown) => {
        emit({
          what: 'screen',
          screen: nameOf(screen),
          fish: server.stock.fish,
          failed: String(error).slice(0, 200),
        });
        return null;
      });
      if (first === null) continue;
      const cold = await server.measure();
      const again = await openScreen(page, server.url, screen);
      emit({
        ...{ what: 'screen', screen: nameOf(screen), fish: server.stock.fish, unit: 'ms' },
        ...{
          first: rounded(first.settledMs),
          again: rounded(again.settledMs),
          nodes: again.nodes,
          bytes: again.bytes,
        },
        ...{ statements: cold.statements, stand: rounded(cold.standMs) },
      });
      if (process.env['SHOT'])
        await page.screenshot({ path: `/tmp/core/${nameOf(screen).replaceAll('/', '_')}.png` });
      for (const question of first.questions) all.set(question.body, question);
    }
    const cookies = await page.context().cookies();
    const cookie = cookies.map(({ name, value }) => `${name}=${value}`).join('; ');
    await askAll(server, cookie, [...all.values()], emit);
    await changeRecords(server, cookie, emit);
    await loadKeepers(server, emit);
  } finally {
    await browser.close();
    await server.stop();
  }
};

/** The whole service as a keeper meets it: the built server, its database, and the screens in a browser, at several sizes of stock. */
export async function run(emit: Emit): Promise<void> {
  for (const size of SIZES) await measure(size, emit);
}
