import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type GraphqlAnswer, type RunningApi, startApi, recordsOf } from '../api/harness.js';
import { postmasterPid, query } from './processes.js';
import { until } from './second-process.js';
import { creation } from '../new-records.js';

const KILLS = 5;
const WRITERS = 4;
const CREATE = creation('createFish');
const IMPORT = `mutation ($input: BeginImportInput!) { beginImport(input: $input) { id computation { id } } }`;

const codeOf = ({ errors }: GraphqlAnswer<unknown>): string | undefined =>
  errors?.[0]?.extensions.code;

describe('the embedded server, killed again and again while the API runs', () => {
  let api: RunningApi;
  let cluster = '';
  let done = false;
  const saved: string[] = [];
  const told = new Set<string | undefined>();

  beforeAll(async () => {
    api = await startApi({ embedded: true, environment: { LONG_FROM_FISH: '1' } });
    const [row] = (await query(
      api.served.databaseUrl,
      `SELECT current_setting('data_directory') AS folder`,
    )) as { folder: string }[];
    cluster = row?.folder ?? '';
  });
  afterAll(() => api.close());

  const alive = async (): Promise<boolean> => {
    const answer = await api.send('{ session { signedIn } }').catch(() => null);
    return (answer?.data as { session?: { signedIn: boolean } } | null)?.session?.signedIn === true;
  };

  const writer = async (): Promise<void> => {
    while (!done) {
      const id = randomUUID();
      const answer = await api.send(CREATE, { input: { id, tag: id, sex: 'MALE' } });
      if (answer.data !== null && answer.data !== undefined && answer.errors === undefined)
        saved.push(id);
      else {
        told.add(codeOf(answer));
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
    }
  };

  it('comes back each time, and no record that was acknowledged is lost', async () => {
    const writers = Array.from({ length: WRITERS }, writer);
    for (let kill = 0; kill < KILLS; kill++) {
      const before = saved.length;
      await until(() => saved.length > before + 5, 20);
      const pid = postmasterPid(cluster);
      process.kill(pid, 'SIGKILL');
      await until(() => !same(pid), 20);
      await until(alive);
    }
    done = true;
    await Promise.all(writers);
    const rows = (await (await recordsOf(api)).query('SELECT id FROM fish')) as {
      id: string;
    }[];
    const kept = new Set(rows.map(({ id }) => id));
    expect(saved.filter((id) => !kept.has(id))).toEqual([]);
    expect(saved.length).toBeGreaterThan(KILLS * 5);
    // A row that was saved while its answer was lost is not tried again here, so nothing else is told.
    expect([...told].filter((code) => code !== undefined)).toEqual(['DATABASE_AWAY']);
  });

  const same = (pid: number): boolean => {
    try {
      return postmasterPid(cluster) === pid;
    } catch {
      return true;
    }
  };

  it('and long computations go on as before', async () => {
    const input = {
      ...{ id: randomUUID(), fileName: 'a.csv', purpose: 'TAKE', text: 'tag\nA-1\nA-2\n' },
    };
    const { beginImport } = await api.graphql<{ beginImport: { computation: { id: string } } }>(
      IMPORT,
      { input },
    );
    await until(async () => {
      const { computation } = await api.graphql<{ computation: { state: string } }>(
        'query ($id: ID!) { computation(id: $id) { state } }',
        { id: beginImport.computation.id },
      );
      expect(['QUEUED', 'RUNNING', 'DONE']).toContain(computation.state);
      return computation.state === 'DONE';
    });
  });
});
