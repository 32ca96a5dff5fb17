import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi } from './harness.js';

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

  it('a page larger than the largest', async () => {
    const answer = await api.send('{ fishList(first: 201) { totalCount } }');
    expect(answer.errors?.[0]?.message).toContain('201');
  });
});
