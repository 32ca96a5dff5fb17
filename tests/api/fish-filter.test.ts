import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newRecords } from '../new-records.js';
import { daysAgo } from '../clock.js';
import { type RunningApi, startApi } from './harness.js';

const LIST = `query ($filter: FishFilter) { fishList(filter: $filter) {
  totalCount edges { node { tag } } } }`;
interface Listed {
  fishList: { totalCount: number; edges: { node: { tag: string } }[] };
}

let api: RunningApi;
let traitId = '';
const tags = async (filter: object): Promise<string[]> => {
  const { fishList } = await api.graphql<Listed>(LIST, { filter });
  expect(fishList.totalCount).toBe(fishList.edges.length);
  return fishList.edges.map(({ node }) => node.tag);
};

beforeAll(async () => {
  api = await startApi();
  const made = newRecords(api);
  const [first = '', second = ''] = [
    await made.createFish({ tag: 'A', sex: 'MALE' }),
    await made.createFish({ tag: 'B', sex: 'MALE' }),
    await made.createFish({ tag: 'C', sex: 'MALE' }),
  ];
  await made.recordPhenotype({
    ...{ fishId: first, locusId: 'dt', phenotype: 'double', seenOn: daysAgo(2) },
  });
  await made.recordGenotype({ fishId: second, locusId: 'dt', genotype: 'Dt/dt', basis: 'ASSUMED' });
  traitId = await made.createTrait({
    ...{ key: 'spread', name: 'Spread', kind: 'MEASURED', unit: 'degrees' },
  });
  const scored = (fishId: string, value: number, days: number) =>
    made.recordScores({ fishId, scoredOn: daysAgo(days), scores: [{ traitId, value }] });
  await scored(first, 170, 9);
  await scored(first, 150, 1);
  await scored(second, 165, 3);
});
afterAll(() => api.close());

describe('fish by what was seen of them', () => {
  it('by a look', async () => {
    expect(await tags({ look: { locusId: 'dt', look: 'double' } })).toEqual(['A']);
    expect(await tags({ look: { locusId: 'dt', look: 'single' } })).toEqual([]);
  });

  it('by an allele in the genotype on record, however it is written', async () => {
    const allele = { locusId: 'dt', writtenAs: ['double', 'dt'] };
    expect(await tags({ allele })).toEqual(['B']);
    expect(await tags({ allele: { ...allele, locusId: 'bl' } })).toEqual([]);
  });

  it('by the latest score, within bounds', async () => {
    expect(await tags({ score: { traitId, least: 160 } })).toEqual(['B']);
    expect(await tags({ score: { traitId, most: 160 } })).toEqual(['A']);
    expect(await tags({ score: { traitId } })).toEqual(['A', 'B']);
  });

  it('by whether there is a photo', async () => {
    expect(await tags({ hasPhoto: false })).toEqual(['A', 'B', 'C']);
    expect(await tags({ hasPhoto: true })).toEqual([]);
  });
});
