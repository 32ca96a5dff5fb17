import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';
import { saidOf } from './said-purpose.js';

const PAIRS = `query ($input: PairingInput!) { pairingCandidates(input: $input, sort: WORTH) { totalCount
  edges { node { sire { tag } dam { tag } warnings { code severity } reasons { text } } } } }`;

const SAY = `mutation ($input: SayWhatLineIsForInput!) { sayWhatLineIsFor(input: $input) { version } }`;

interface Pairs {
  pairingCandidates: {
    totalCount: number;
    edges: {
      node: {
        sire: { tag: string };
        dam: { tag: string };
        warnings: { code: string; severity: string }[];
        reasons: { text: string }[];
      };
    }[];
  };
}

describe('pairs of one line and crosses between lines', () => {
  let api: RunningApi;
  let records: Records;
  const lines = new Map<string, string>();

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    for (const code of ['T', 'C']) {
      const lineId = await records.line(code);
      lines.set(code, lineId);
      const sire = await records.fish(`${code}-1`, 'MALE', { lineId, disposition: 'DIED' });
      const dam = await records.fish(`${code}-2`, 'FEMALE', { lineId, disposition: 'DIED' });
      const spawn = await records.spawn(`${code}26-01`, sire, dam, { lineId });
      const young = await records.young(spawn, 2);
      for (const [i, one] of young.entries()) {
        await api.graphql(
          `mutation ($input: CorrectFishInput!) { correctFish(input: $input) { id } }`,
          {
            input: {
              ...{ id: one.id, revision: 1, sex: i === 0 ? 'MALE' : 'FEMALE', lineId },
              hatchDate: daysAgo(200),
            },
          },
        );
        await api.graphql(
          `mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }`,
          {
            input: { id: one.id, disposition: 'KEEPER', on: daysAgo(150) },
          },
        );
      }
    }
  });
  afterAll(() => api.close());

  const pairs = async (input: object) =>
    (await api.graphql<Pairs>(PAIRS, { input })).pairingCandidates;
  const names = (found: Pairs['pairingCandidates']) =>
    found.edges.map(({ node }) => `${node.sire.tag} ${node.dam.tag}`);

  it('by merit alone unlike lines come first, for they share no ancestors; each with a caution', async () => {
    const found = await pairs({ linesOfPair: 'ANY' });
    expect(found.totalCount).toBe(4);
    expect(new Set(names(found).slice(0, 2))).toEqual(
      new Set(['T26-01-01 C26-01-02', 'C26-01-01 T26-01-02']),
    );
    for (const { node } of found.edges) {
      const between = node.sire.tag[0] !== node.dam.tag[0];
      const cautions = node.warnings.filter((one) => one.code === 'BETWEEN_LINES');
      expect(cautions.map((one) => one.severity)).toEqual(between ? ['caution'] : []);
    }
    expect(found.edges[3]?.node.reasons.map((one) => one.text).join(' ')).toMatch(
      /F of the brood is at least 25\.00 %/,
    );
  });

  it('can be asked for with pairs of one line first, or those alone', async () => {
    const within = new Set(['T26-01-01 T26-01-02', 'C26-01-01 C26-01-02']);
    const first = await pairs({ linesOfPair: 'WITHIN_FIRST' });
    expect(first.totalCount).toBe(4);
    expect(new Set(names(first).slice(0, 2))).toEqual(within);
    expect(new Set(names(await pairs({ linesOfPair: 'WITHIN' })))).toEqual(within);
  });

  it('judges each fish by what its own line says of ages, in the list and when it is planned', async () => {
    const young = await pairs({ linesOfPair: 'ANY' });
    const warned = (found: typeof young, code: string) =>
      found.edges.flatMap(({ node }) =>
        node.warnings.some((one) => one.code === code) ? [`${node.sire.tag} ${node.dam.tag}`] : [],
      );
    expect(warned(young, 'TOO_YOUNG')).toEqual([]);
    const { rules, ...said } = saidOf() as { rules: object };
    const ages = {
      capableFrom: 4_000,
      preferredFrom: 4_000,
      bestUntil: 5_000,
      fertileUntil: 5_000,
    };
    await api.graphql(SAY, {
      input: {
        ...{ lineId: lines.get('C'), expectedVersion: 0 },
        content: { ...said, rules: { ...rules, ages } },
      },
    });
    const judged = await pairs({ linesOfPair: 'ANY', includeDiscouraged: true });
    expect(judged.totalCount).toBe(4);
    // All but the pair of two fish of the other line.
    expect(warned(judged, 'TOO_YOUNG').toSorted()).toEqual(
      names(judged)
        .filter((pair) => pair !== 'T26-01-01 T26-01-02')
        .toSorted(),
    );
  });

  it('asks for as many known ancestors as the line says, in a pair of two lines as the stricter', async () => {
    // Of four generations the first is known: a quarter, where half is asked for.
    const warned = async () =>
      (await pairs({ linesOfPair: 'ANY', includeDiscouraged: true })).edges
        .filter(({ node }) => node.warnings.some(({ code }) => code === 'UNKNOWN_ANCESTRY'))
        .map(({ node }) => `${node.sire.tag} ${node.dam.tag}`)
        .toSorted();
    const before = await warned();
    expect(before).toHaveLength(4);
    const { rules, ...said } = saidOf() as { rules: object };
    await api.graphql(SAY, {
      input: {
        ...{ lineId: lines.get('T'), expectedVersion: 0 },
        content: { ...said, rules: { ...rules, knownAncestryFrom: 0.2 } },
      },
    });
    expect(await warned()).toEqual(before.filter((pair) => pair !== 'T26-01-01 T26-01-02'));
  });
});
