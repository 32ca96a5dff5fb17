import { bestOfBrood, STARTING_PURPOSE, STATED_LOSS } from '@linewright/mating';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { recordsOf, type RunningApi, startApi } from './harness.js';
import { ValuesAhead } from '../../apps/api/src/pairing/values-ahead.js';
import { saidOf } from './said-purpose.js';
import { newRecords } from '../new-records.js';

const WORTH = `worth { points standardError likeBest choice inbreeding raised looks { label share points }
  traits { trait { id } mean meanError deviation inheritedShare lineMean lineDeviation low points } }`;
const BASIS = `basis { lineId version inbreedingCost costBasis errorsTogether keep fry survival load countedBroods notCounted { trait { id } reason } }`;
const LIST = `query ($input: PairingInput!) { pairingCandidates(input: $input, first: 200) { totalCount ${BASIS}
  edges { node { sire { id tag } dam { id tag } inbreedingCoefficient discouraged ${WORTH} } } } }`;
const CONDITION = `ageDays restDays spawns failures isHere place { meanCoancestry place of riseWithout }`;
const PAIR = `query ($s: ID!, $d: ID!, $input: PairingInput) { plannedBrood(sireId: $s, damId: $d, input: $input) { ${WORTH} ${BASIS}
  passing { share wanted fry survival chance fryFor { certainty fry } } warnings { code planning }
  lineWithYoung { fish keep now ofYoung after } sireCondition { ${CONDITION} } damCondition { ${CONDITION} } } }`;
const SAY = `mutation ($input: SayWhatLineIsForInput!) { sayWhatLineIsFor(input: $input) { version } }`;

interface Worth {
  points: number;
  standardError: number;
  likeBest: boolean | null;
  choice: number;
  inbreeding: number;
  raised: number;
  looks: { label: string; share: number | null; points: number | null }[];
  traits: {
    mean: number;
    meanError: number;
    deviation: number;
    inheritedShare: number;
    lineMean: number;
    lineDeviation: number;
    points: number;
  }[];
}
interface Node {
  sire: { id: string; tag: string };
  dam: { id: string; tag: string };
  inbreedingCoefficient: number;
  discouraged: boolean;
  worth: Worth;
}
interface Basis {
  lineId: string | null;
  version: number;
  inbreedingCost: number;
  costBasis: string;
  keep: number;
  fry: number;
  survival: number;
  countedBroods: number;
  errorsTogether: boolean;
  notCounted: unknown[];
}
interface Condition {
  ageDays: number | null;
  restDays: number | null;
  spawns: number;
  failures: number;
  isHere: boolean;
  place: { meanCoancestry: number; place: number; of: number; riseWithout: number } | null;
}
interface Page {
  worth: Worth;
  basis: Basis;
  passing: {
    share: number | null;
    wanted: number;
    fry: number;
    survival: number;
    chance: number | null;
    fryFor: { certainty: number; fry: number | null }[];
  };
  warnings: { code: string; planning: string }[];
  lineWithYoung: {
    fish: number;
    keep: number;
    now: number;
    ofYoung: number;
    after: number;
  } | null;
  sireCondition: Condition;
  damCondition: Condition;
}

