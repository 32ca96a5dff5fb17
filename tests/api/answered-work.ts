import { randomUUID } from 'node:crypto';
import { parse, validate } from 'graphql';
import { expect } from 'vitest';
import { type Answer, expectStanding, faults, post, session } from './asked-server.js';
import type { RunningApi } from './harness.js';
import { lineJson, sentText } from './line-files.js';
import { schema } from './committed-operations.js';
import type { Work } from './largest-work.js';
import type { MeteredServer } from './metered-server.js';

/** Plain routes, asked by whoever is signed in. */
export const askedAs = ({ url }: MeteredServer): Pick<RunningApi, 'http'> => ({
  http: (path, init = {}) =>
    fetch(`${url}${path}`, { ...init, headers: { ...(init.headers as object), ...session() } }),
});

/** A partner's file of the demo's first line, with fish of the partner's own until it is as large as one may be; sent, and told by its id. */
export const partnerFile = async (server: MeteredServer, line: string): Promise<string> => {
  const file = JSON.parse(await lineJson(askedAs(server), line)) as {
    keeper: { id: string };
    keepers: { id: string; name: string }[];
    records: Record<string, Record<string, unknown>[]>;
    versions: Record<string, unknown>;
  };
  const partner = { id: randomUUID(), name: 'Partner' };
  const [fish] = file.records['fish'] ?? [];
  const more = Array.from({ length: 10_000 }, (_, i) => ({
    ...{ ...fish, id: randomUUID(), tag: `P-${i}`, keeperId: partner.id },
  }));
  const text = JSON.stringify({
    ...file,
    keeper: partner,
    keepers: [...file.keepers, partner],
    records: {
      ...file.records,
      fish: [...(file.records['fish'] ?? []), ...more],
    },
    versions: { ...file.versions, ...Object.fromEntries(more.map(({ id }) => [id, 0])) },
  });
  return sentText(askedAs(server), text);
};

/** Waits for a long computation that an answer names. */
const wait = async ({ text }: Answer): Promise<void> => {
  const id = /"computation":\{"id":"([^"]+)"/.exec(text)?.[1];
  if (id === undefined) return;
  const query = `{ computation(id: "${id}") { state } }`;
  await expect
    .poll(async () => (await post(JSON.stringify({ query }))).text, { timeout: 120_000 })
    .toContain('"DONE"');
};

/** Asks each, waits for what it began, and fails where one was refused or the server did not stand. */
export const expectAnswered = async (
  server: MeteredServer,
  works: readonly Work[],
): Promise<void> => {
  faults.length = 0;
  for (const { name, query, variables } of works) {
    // One that the schema does not have would be measured as refused at once.
    expect(validate(schema, parse(query)), name).toEqual([]);
    await server.measure();
    const answer = await post(JSON.stringify({ query, variables }));
    await wait(answer);
    await expectStanding(name, answer);
    // One that is refused has not been worked out: nothing was measured.
    if (answer.status !== 200 || answer.codes.length > 0)
      faults.push(`${name}: refused, ${answer.status} ${answer.text.slice(0, 200)}`);
  }
  expect(faults).toEqual([]);
};
