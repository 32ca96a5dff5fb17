import fc from 'fast-check';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAgo } from '../clock.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';
import { exchange, grant, pairUp, type Partner, takeOffered } from './paired-installs.js';

const FISH = 'query ($id: ID!) { fish(id: $id) { person { id } swimsWith { id } } }';
const LIST =
  'query ($id: ID) { handOvers(first: 9, fishId: $id) { edges { node { id state side } } } }';
const OFFER = 'mutation ($input: OfferFishInput!) { offerFish(input: $input) { id } }';
const ACCEPT = 'mutation ($input: AcceptFishInput!) { acceptFish(input: $input) { state } }';
const seed = 20261127;

interface Seen {
  readonly person: { readonly id: string };
  readonly swimsWith: { readonly id: string } | null;
}

describe('fish that go between three installs with one line', () => {
  let installs: RunningApi[] = [];
  const ids: Record<string, string> = {};
  /** Each looks into the folder that it shares with another. */
  let looks: (readonly [api: RunningApi, partner: string])[] = [];
  const folders: string[] = [];
  let [anna, bo, cleo] = ['', '', ''];

  beforeAll(async () => {
    installs = await Promise.all([startApi(), startApi(), startApi()]);
    const [a, b, c] = installs as [RunningApi, RunningApi, RunningApi];
    const make = newRecords(a);
    const line = await make.createLine({ code: 'R', name: 'Rust' });
    for (const tag of ['TO-B', 'TO-C', 'LENT', 'STAYS'])
      ids[tag] = await make.createFish({ tag, sex: 'MALE', lineId: line });
    const paired: [Partner, Partner][] = [];
    for (const [other, name] of [
      [b, 'Bo'],
      [c, 'Cleo'],
    ] as const) {
      const { folder, ofB, ofA } = await pairUp(a, other, name);
      folders.push(folder);
      paired.push([ofB, ofA]);
      await grant(a, ofB.person.id, line);
      await exchange(a, ofB.id);
      await exchange(other, ofA.id);
      await takeOffered(other, ofA.id, line);
    }
    const [[ofB, ofA], [ofC, ofAToo]] = paired as [[Partner, Partner], [Partner, Partner]];
    [anna, bo, cleo] = [ofA.person.id, ofB.person.id, ofC.person.id];
    looks = [
      [a, ofB.id],
      [b, ofA.id],
      [a, ofC.id],
      [c, ofAToo.id],
    ];
    await settle(0);
  });
  afterAll(() => Promise.all(installs.map((api) => api.close())));

  /** Everybody looks until nothing more comes, in an order of chance; before that, files of earlier come again. */
  const settle = async (step: number): Promise<void> => {
    const [order] = fc.sample(
      fc.shuffledSubarray([0, 1, 2, 3, 0, 1, 2, 3], { minLength: 8, maxLength: 8 }),
      { seed: seed + step, numRuns: 1 },
    );
    for (const which of [...order!, 0, 2, 1, 3, 0, 2, 1, 3]) {
      const { problem, lines } = await exchange(...looks[which]!);
      expect([problem, ...lines.map((line) => line.problem)]).toEqual([null, null]);
    }
  };
  const offer = (api: RunningApi, tag: string, toId: string, more: object = {}) =>
    api.graphql(OFFER, { input: { fishIds: [ids[tag]], toId, kind: 'GIFT', ...more } });
  const accept = async (api: RunningApi, tag: string): Promise<void> => {
    const { handOvers } = await api.graphql<{
      handOvers: { edges: { node: { id: string; state: string; side: string } }[] };
    }>(LIST, { id: ids[tag] });
    const open = handOvers.edges.find(
      ({ node }) => node.state === 'OFFERED' && node.side === 'RECEIVER',
    );
    await api.graphql(ACCEPT, { input: { ids: [open!.node.id] } });
  };
  const everywhere = async (tag: string, person: string, swims: string): Promise<void> => {
    for (const [at, api] of installs.entries()) {
      const { fish } = await api.graphql<{ fish: Seen }>(FISH, { id: ids[tag] });
      expect([tag, at, fish.person.id, fish.swimsWith?.id]).toEqual([tag, at, person, swims]);
    }
  };
  const nothingWaits = async (): Promise<void> => {
    for (const api of installs)
      expect(await api.graphql('{ differences(first: 5) { totalCount } }')).toEqual({
        differences: { totalCount: 0 },
      });
  };

  it('are whose they are on all three, also where neither giver nor receiver is', async () => {
    const [a, b, c] = installs as [RunningApi, RunningApi, RunningApi];
    const files = folders.flatMap((folder) =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.age'))
        .map((name) => [join(folder, name), readFileSync(join(folder, name))] as const),
    );
    await offer(a, 'TO-B', bo);
    await offer(a, 'TO-C', cleo);
    await offer(a, 'LENT', bo, { kind: 'LOAN', backOn: daysAgo(-9) });
    await settle(1);
    for (const tag of ['TO-B', 'LENT']) await accept(b, tag);
    await accept(c, 'TO-C');
    await settle(2);
    await everywhere('TO-B', bo, bo);
    await everywhere('TO-C', cleo, cleo);
    await everywhere('LENT', anna, bo);
    await everywhere('STAYS', anna, anna);
    await nothingWaits();
    // One goes back for good; files of before all that come once more.
    await offer(b, 'TO-B', anna);
    await settle(3);
    await accept(a, 'TO-B');
    for (const [path, bytes] of files) writeFileSync(path, bytes);
    await settle(4);
    await settle(5);
    await everywhere('TO-B', anna, anna);
    await everywhere('TO-C', cleo, cleo);
    await nothingWaits();
  });
});
