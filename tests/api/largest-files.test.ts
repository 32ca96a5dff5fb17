import { parse, validate } from 'graphql';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { askedAs, expectAnswered, partnerFile } from './answered-work.js';
import {
  expectStanding,
  faults,
  post,
  realIds,
  startAsked,
  stopAsked,
  usableLoci,
} from './asked-server.js';
import { schema } from './committed-operations.js';
import type { RealIds } from './hostile-values.js';
import { filesWork, moreThanIsTaken, noLineFiles, shared, stockWork } from './largest-work.js';
import { lineFile, sent } from './line-files.js';
import type { MeteredServer } from './metered-server.js';

describe('the largest work on files and on the stock', () => {
  let server: MeteredServer;
  let ids: RealIds;
  beforeAll(async () => {
    server = await startAsked();
    ids = await realIds();
    await server.measure();
  });
  afterAll(stopAsked);

  it('is answered: files', async () => {
    const file = await partnerFile(server, ids['lines']?.[0] ?? '');
    await expectAnswered(server, filesWork(file));
  });

  it('is answered: the stock', () => expectAnswered(server, stockWork(ids)));

  it('what is more than that is refused, and nothing stands', async () => {
    faults.length = 0;
    for (const { name, query, variables, code } of moreThanIsTaken(await usableLoci())) {
      expect(validate(schema, parse(query)), name).toEqual([]);
      await server.measure();
      const answer = await post(JSON.stringify({ query, variables }));
      await expectStanding(name, answer);
      expect([...new Set(answer.codes)], name).toEqual([code]);
    }
    expect(faults).toEqual([]);
  });

  it('line files that are none are refused, and nothing stands', async () => {
    faults.length = 0;
    for (const [name, text] of noLineFiles) {
      await server.measure();
      const file = await sent(askedAs(server), Buffer.from(text));
      const answer = await post(JSON.stringify({ query: shared, variables: { file } }));
      await expectStanding(name, answer);
      expect(answer.codes, name).toEqual(['SHARE_INVALID']);
    }
    expect(faults).toEqual([]);
  });

  it('a line is given with its page, and nothing stands', async () => {
    faults.length = 0;
    for (const line of ids['lines'] ?? []) {
      await server.measure();
      const file = await lineFile(askedAs(server), line, '?photos=yes&plans=yes');
      await expectStanding('the file of a line', {
        ...{ status: 200, codes: [], text: '' },
      });
      expect(file.length).toBeGreaterThan(10_000);
    }
    expect(faults).toEqual([]);
  });

  it('a thousand labels', async () => {
    faults.length = 0;
    const tags = Array.from({ length: 1_000 }, (_, i) => `L${i},${'long name '.repeat(19)}`);
    const query =
      'mutation ($t: String!) { confirmImport(fileName: "l.csv", columns: [], text: $t) { __typename } }';
    const taken = await post(
      JSON.stringify({ query, variables: { t: `tag,name\n${tags.join('\n')}` } }),
    );
    expect(taken.codes).toEqual([]);
    const fish: string[] = [];
    for (let after = ''; fish.length < 1_000;) {
      const page = `{ fishList(first: 200, ${after} filter: { text: "L" }) { edges { node { id } } pageInfo { endCursor } } }`;
      const { text } = await post(JSON.stringify({ query: page }));
      fish.push(...[...text.matchAll(/"id":"([^"]+)"/g)].map(([, id]) => id ?? ''));
      after = `after: "${/"endCursor":"([^"]+)"/.exec(text)?.[1] ?? ''}",`;
    }
    await server.measure();
    const printed = await post(
      JSON.stringify({ fish: fish.slice(0, 1_000).join(',') }),
      '/export/print/jar-labels.pdf',
    );
    await expectStanding('a thousand labels', printed);
    expect(printed.status).toBe(200);
    expect(printed.text.length).toBeGreaterThan(100_000);
    expect(faults).toEqual([]);
  });
});
