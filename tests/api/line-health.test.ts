import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords, type NewRecords } from '../new-records.js';
import { PASSWORD, type RunningApi, startApi } from './harness.js';

interface Figure {
  value: number | null;
  whyNone: string | null;
  standardError: number | null;
  inputs: { name: string; value: number }[];
}
interface Named {
  id: string;
  tag: string;
}
interface Source {
  fish: Named;
  unknownParent: boolean;
}
interface Figures {
  inbreeding: Figure;
  lowestInbreeding: number;
  highestInbreeding: number;
  meanKinship: Figure;
  completeness: Figure;
  completenessByGeneration: number[];
  generationInterval: Figure;
  rate: Figure;
  byGeneration: { generation: number; count: number; mean: number }[];
  points: { fish: Named; generation: number; inbreedingCoefficient: number }[] | null;
  sharesOverTime: { founders: Source[]; generations: { generation: number; shares: number[] }[] };
  founders: (Source & { contribution: number; retention: number; survival: number })[];
  ancestors: (Source & { marginal: number })[];
  effective: Record<
    | 'founders'
    | 'ancestors'
    | 'genomesByRetention'
    | 'genomesByKinship'
    | 'sizeFromInbreeding'
    | 'sizeFromRate'
    | 'sizeFromSexes'
    | 'sizeFromFamilies',
    Figure
  >;
  overContributors: { founders: Source[]; sires: Source[]; dams: Source[] };
  rarestFounders: (Source & {
    contribution: number;
    carriers: { fish: Named; share: number }[];
  })[];
  kinship: { fish: Named; meanKinship: number; inbreedingCoefficient: number }[];
}
interface Health {
  line: { id: string; code: string };
  fishCount: number;
  inUseCount: number;
  whyNone: string | null;
  figures: Figures | null;
}

const FIGURE = '{ value whyNone standardError inputs { name value } }';
const FISH = 'fish { id tag } unknownParent';
const HEALTH = `query ($lineId: ID!, $includeUnsorted: Boolean) {
  lineHealth(lineId: $lineId, includeUnsorted: $includeUnsorted) {
    line { id code } fishCount inUseCount whyNone
    figures {
      inbreeding ${FIGURE} lowestInbreeding highestInbreeding meanKinship ${FIGURE}
      completeness ${FIGURE} completenessByGeneration generationInterval ${FIGURE} rate ${FIGURE}
      byGeneration { generation count mean } points { fish { id tag } generation inbreedingCoefficient }
      sharesOverTime { founders { ${FISH} } generations { generation shares } }
      founders { ${FISH} contribution retention survival }
      ancestors { ${FISH} marginal }
      effective { founders ${FIGURE} ancestors ${FIGURE} genomesByRetention ${FIGURE} genomesByKinship ${FIGURE}
        sizeFromInbreeding ${FIGURE} sizeFromRate ${FIGURE} sizeFromSexes ${FIGURE} sizeFromFamilies ${FIGURE} }
      overContributors { founders { ${FISH} } sires { ${FISH} } dams { ${FISH} } }
      rarestFounders { ${FISH} contribution carriers { fish { id tag } share } }
      kinship { fish { id tag } meanKinship inbreedingCoefficient }
    }
  }
}`;
const MAP = `query ($lineIds: [ID!], $fishIds: [ID!], $includeUnsorted: Boolean) {
  relationshipMap(lineIds: $lineIds, fishIds: $fishIds, includeUnsorted: $includeUnsorted) {
    fish { fish { id tag } family inbreedingCoefficient meanKinship } families { start count joinedAt } coancestry whyNone
  }
}`;
interface RelationshipMap {
  fish: { fish: Named; family: number; inbreedingCoefficient: number; meanKinship: number }[];
  families: { start: number; count: number; joinedAt: number }[];
  coancestry: number[];
  whyNone: string | null;
}

const healthOf = async (api: RunningApi, lineId: string, includeUnsorted = false) =>
  (await api.graphql<{ lineHealth: Health }>(HEALTH, { lineId, includeUnsorted })).lineHealth;
