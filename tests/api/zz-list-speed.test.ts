import { appendFileSync } from 'node:fs';
import { it } from 'vitest';
import { startApi } from './harness.js';

it('measures', async () => {
  const api = await startApi({ environment: { LONG_FROM_FISH: '1000000' } });
  const rows = Array.from({ length: 10_000 }, (_, i) => {
    const line = `L${i % 20}`;
    const sire = i >= 400 ? `T${i - 400 - (i % 2)}` : '';
    const dam = i >= 400 ? `T${i - 399 - (i % 2)}` : '';
    return `T${i},${['male', 'female'][i % 2]},${line},${sire},${dam},20${String(Math.floor(i / 400)).padStart(2, "0")}-03-0${1 + (i % 9)}`;
  });
  const out: Record<string, unknown> = {};
  let before = performance.now();
  const text = `tag,sex,line,sire,dam,hatched\n${rows.join('\n')}`;
  await api.graphql(
    'mutation ($t: String!) { confirmImport(fileName: "l.csv", columns: [], text: $t) { __typename } }',
    { t: text },
  );
  out['import ms'] = Math.round(performance.now() - before);
  const list = (args: string) => `{ fishList(first: 50${args}) { edges { node { id tag sex line { code } } } pageInfo { endCursor } } }`;
  let cursor = '';
  for (let i = 0; i < 150; i += 1) {
    const page = await api.graphql<{ fishList: { pageInfo: { endCursor: string } } }>(
      list(`, sort: { field: TAG, direction: ASC }${cursor ? `, after: "${cursor}"` : ''}`));
    cursor = page.fishList.pageInfo.endCursor;
  }
  const { fishList } = await api.graphql<{ fishList: { edges: { node: { id: string } }[] } }>(list(''));
  const id = fishList.edges[7]!.node.id;
  const queries: Record<string, string> = {
    newest: list(''),
    'by tag': list(', sort: { field: TAG, direction: ASC }'),
    'by tag, page 151': list(`, sort: { field: TAG, direction: ASC }, after: "${cursor}"`),
    'text filter': list(', filter: { text: "T77" }'),
    'one fish': `{ fish(id: "${id}") { id tag inbreedingCoefficient spawn { tag sire { tag } dam { tag } } } }`,
  };
  for (const [name, query] of Object.entries(queries)) {
    const times: number[] = [];
    for (let i = 0; i < 120; i += 1) {
      before = performance.now();
      await api.graphql(query);
      if (i >= 20) times.push(performance.now() - before);
    }
    times.sort((a, b) => a - b);
    out[name] = `${times[50]!.toFixed(2)} (${times[10]!.toFixed(2)}..${times[90]!.toFixed(2)})`;
  }
  appendFileSync('/tmp/water/measured.txt', `${JSON.stringify(out, null, 1)}\n`);
  await api.close();
});
