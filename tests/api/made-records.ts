import { randomUUID } from 'node:crypto';
import sharp from 'sharp';
import { expect } from 'vitest';
import { today } from '../clock.js';
import { asked, session } from './asked-server.js';
import type { RealIds } from './hostile-values.js';
import { begun } from './largest-work.js';
import type { MeteredServer } from './metered-server.js';
import { newRecords } from '../new-records.js';

const picture = sharp({
  create: { width: 640, height: 480, channels: 3, background: { r: 20, g: 90, b: 160 } },
})
  .png()
  .toBuffer();

/** Records of kinds that the demo has none or few of, made for the sweep. */
export const madeIds = async (server: MeteredServer, fish: readonly string[]): Promise<RealIds> => {
  const numbers = Array.from({ length: 6 }, (_, i) => i);
  const [imports, importRuns, computations, photos]: string[][] = [[], [], [], []];
  for (const i of numbers) {
    await asked(
      `mutation { confirmImport(fileName: "s${i}.csv", columns: [], text: "tag,sex\\nSW${i}-1,male\\nSW${i}-2,female") { __typename } }`,
    );
    const photo = randomUUID();
    const put = await fetch(
      `${server.url}/photos/${photo}?kind=fish&of=${fish[i] ?? ''}&taken=${today()}`,
      {
        method: 'PUT',
        body: new Uint8Array(await picture),
        headers: { 'content-type': 'image/png', origin: server.url, ...session() },
      },
    );
    expect(put.status).toBe(200);
    photos?.push(photo);
  }
  // Nothing but its size makes it long. One: a further look at a file lets go of those before it that have ended.
  const run = randomUUID();
  const { beginImport } = await asked<{ beginImport: { computation: { id: string } } }>(begun, {
    input: { id: run, purpose: 'LOOK', fileName: 'a.csv', text: `tag,${'a,'.repeat(1_000_000)}` },
  });
  importRuns?.push(run);
  computations?.push(beginImport.computation.id);
  const pastImports = await asked<{ pastImports: { edges: { node: { id: string } }[] } }>(
    '{ pastImports(first: 50) { edges { node { id } } } }',
  );
  imports?.push(...pastImports.pastImports.edges.map(({ node }) => node.id));
  const sexed = (sex: string) =>
    asked<{ fishList: { edges: { node: { id: string; tag: string; revision: number } }[] } }>(
      `{ fishList(first: 200, filter: { text: "SW", sexes: [${sex}] }) { edges { node { id tag revision } } } }`,
    );
  const [males, females] = [await sexed('MALE'), await sexed('FEMALE')].map(({ fishList }) =>
    fishList.edges.map(({ node }) => node),
  );
  const acts: string[] = [];
  const pairings: string[] = [];
  for (const i of numbers) {
    const [sire, dam] = [males?.[i], females?.[i]];
    const pair = { sireId: sire!.id, damId: dam!.id, plannedOn: today() };
    pairings.push(await newRecords({ graphql: asked }).planPairing(pair));
    const { changeFishTogether } = await asked<{ changeFishTogether: { id: string } }>(
      'mutation ($input: ChangeFishTogetherInput!) { changeFishTogether(input: $input) { id } }',
      {
        input: {
          fish: [{ id: dam?.id, revision: dam?.revision }],
          decision: { disposition: 'HOLD', on: today() },
        },
      },
    );
    acts.push(changeFishTogether.id);
  }
  return {
    ...{ imports: imports ?? [], importRuns: importRuns ?? [], computations: computations ?? [] },
    ...{ photos: photos ?? [], acts, pairings },
  };
};
