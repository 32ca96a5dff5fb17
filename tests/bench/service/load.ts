import autocannon from 'autocannon';
import type { BenchServer } from './server.js';

/** How many keepers are there at once, each asking once in so many seconds. */
const KEEPERS = [10, 50, 200];
const SECONDS_BETWEEN = 2;
const SECONDS = 15;

const FISH_LIST = `query ($lineId: ID!) {
  fishList(first: 50, filter: { lineIds: [$lineId] }, sort: { field: HATCH_DATE, direction: DESC }) {
    edges { node { id tag sex hatchDate disposition inbreedingCoefficient line { code } spawn { tag } } }
    pageInfo { hasNextPage endCursor }
  }
}`;
const FISH = `query ($id: ID!) {
  fish(id: $id) { id tag sex disposition inbreedingCoefficient spawn { tag sire { tag } dam { tag } } line { code } }
}`;
const SPAWNS = `query ($lineId: ID!) {
  spawnList(first: 50, filter: { lineIds: [$lineId] }) { edges { node { id tag spawnedOn sire { tag } dam { tag } } } }
}`;

const bodiesOf = ({ lineId, fishId }: { lineId: string; fishId: string }): string[] => [
  JSON.stringify({ query: FISH_LIST, variables: { lineId } }),
  JSON.stringify({ query: FISH, variables: { id: fishId } }),
  JSON.stringify({ query: SPAWNS, variables: { lineId } }),
];

/** Keepers of a club's server, each looking at a list, a fish and the spawns of a line that was lent: time from when the question was due. */
export const loadKeepers = async (
  { url, stock, measure }: BenchServer,
  emit: (line: object) => void,
): Promise<void> => {
  for (const keepers of KEEPERS) {
    await measure();
    let next = 0;
    const found = await autocannon({
      url: `${url}/graphql`,
      connections: keepers,
      duration: SECONDS,
      overallRate: keepers / SECONDS_BETWEEN,
      method: 'POST',
      requests: [0, 1, 2].map((k) => ({
        method: 'POST',
        setupRequest: (request: autocannon.Request, context: object) => {
          const known = context as { keeper?: number };
          known.keeper ??= next++ % stock.keepers.length;
          const keeper = stock.keepers[known.keeper]!;
          return {
            ...request,
            headers: {
              'content-type': 'application/json',
              'linewright-zone': 'UTC',
              cookie: keeper.cookie,
            },
            body: bodiesOf(keeper)[k]!,
          };
        },
      })),
    });
    const { standMs, statements, peakMb } = await measure();
    emit({
      ...{
        what: 'load',
        keepers,
        fish: stock.fish,
        unit: 'ms',
        asked: found.requests.total,
        refused: found.non2xx,
      },
      ...{
        median: found.latency.p50,
        p90: found.latency.p90,
        p99: found.latency.p99,
        most: found.latency.max,
      },
      statements: Math.round((statements / Math.max(1, found.requests.total)) * 10) / 10,
      ...{ stand: Math.round(standMs), peakMb: Math.round(peakMb) },
    });
  }
};
