import { randomUUID } from 'node:crypto';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import { isInputObjectType, isObjectType, parse } from 'graphql';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { limitOf } from '../../apps/api/src/graphql/input-limits.js';
import { costOf, LARGEST_COST } from '../../apps/api/src/graphql/limits.js';
import { fileOperations, workedOperations } from '../../apps/api/src/graphql/work-costs.js';
import { LARGEST_AMOUNT } from '../../apps/api/src/limits/lengths.js';
import { type RunningApi, startApi, recordsOf } from './harness.js';
import { documentOf } from './hostile-values.js';
import { modest, valueOf } from './typed-values.js';

describe('limits on one request', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi();
  });
  afterAll(() => api.close());

  const refusal = async (query: string): Promise<{ status: number; message: string }> => {
    const response = await api.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ query }),
    });
    const body = (await response.json()) as { errors?: { message: string }[] };
    return { status: response.status, message: body.errors?.[0]?.message ?? '' };
  };

  it('depth', async () => {
    const deep = `{ fishList { edges { node { ${'sire { '.repeat(14)} id ${'} '.repeat(14)} } } } }`;
    const { status, message } = await refusal(deep);
    expect(status).toBe(400);
    expect(message).toMatch(/depth/i);
  });

  it('aliases', async () => {
    const many = `{ ${Array.from({ length: 30 }, (_, i) => `a${i}: lines { id }`).join(' ')} }`;
    const { status, message } = await refusal(many);
    expect(status).toBe(400);
    expect(message).toMatch(/alias/i);
  });

  it('tokens', async () => {
    const { status, message } = await refusal(`{ ${'lines { id } '.repeat(900)} }`);
    expect(status).toBe(400);
    expect(message).toMatch(/token/i);
  });

  it('field cost', async () => {
    const wide =
      '{ fishList(first: 200) { edges { node { id tag sire { id tag sire { id tag name note origin } } dam { id tag name note origin sire { id tag name note origin } } scores { id value trait { id name key } } genotypes { id genotype fish { id tag sire { id tag name note } } } spawnsAsParent { id tag fish { id tag sire { id tag name note } } events { id note } counts { id note } losses { id note } } } } } }';
    const costly = `{ ${[1, 2, 3, 4, 5].map((i) => `l${i}: ${wide.slice(2, -2)}`).join(' ')} }`;
    const { status, message } = await refusal(costly);
    expect(status).toBe(400);
    expect(message).toMatch(/limit is/);
  });

  const aliased = (times: number, field: string): string =>
    Array.from({ length: times }, (_, i) => `a${i}: ${field}`).join(' ');

  it('files: two in one request, and not a third', async () => {
    const preview = 'previewImport(fileName: "a.csv", text: "tag\\nA") { problems { code } }';
    expect(await refusal(`mutation { ${aliased(3, preview)} }`)).toMatchObject({
      status: 400,
      message: expect.stringMatching(/work of as many; the limit is/) as string,
    });
    const two = await api.graphql<Record<string, unknown>>(`mutation { ${aliased(2, preview)} }`);
    expect(Object.values(two)).toEqual([{ problems: [] }, { problems: [] }]);
  });

  it('work that its fields do not show: nowhere twenty of it in one request', () => {
    const { schema } = api.served.app.get(GraphQLSchemaHost);
    const roots = [schema.getQueryType(), schema.getMutationType()].filter((one) => one != null);
    const operations = roots.flatMap((root) =>
      Object.values(root.getFields()).map((operation) => ({ root, operation })),
    );
    const costOfMany = (name: string, times: number): number => {
      const found = operations.find(({ operation }) => operation.name === name);
      if (found === undefined) throw new Error(`There is no operation ${name}.`);
      const { root, operation } = found;
      const variables = Object.fromEntries(
        operation.args.map((arg) => [arg.name, valueOf(arg.type, modest, arg.name)]),
      );
      const given = operation.args.map(({ name: arg }) => arg);
      const kind = root === schema.getQueryType() ? 'query' : 'mutation';
      const document = documentOf(kind, operation, given, 0);
      const [, head, field] = /^(.*?\)?) \{ (.*) \}$/s.exec(document) ?? [];
      return costOf(schema, parse(`${head} { ${aliased(times, field ?? '')} }`), variables);
    };
    const files = [...fileOperations(schema)];
    expect(files.sort()).toEqual(['beginImport', 'confirmImport', 'previewImport']);
    for (const name of [...files, ...workedOperations]) {
      expect(costOfMany(name, 20), name).toBeGreaterThan(LARGEST_COST);
      expect(costOfMany(name, 1), name).toBeLessThan(LARGEST_COST / 2);
    }
    for (const name of files) expect(costOfMany(name, 3), name).toBeGreaterThan(LARGEST_COST);
  });

  it('lists inside one another, paged or not', async () => {
    const brood = 'spawnList(first: 200) { edges { node { fish { spawn { fish { id } } } } } }';
    const { status, message } = await refusal(`{ ${brood} }`);
    expect(status).toBe(400);
    expect(message).toMatch(/limit is/);
  });

  it('an answer that grows too large while it is made', async () => {
    const db = await recordsOf(api);
    const [person] = (await db.query('SELECT id FROM person')) as { id: string }[];
    const spawn = randomUUID();
    await db.query(`INSERT INTO spawn (id, person_id, tag) VALUES ($1, $2, 'B')`, [
      spawn,
      person?.id,
    ]);
    await db.query(
      `INSERT INTO fish (id, person_id, tag, sex, spawn_id, disposition)
       SELECT gen_random_uuid(), $1, 'B-' || n, 'unsexed', $2, 'unsorted' FROM generate_series(1, 900) n`,
      [person?.id, spawn],
    );
    const query = `{ spawn(id: "${spawn}") { fish { id spawn { fish { tag } } } } }`;
    const response = await api.http('/graphql', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ query }),
    });
    const text = await response.text();
    expect(text).toContain('ANSWER_TOO_LARGE');
    expect(text.length).toBeLessThan(10_000);
  });

  it('every text, number and list of the schema', () => {
    const without: string[] = [];
    const { schema } = api.served.app.get(GraphQLSchemaHost);
    const look = (place: string, type: Parameters<typeof limitOf>[1]): void => {
      const { characters, items, size } = limitOf(place, type);
      const named = String(type).replace(/[![\]]/g, '');
      if ((named === 'String' || named === 'ID') && !(characters! <= 16_000_000))
        without.push(place);
      if (named === 'Int' && !(size! <= 2 ** 31)) without.push(place);
      // Money in its smallest unit is more in some currencies than an Int holds.
      if (named === 'Float' && !(size! <= LARGEST_AMOUNT)) without.push(place);
      if (String(type).includes('[') && !(items! <= 1_000)) without.push(place);
    };
    let files = 0;
    for (const type of Object.values(schema.getTypeMap())) {
      if (type.name.startsWith('__')) continue;
      if (isInputObjectType(type))
        for (const { name, type: of } of Object.values(type.getFields()))
          look(`${type.name}.${name}`, of);
      if (isObjectType(type))
        for (const field of Object.values(type.getFields()))
          for (const { name, type: of } of field.args) {
            look(`${type.name}.${field.name}.${name}`, of);
            if (limitOf(`${type.name}.${field.name}.${name}`, of).characters === 16_000_000)
              files += 1;
          }
    }
    expect(without).toEqual([]);
    expect(files).toBe(2);
  });

  it.each([
    ['createLine', 'CreateLineInput', { code: 'A', name: 'x'.repeat(10_000) }, 'name'],
    ['createFish', 'CreateFishInput', { tag: 'x'.repeat(500), sex: 'MALE' }, 'tag'],
    [
      'createTrait',
      'CreateTraitInput',
      {
        ...{ key: 'a', name: 'A', kind: 'MEASURED' },
        grades: [
          { from: 1, name: 'g' },
          { from: 2, name: 'x'.repeat(300) },
        ],
      },
      'grades.1.name',
    ],
  ])('%s tells the field that is too long, and by how much', async (name, type, input, field) => {
    const { errors } = await api.send(
      `mutation ($input: ${type}!) { ${name}(input: $input) { id } }`,
      { input },
    );
    const { code, fields } = (errors?.[0]?.extensions ?? {}) as {
      code?: string;
      fields?: object[];
    };
    expect(code).toBe('VALIDATION');
    expect(fields).toEqual([{ field, message: expect.stringMatching(/at most \d+/) as string }]);
  });

  it('a table far too wide is refused before it is built', async () => {
    const text = `tag,${'a,'.repeat(50_000)}\n${`x,${'1,'.repeat(50_000)}\n`.repeat(10)}`;
    const { previewImport } = await api.graphql<{
      previewImport: { problems: { code: string }[] };
    }>(
      'mutation ($text: String!) { previewImport(fileName: "a.csv", text: $text) { problems { code } } }',
      { text },
    );
    expect(previewImport.problems.map(({ code }) => code)).toContain('IMPORT_TOO_LARGE');
  });

  it('a name kept from before there were limits is printed, cut short', async () => {
    const db = await recordsOf(api);
    const [fish] = (await db.query(
      `UPDATE fish SET name = repeat('name ', 40000) WHERE tag = 'B-1' RETURNING id`,
    )) as [{ id: string }[]];
    const response = await api.http(`/export/print/jar-labels.pdf?fish=${fish?.[0]?.id ?? ''}`);
    expect(response.status).toBe(200);
  });

  it('a page larger than the largest', async () => {
    const answer = await api.send('{ fishList(first: 201) { totalCount } }');
    expect(answer.errors?.[0]?.message).toContain('201');
  });
});