describe('what a pair is worth', () => {
  let api: RunningApi;
  let records: Records;
  let lineId = '';
  let traitId = '';
  const ids = new Map<string, string>();

  const list = async (input: object = { lineIds: [lineId] }) => {
    const { pairingCandidates } = await api.graphql<{
      pairingCandidates: { totalCount: number; basis: Basis; edges: { node: Node }[] };
    }>(LIST, { input });
    return { ...pairingCandidates, nodes: pairingCandidates.edges.map(({ node }) => node) };
  };
  const pair = async (s: string, d: string, input: object | null = null): Promise<Page> =>
    (await api.graphql<{ plannedBrood: Page }>(PAIR, { s, d, input })).plannedBrood;
  const score = (tag: string, value: number) =>
    newRecords(api).recordScores({
      ...{ fishId: ids.get(tag)!, scoredOn: '2026-04-01' },
      scores: [{ traitId, value }],
    });
  const say = (expectedVersion: number, more: Parameters<typeof saidOf>[0]) =>
    api.graphql(SAY, { input: { lineId, expectedVersion, content: saidOf(more) } });
  const aim = () => ({ traitId, better: 'HIGHER', low: 170, high: null, worth: 0.5 });

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    lineId = await records.line('W');
    traitId = await newRecords(api).createTrait({
      ...{ key: 'spread', name: 'spread', kind: 'MEASURED', unit: '°' },
      ...{ minimum: 0, maximum: 240, higherIsBetter: true },
    });
    const one = async (tag: string, sex: 'MALE' | 'FEMALE', more: object = {}) => {
      ids.set(tag, await records.fish(tag, sex, { hatchDate: '2026-01-05', ...more }));
    };
    for (const [tag, sex] of [
      ['A', 'MALE'],
      ['B', 'FEMALE'],
      ['C', 'MALE'],
      ['D', 'FEMALE'],
    ] as const)
      await one(tag, sex, { lineId, hatchDate: '2025-04-01' });
    for (const [name, sire, dam, base] of [
      ['S', 'A', 'B', 178],
      ['T', 'C', 'D', 160],
    ] as const) {
      const spawnId = await records.spawn(name, ids.get(sire)!, ids.get(dam)!, {
        ...{ lineId, spawnedOn: '2026-01-02' },
      });
      for (let k = 0; k < 6; k++) {
        const tag = `${name}${k}`;
        await one(tag, k % 2 === 0 ? 'MALE' : 'FEMALE', { spawnId });
        await score(tag, base + 3 * ((k * 5) % 6));
      }
    }
  });
  afterAll(() => api.close());

  it('stands in order of F as long as nobody said what the line is for, and says so', async () => {
    const { basis, nodes } = await list();
    expect(basis).toMatchObject({ lineId, version: 0, notCounted: [] });
    expect(new Set(nodes.map(({ worth }) => worth.points))).toEqual(new Set([0]));
    const open = nodes.filter(({ discouraged }) => !discouraged);
    const found = open.map(({ inbreedingCoefficient }) => inbreedingCoefficient);
    expect(new Set(found).size).toBeGreaterThan(1);
    expect(found).toEqual(found.toSorted((a, b) => a - b));
  });

  it('has the values that are aimed at worked out ahead, once records are left alone', async () => {
    const ahead = api.served.app.get(ValuesAhead);
    const look = ahead.look.bind(ahead);
    // No look of its own comes in between.
    const held = vi.spyOn(ahead, 'look').mockResolvedValue();
    await say(0, { traits: [aim()], broods: 2, keep: 8, inbreedingCost: 4 });
    const db = await recordsOf(api);
    const workedOut = () =>
      db.query<{ subject: string }[]>(
        `SELECT subject FROM computation WHERE kind = 'breeding values'`,
      );
    await look();
    expect(await workedOut()).toEqual([]);
    await look();
    expect(await workedOut()).toEqual([{ subject: traitId }]);
    held.mockRestore();
  });

  it('is in order of points once it was said, each the sum of its parts', async () => {
    const { basis, nodes } = await list();
    expect(basis).toMatchObject({ version: 1, inbreedingCost: 4, costBasis: 'PERSON', keep: 4 });
    const open = nodes.filter(({ discouraged }) => !discouraged);
    const points = open.map(({ worth }) => worth.points);
    expect(points).toEqual(points.toSorted((a, b) => b - a));
    expect(open[0]?.worth.likeBest).toBe(true);
    expect(nodes.slice(0, open.length)).toEqual(open);
    for (const { worth, inbreedingCoefficient } of nodes) {
      const [trait] = worth.traits;
      expect(worth.points).toBeCloseTo(trait!.points + worth.choice + worth.inbreeding, 9);
      expect(worth.inbreeding).toBeCloseTo(-40 * inbreedingCoefficient, 9);
      expect(trait!.points).toBeCloseTo(0.5 * (trait!.mean - trait!.lineMean), 9);
      expect(worth.raised).toBeCloseTo(basis.fry * basis.survival, 9);
      expect(worth.choice).toBeCloseTo(
        0.5 * trait!.deviation * trait!.inheritedShare * bestOfBrood(Math.round(worth.raised), 4),
        6,
      );
    }
  });

  it('rests on the very breeding values that stand on the parents’ pages', async () => {
    const { nodes, basis } = await list();
    expect(basis.errorsTogether).toBe(true);
    const valueOf = async (id: string) => {
      const { fish } = await api.graphql<{
        fish: { merit: { value: { value: number; standardError: number } }[] };
      }>(`query ($id: ID!) { fish(id: $id) { merit { value { value standardError } } } }`, { id });
      return fish.merit[0]!.value;
    };
    const levels: number[] = [];
    for (const { sire, dam, worth, inbreedingCoefficient } of nodes) {
      const [s, d] = [await valueOf(sire.id), await valueOf(dam.id)];
      levels.push(worth.traits[0]!.mean - (s.value + d.value) / 2);
      // What is not known of brother and sister goes together; more than all of it cannot.
      const alone = 0.25 * Math.hypot(s.standardError, d.standardError);
      const most = 0.25 * (s.standardError + d.standardError);
      if (inbreedingCoefficient === 0.25) {
        expect(worth.standardError).toBeGreaterThan(1.02 * alone);
        expect(worth.standardError).toBeLessThan(most);
      } else expect(worth.standardError / alone).toBeCloseTo(1, 1);
    }
    for (const level of levels) expect(level).toBeCloseTo(levels[0]!, 6);
  });

  it('is the same on the pair’s page, with the chance and the fry for it', async () => {
    const { nodes } = await list();
    const { sire, dam, worth } = nodes[0]!;
    const page = await pair(sire.id, dam.id, { lineIds: [lineId] });
    expect(page.worth).toEqual({ ...worth, likeBest: null });
    // Without a choice the line of both counts.
    expect((await pair(sire.id, dam.id)).worth).toEqual(page.worth);
    const { passing } = page;
    expect(passing).toMatchObject({ wanted: 4, fry: page.basis.fry });
    expect(passing.share).toBeGreaterThan(0);
    expect(passing.chance).toBeGreaterThan(0);
    const reached = passing.fryFor.flatMap(({ fry }) => (fry === null ? [] : [fry]));
    expect(reached).toEqual(reached.toSorted((a, b) => a - b));
    expect(passing.fryFor.map(({ certainty }) => certainty)).toEqual([0.8, 0.9, 0.95]);
  });

  it('stands beside what the young do to the kinship of their line', async () => {
    const told = async (sire: string, dam: string) =>
      (await pair(ids.get(sire)!, ids.get(dam)!)).lineWithYoung!;
    const sibs = await told('S0', 'S1');
    expect(sibs).toMatchObject({ fish: 16, keep: 4 });
    // Four founders, each with itself 1/2 and with six young 1/4; and the young of either pair, each with itself 1/2 and with five sibs 1/4.
    const all = 4 / 2 + (2 * 24) / 4 + 2 * (6 / 2 + 30 / 4);
    expect(sibs.now).toBeCloseTo(all / 16 ** 2, 12);
    // The young of sibs: 1/4 with each of 2 parents of these and 6 of their family, 3/8 with their own two.
    expect(sibs.ofYoung).toBeCloseTo((2 / 4 + 4 / 4 + 2 * (3 / 8)) / 16, 12);
    expect(sibs.after).toBeGreaterThan((await told('S0', 'T1')).after);
  });

  it('is the same among the pairs that are proposed together, with its error and the fry to raise', async () => {
    const { pairProposal } = await api.graphql<{
      pairProposal: {
        fry: number | null;
        pairs: (Pick<Page, 'passing'> & {
          sire: { id: string };
          dam: { id: string };
          worth: number;
          standardError: number;
        })[];
      };
    }>(
      `query ($input: PairProposalInput!) { pairProposal(input: $input) { fry pairs { sire { id } dam { id } worth standardError
        passing { share wanted fry survival chance fryFor { certainty fry } } } } }`,
      { input: { lineId } },
    );
    expect(pairProposal.pairs).toHaveLength(2);
    expect(pairProposal.fry).toBe(STARTING_PURPOSE.fry);
    for (const { sire, dam, worth, standardError, passing } of pairProposal.pairs) {
      const page = await pair(sire.id, dam.id, { lineIds: [lineId] });
      expect(worth).toBeCloseTo(page.worth.points, 9);
      expect(standardError).toBeCloseTo(page.worth.standardError, 9);
      expect(standardError).toBeGreaterThan(0);
      expect(passing).toEqual(page.passing);
    }
  });

  it('changes with a score and with what the line is for, and not before', async () => {
    const before = await list();
    expect(await list()).toEqual(before);
    await score('T1', 230);
    const after = await list();
    expect(after.nodes[0]?.worth.points).not.toBeCloseTo(before.nodes[0]!.worth.points, 6);
    await say(1, { traits: [aim()] });
    const stated = await list();
    expect(stated.basis).toMatchObject({ version: 2, costBasis: 'STATED_RATE' });
    const { lineDeviation } = stated.nodes[0]!.worth.traits[0]!;
    expect(stated.basis.inbreedingCost).toBeCloseTo(STATED_LOSS * 0.5 * lineDeviation, 9);
  });

  it('says of which trait nothing is known yet', async () => {
    const traitId = await newRecords(api).createTrait({
      key: 'shine',
      name: 'shine',
      kind: 'ORDINAL',
      minimum: 0,
      maximum: 5,
    });
    await say(2, { traits: [aim(), { ...aim(), traitId, low: null }] });
    const { basis, nodes } = await list();
    expect(basis.notCounted).toMatchObject([{ trait: { id: traitId } }]);
    expect(nodes[0]?.worth.traits).toHaveLength(1);
  });

  it('tells what it finds both fish in, and a fish that is not here', async () => {
    await api.graphql(`mutation ($input: DecideFishInput!) { decideFish(input: $input) { id } }`, {
      input: { id: ids.get('C'), disposition: 'DIED', on: '2026-05-01', reason: 'old' },
    });
    const { sireCondition, damCondition, warnings } = await pair(ids.get('C')!, ids.get('B')!);
    expect(sireCondition).toMatchObject({ spawns: 1, failures: 0, isHere: false, place: null });
    expect(warnings).toContainEqual({ code: 'DEAD', planning: 'REFUSE' });
    expect(damCondition).toMatchObject({ spawns: 1, isHere: true });
    expect(damCondition.restDays).toBeGreaterThan(0);
    expect(damCondition.place!.of).toBeGreaterThan(10);
    expect(damCondition.place!.place).toBeLessThanOrEqual(damCondition.place!.of);
  });
});