const mapOf = async (api: RunningApi, variables: object) =>
  (await api.graphql<{ relationshipMap: RelationshipMap }>(MAP, variables)).relationshipMap;

type NewFish = Parameters<NewRecords['createFish']>[0];

describe('figures of a small known line', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const line = (code: string): Promise<string> =>
    newRecords(api).createLine({ code, name: `Line ${code}` });
  const fish: NewRecords['createFish'] = (input) => newRecords(api).createFish(input);
  const refusal = async (query: string, variables: object) => {
    const { errors } = await api.send(query, variables);
    const [error] = errors ?? [];
    if (error === undefined) throw new Error('It was not refused.');
    return { code: error.extensions.code, message: error.message };
  };

  /** Lacy RC (1989) Zoo Biology 8:111-123: three founders; C and D of A x B, F and G of E x D, and these four alive. */
  const lacy = async (code: string) => {
    const lineId = await line(code);
    const make = (
      name: string,
      sex: NewFish['sex'],
      disposition: NonNullable<NewFish['disposition']>,
      more: object,
    ) => fish({ tag: `${code}-${name}`, sex, disposition, lineId, ...more });
    const a = await make('A', 'MALE', 'DIED', { hatchDate: '2023-01-01' });
    const b = await make('B', 'FEMALE', 'PLACED', { hatchDate: '2023-01-01' });
    const e = await make('E', 'MALE', 'CULLED', { hatchDate: '2023-06-01' });
    const old = { sireId: a, damId: b, hatchDate: '2024-01-01' };
    const c = await make('C', 'MALE', 'KEEPER', old);
    const d = await make('D', 'FEMALE', 'HOLD', old);
    const young = { sireId: e, damId: d, hatchDate: '2025-01-01' };
    const f = await make('F', 'MALE', 'KEEPER', young);
    const g = await make('G', 'FEMALE', 'KEEPER', young);
    return { lineId, a, b, c, d, e, f, g };
  };

  it("gives the printed figures of Lacy's example, and says why where there is none", async () => {
    const { lineId } = await lacy('LA');
    const { figures, fishCount, inUseCount, whyNone } = await healthOf(api, lineId);
    expect([fishCount, inUseCount, whyNone]).toEqual([7, 4, null]);
    const { effective } = figures!;
    // Printed 2.91 and 2.18; 16/9 follows from the ten coancestries of the four.
    expect(effective.founders.value).toBeCloseTo(32 / 11, 12);
    expect(effective.genomesByRetention.value).toBeCloseTo(24 / 11, 12);
    expect(effective.genomesByRetention.standardError).toBeNull();
    expect(effective.genomesByKinship.value).toBeCloseTo(16 / 9, 12);
    expect(figures!.meanKinship.value).toBeCloseTo(9 / 32, 12);
    expect(figures!.founders.map((f) => [f.fish.tag, f.contribution, f.retention])).toEqual([
      ['LA-A', 3 / 8, 3 / 4],
      ['LA-B', 3 / 8, 3 / 4],
      ['LA-E', 1 / 4, 3 / 4],
    ]);
    // By hand: sires A, E and dams B, D; four parents of two young in use each.
    expect(effective.sizeFromSexes.value).toBe(4);
    expect(effective.sizeFromFamilies.value).toBe(7);
    expect(effective.sizeFromInbreeding).toMatchObject({ value: null });
    expect(effective.sizeFromInbreeding.whyNone).toContain('No fish in use is inbred');
    expect(effective.sizeFromRate).toMatchObject({ value: null });
    expect(effective.sizeFromRate.whyNone).toContain('does not rise');
    // Of the young only D bred: 365 days after either parent.
    expect(figures!.generationInterval.value).toBe(365);
    expect(figures!.rarestFounders[0]).toMatchObject({
      fish: { tag: 'LA-E' },
      contribution: 1 / 4,
      carriers: [
        { fish: { tag: 'LA-F' }, share: 1 / 2 },
        { fish: { tag: 'LA-G' }, share: 1 / 2 },
      ],
    });
    // C with itself 1/2, with D 1/4, with F and G 1/8: mean 1/4; D's is 9/32 + ... the larger.
    expect(figures!.kinship[0]).toMatchObject({ fish: { tag: 'LA-C' }, meanKinship: 1 / 4 });
    expect(figures!.completeness.value).toBe((1 + 1 + 1.5 + 1.5) / 4);
    expect(figures!.completenessByGeneration.slice(0, 3)).toEqual([1, 1 / 4, 0]);
    expect(figures!.byGeneration).toEqual([
      { generation: 0, count: 3, mean: 0 },
      { generation: 1, count: 2, mean: 0 },
      { generation: 2, count: 2, mean: 0 },
    ]);
    expect(figures!.overContributors.founders.map((f) => f.fish.tag)).toEqual(['LA-A', 'LA-B']);
  });

  it('counts who is in use: keepers and those on hold, the unsorted when asked', async () => {
    const lineId = await line('USE');
    const sireId = await fish({ tag: 'USE-1', sex: 'MALE', disposition: 'PLACED', lineId });
    const none = await healthOf(api, lineId);
    expect(none).toMatchObject({ fishCount: 1, inUseCount: 0, figures: null });
    expect(none.whyNone).toContain('No fish of this line is in use');
    await fish({ tag: 'USE-2', sex: 'UNSEXED', disposition: 'UNSORTED', lineId, sireId });
    expect((await healthOf(api, lineId)).figures).toBeNull();
    const unsorted = await healthOf(api, lineId, true);
    expect(unsorted.inUseCount).toBe(1);
    // Half known: the unknown dam is a founder of its own.
    expect(unsorted.figures!.founders).toMatchObject([
      { fish: { tag: 'USE-1' }, unknownParent: false, contribution: 1 / 2 },
      { fish: { tag: 'USE-2' }, unknownParent: true, contribution: 1 / 2 },
    ]);
    expect(unsorted.figures!.effective.sizeFromSexes.value).toBeNull();
    expect(unsorted.figures!.effective.sizeFromSexes.whyNone).toContain('known dam');
    expect((await mapOf(api, { lineIds: [lineId] })).whyNone).toContain('in use in this line');
    expect((await mapOf(api, { lineIds: [lineId], includeUnsorted: true })).fish).toHaveLength(1);
  });

  it('answers an empty line with a reason and an unknown one with an error', async () => {
    const lineId = await line('EMPTY');
    const empty = await healthOf(api, lineId, true);
    expect(empty).toMatchObject({ fishCount: 0, inUseCount: 0, figures: null });
    expect(empty.whyNone).toContain('No fish is recorded');
    const lost = randomUUID();
    expect(await refusal(HEALTH, { lineId: lost })).toMatchObject({ code: 'NOT_FOUND' });
    expect(await refusal(MAP, { lineIds: [lost] })).toMatchObject({ code: 'NOT_FOUND' });
    expect(await refusal(MAP, { fishIds: [lost] })).toMatchObject({ code: 'NOT_FOUND' });
    const many = Array.from({ length: 501 }, () => randomUUID());
    expect((await refusal(MAP, { fishIds: many })).message).toContain('a map takes 500');
    expect((await mapOf(api, { fishIds: [] })).whyNone).toContain('No fish was named');
  });

  it('gives the map with families together, each pair once', async () => {
    const { lineId, c, d, f, g } = await lacy('MAP');
    const { fish: mapped, coancestry, families } = await mapOf(api, { lineIds: [lineId] });
    expect(new Set(mapped.map((one) => one.fish.id))).toEqual(new Set([c, d, f, g]));
    expect(coancestry).toHaveLength(10);
    expect(families.reduce((sum, { count }) => sum + count, 0)).toBe(4);
    const place = new Map(mapped.map((one, i) => [one.fish.id, i]));
    const of = (one: string, other: string): number => {
      const [low, high] = [place.get(one)!, place.get(other)!].sort((x, y) => x - y);
      return coancestry[(high! * (high! + 1)) / 2 + low!]!;
    };
    expect([of(c, c), of(c, d), of(c, f), of(d, f), of(f, g)]).toEqual([
      1 / 2,
      1 / 4,
      1 / 8,
      1 / 4,
      1 / 4,
    ]);
    expect(Math.abs(place.get(f)! - place.get(g)!)).toBe(1);
    const chosen = await mapOf(api, { fishIds: [c, f] });
    expect(chosen.coancestry).toEqual([1 / 2, 1 / 8, 1 / 2]);
    expect(chosen.fish.map((one) => one.meanKinship)).toEqual([5 / 16, 5 / 16]);
  });

  it('says where an F comes from: by founder, by origin, by age', async () => {
    // "old" comes from full sibs; its young by unrelated mates are put together: F = (1/2)^3 (1 + 1/4).
    const make = (name: string, sex: NewFish['sex'], sireId?: string, damId?: string) =>
      fish({ tag: `S-${name}`, sex, sireId: sireId ?? null, damId: damId ?? null });
    const red = await make('red', 'MALE');
    const blue = await make('blue', 'FEMALE');
    const brother = await make('brother', 'MALE', red, blue);
    const sister = await make('sister', 'FEMALE', red, blue);
    const old = await make('old', 'MALE', brother, sister);
    const son = await make('son', 'MALE', old, await make('mate', 'FEMALE'));
    const daughter = await make('daughter', 'FEMALE', old, await make('mate2', 'FEMALE'));
    const fry = await make('fry', 'UNSEXED', son, daughter);
    const query = `query ($id: ID!) { fish(id: $id) {
      inbreedingSources { coefficient byFounder { contribution unknownParent fish { tag } }
        byOrigin { contribution meanGenerations ancestor { tag } } meanGenerations complete byGenerations ancestralInbreeding }
      inbreeding(limit: 1) { listedCount pathCount byAncestor { pathCount contribution ancestor { tag } } } } }`;
    const answer = await api.graphql<{
      fish: { inbreedingSources: Record<string, unknown>; inbreeding: Record<string, unknown> };
    }>(query, { id: fry });
    expect(answer.fish.inbreedingSources).toMatchObject({
      coefficient: 5 / 32,
      byFounder: [
        { fish: { tag: 'S-blue' }, contribution: 5 / 64 },
        { fish: { tag: 'S-red' }, contribution: 5 / 64 },
      ],
      complete: true,
      byGenerations: [0, 1 / 8, 1 / 8, 5 / 32],
      // "old" has F = 1/4, of which its young carry half, and their young half of both halves.
      ancestralInbreeding: 1 / 8,
    });
    const origins = answer.fish.inbreedingSources['byOrigin'] as {
      ancestor: Named;
      contribution: number;
      meanGenerations: number;
    }[];
    expect(origins[0]).toMatchObject({
      ancestor: { tag: 'S-old' },
      contribution: 1 / 8,
      meanGenerations: 2,
    });
    expect(origins.reduce((sum, { contribution }) => sum + contribution, 0)).toBe(5 / 32);
    expect(answer.fish.inbreeding).toEqual({
      listedCount: 1,
      pathCount: 1,
      byAncestor: [{ ancestor: { tag: 'S-old' }, pathCount: 1, contribution: 5 / 32 }],
    });
    const founder = await api.graphql<{ fish: { inbreedingSources: object } }>(query, { id: red });
    expect(founder.fish.inbreedingSources).toMatchObject({
      coefficient: 0,
      byFounder: [],
      byOrigin: [],
      meanGenerations: null,
      byGenerations: [],
    });
  });

  it('counts the paths of a candidate pair’s ancestors', async () => {
    const { c, d } = await lacy('CAND');
    const answer = await api.graphql<{
      pairingCandidates: { edges: { node: { mainAncestors: { pathCount: number }[] } }[] };
    }>(
      `query ($sires: [ID!], $dams: [ID!]) { pairingCandidates(input: { sireIds: $sires, damIds: $dams, includeDiscouraged: true }) {
        edges { node { mainAncestors { pathCount contribution } } } } }`,
      { sires: [c], dams: [d] },
    );
    expect(answer.pairingCandidates.edges[0]?.node.mainAncestors).toEqual([
      { pathCount: 1, contribution: 1 / 8 },
      { pathCount: 1, contribution: 1 / 8 },
    ]);
  });

  it('counts a withdrawn fish no more, and sees what another process changes', async () => {
    const { lineId, c, f, g } = await lacy('TWO');
    expect((await healthOf(api, lineId)).inUseCount).toBe(4);
    const other = await startApi({
      signedIn: false,
      environment: { DATABASE_URL: api.served.databaseUrl },
    });
    try {
      await other.graphql('mutation ($p: String!) { signIn(password: $p) { signedIn } }', {
        p: PASSWORD,
      });
      await other.graphql(
        'mutation ($input: WithdrawInput!) { withdrawFish(input: $input) { id } }',
        { input: { id: c, reason: 'recorded twice', revision: 1 } },
      );
      const sib = { sireId: f, damId: g, hatchDate: '2025-09-01', lineId };
      await newRecords(other).createFish({ tag: 'TWO-H', sex: 'MALE', ...sib });
    } finally {
      await other.close();
    }
    const after = await healthOf(api, lineId);
    expect([after.fishCount, after.inUseCount]).toEqual([7, 4]);
    expect(after.figures!.highestInbreeding).toBe(1 / 4);
    // Of D, F, G and H only F, G and H count (t = 1.5, 1.5, 2.5); H: 1 - (3/4)^(1/1.5).
    const increase = (1 - 0.75 ** (1 / 1.5)) / 3;
    expect(after.figures!.effective.sizeFromInbreeding.value).toBeCloseTo(1 / (2 * increase), 9);
  });

  it('refuses a request for many lines at once', async () => {
    const lineId = await line('COST');
    const many = Array.from(
      { length: 9 },
      (_, i) => `h${i}: lineHealth(lineId: "${lineId}") { inUseCount }`,
    ).join(' ');
    expect(await refusal(`{ ${many} }`, {})).toMatchObject({ code: 'QUERY_TOO_COSTLY' });
  });
});

