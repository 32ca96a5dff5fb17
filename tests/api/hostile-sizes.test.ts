import { getNamedType } from 'graphql';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type Answer,
  expectStanding,
  faults,
  post,
  realIds,
  signIn,
  startAsked,
  stopAsked,
} from './asked-server.js';
import { operations, ownerOf } from './committed-operations.js';
import { documentOf, hostileRequests, type Operation, type RealIds } from './hostile-values.js';
import { madeIds } from './made-records.js';
import type { MeteredServer } from './metered-server.js';

/** At least one of their hostile requests is done, and not refused: what they need was made for them. */
const ANSWERS = [
  ...['fish', 'line', 'spawn', 'pedigree', 'coancestry', 'lineHealth', 'relationshipMap'],
  ...['fishAct', 'importRun', 'takeBackPreview', 'takeBackImport'],
  ...['pairing', 'dropPairing', 'captionPhoto', 'withdrawPhoto'],
  ...['computation', 'cancelComputation'],
];

const DEEPEST = 5;
/** Letters of a document that leave room for what it is given, in a request of 2 MB. */
const LONGEST = 1_000_000;
/** Refused before it is run: what it asks for is too much. */
const isTooMuch = ({ status, codes }: Answer): boolean =>
  status === 400 &&
  codes.every((code) =>
    /^(QUERY_TOO_COSTLY|GRAPHQL_VALIDATION_FAILED|GRAPHQL_PARSE_FAILED)$/.test(code),
  );

/** How deep a document may ask into an answer of a type before it is too large for anyone, whatever it is given. */
const deepestOf = new Map<string, number>();

/** Asks as deep as the server lets anyone. */
const ask = async (
  kind: 'query' | 'mutation',
  operation: Operation,
  variables: object,
): Promise<Answer> => {
  const document = (depth: number): string =>
    documentOf(kind, operation, Object.keys(variables), depth);
  const at = (depth: number): Promise<Answer> =>
    post(JSON.stringify({ query: document(depth), variables }));
  const type = String(getNamedType(operation.type));
  let deepest = deepestOf.get(type) ?? DEEPEST;
  while (document(deepest).length > LONGEST) deepest -= 1;
  deepestOf.set(type, deepest);
  let shallowest: Answer | null = null;
  for (let depth = deepest; ; depth -= 1) {
    const answer = await at(depth);
    if (depth === 0 || !isTooMuch(answer)) return answer;
    if (!answer.codes.includes('QUERY_TOO_COSTLY')) deepestOf.set(type, depth - 1);
    else if (kind === 'query' && shallowest === null) {
      // What costs too much with the least asked for costs too much between as well.
      shallowest = await at(0);
      if (isTooMuch(shallowest)) return shallowest;
    }
  }
};

describe('hostile sizes', () => {
  let server: MeteredServer;
  let ids: RealIds;
  beforeAll(async () => {
    server = await startAsked();
    ids = await realIds();
    ids = { ...ids, ...(await madeIds(server, ids['fish'] ?? [])) };
    await server.measure();
  });
  afterAll(stopAsked);

  const signedIn = async (): Promise<boolean> =>
    (await post('{"query":"{ session { signedIn } }"}')).text.includes('"signedIn":true');

  it('begins with records of every kind', () => {
    for (const list of Object.values(ids)) expect(list.length).toBeGreaterThan(0);
    expect(operations.length).toBeGreaterThan(100);
  });

  it.each(operations)('$name', async ({ name, kind, operation }) => {
    faults.length = 0;
    const refusals: string[] = [];
    let answered = false;
    for (const { name: how, variables } of hostileRequests(ownerOf(kind), operation, ids)) {
      // A question ends no session.
      if (kind === 'mutation' && !(await signedIn())) await signIn();
      await server.measure();
      const answer = await ask(kind, operation, variables);
      await expectStanding(`${name}, ${how}`, answer);
      if (answer.status === 200 && answer.codes.length === 0) answered = true;
      else refusals.push(`${how}: ${answer.text.slice(0, 200)}`);
    }
    expect(faults).toEqual([]);
    if (ANSWERS.includes(name)) expect(answered, refusals.join('\n')).toBe(true);
    expect(server.ended()).toBeNull();
  });
});