describe('figures of the demo’s lines', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ demo: true });
  });
  afterAll(() => api.close());

  interface Row {
    readonly sire: string;
    readonly dam: string;
  }
  /** The exported pedigree, parents first: the tests' own reading, sharing no code with the libs. */
  const exported = async (): Promise<Map<string, Row>> => {
    const text = await (await api.http('/export/pedigree.csv')).text();
    const [head, ...rows] = text
      .trim()
      .split(/\r?\n/)
      .map((each) => each.replace(/^\uFEFF/, '').split(','));
    const at = (name: string) => head!.indexOf(name);
    return new Map(
      rows.map((row) => [row[at('tag')]!, { sire: row[at('sire')]!, dam: row[at('dam')]! }]),
    );
  };

  /** Coancestry by the defining recursion on the younger of the two. */
  const coancestries = (rows: Map<string, Row>): ((a: string, b: string) => number) => {
    const place = new Map([...rows.keys()].map((tag, i) => [tag, i]));
    const known = new Map<string, number>();
    const theta = (a: string, b: string): number => {
      if (a === '' || b === '') return 0;
      if (place.get(a)! < place.get(b)!) return theta(b, a);
      const key = `${a} ${b}`;
      let value = known.get(key);
      if (value === undefined) {
        const { sire, dam } = rows.get(a)!;
        value = a === b ? (1 + theta(sire, dam)) / 2 : (theta(sire, b) + theta(dam, b)) / 2;
        known.set(key, value);
      }
      return value;
    };
    return theta;
  };

  it('equal those of a plain recursion over the exported pedigree', async () => {
    const { lines } = await api.graphql<{ lines: { id: string; inUseCount: number }[] }>(
      '{ lines { id inUseCount } }',
    );
    const rows = await exported();
    const theta = coancestries(rows);
    const [chosen] = [...lines].sort((a, b) => b.inUseCount - a.inUseCount);
    const { figures, inUseCount } = await healthOf(api, chosen!.id);
    expect(inUseCount).toBe(chosen!.inUseCount);
    const tags = figures!.kinship.map(({ fish }) => fish.tag).filter((tag) => rows.has(tag));
    expect(tags).toHaveLength(inUseCount);
    expect(tags.length).toBeGreaterThan(20);
    const means = tags.map((a) => tags.reduce((sum, b) => sum + theta(a, b), 0) / tags.length);
    figures!.kinship.forEach(({ meanKinship, inbreedingCoefficient, fish }, k) => {
      expect(meanKinship).toBeCloseTo(means[k]!, 10);
      const { sire, dam } = rows.get(fish.tag)!;
      expect(inbreedingCoefficient).toBeCloseTo(theta(sire, dam), 10);
    });
    expect([...means].sort((a, b) => a - b)).toEqual(means);
    const kinship = means.reduce((sum, value) => sum + value, 0) / means.length;
    expect(figures!.effective.genomesByKinship.value).toBeCloseTo(1 / (2 * kinship), 9);

    // Founders' shares, handed down from parents to young.
    const share = new Map<string, Map<string, number>>();
    for (const [tag, { sire, dam }] of rows) {
      const own = new Map<string, number>();
      const give = (from: string): void => {
        if (from === '') own.set(`unknown of ${tag}`, 1 / 2);
        else for (const [f, part] of share.get(from)!) own.set(f, (own.get(f) ?? 0) + part / 2);
      };
      if (sire === '' && dam === '') own.set(tag, 1);
      else [sire, dam].forEach(give);
      share.set(tag, own);
    }
    const parts = new Map<string, number>();
    for (const tag of tags)
      for (const [f, part] of share.get(tag)!)
        parts.set(f, (parts.get(f) ?? 0) + part / tags.length);
    expect(figures!.founders).toHaveLength(parts.size);
    for (const { fish, unknownParent, contribution } of figures!.founders) {
      const name = unknownParent ? `unknown of ${fish.tag}` : fish.tag;
      expect(contribution).toBeCloseTo(parts.get(name)!, 10);
    }
    const squares = [...parts.values()].reduce((sum, part) => sum + part * part, 0);
    expect(figures!.effective.founders.value).toBeCloseTo(1 / squares, 9);
    for (const { shares } of figures!.sharesOverTime.generations)
      expect(shares.reduce((sum, part) => sum + part, 0)).toBeCloseTo(1, 10);
    for (const { fish, inbreedingCoefficient } of figures!.points!)
      if (rows.has(fish.tag)) {
        const { sire, dam } = rows.get(fish.tag)!;
        expect(inbreedingCoefficient).toBeCloseTo(theta(sire, dam), 10);
      }
  });

  it('map every fish in use, pair by pair as the recursion says', async () => {
    const { fish, coancestry, families } = await mapOf(api, {});
    const { fishList } = await api.graphql<{ fishList: { totalCount: number } }>(
      '{ fishList(filter: { inUse: true }, first: 1) { totalCount } }',
    );
    expect(fish).toHaveLength(fishList.totalCount);
    expect(coancestry).toHaveLength((fish.length * (fish.length + 1)) / 2);
    const rows = await exported();
    const theta = coancestries(rows);
    let k = 0;
    fish.forEach((row, i) => {
      for (const column of fish.slice(0, i + 1)) {
        const value = coancestry[k++]!;
        if (!rows.has(row.fish.tag) || !rows.has(column.fish.tag)) continue;
        expect(Math.abs(value - theta(row.fish.tag, column.fish.tag))).toBeLessThan(1e-10);
      }
    });
    expect(fish.map((one) => one.family)).toEqual(
      families.flatMap(({ count }, place) => new Array<number>(count).fill(place)),
    );
  });
});
