import { describe, expect, it } from 'vitest';
import { supervise, type SupervisionOptions } from './supervise.js';

const until = async (holds: () => boolean): Promise<void> => {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 1));
};

const watched = (
  restart: (times: number) => Promise<void>,
  more: Partial<SupervisionOptions> = {},
) => {
  const said: string[] = [];
  const server = { up: true, restarts: 0 };
  const supervisor = supervise(
    {
      alive: () => server.up,
      restart: async () => {
        server.restarts += 1;
        await restart(server.restarts);
        server.up = true;
      },
    },
    {
      ...{ everyMs: 1, restarts: 3, withinMs: 600_000 },
      onLost: () => said.push('lost'),
      onBack: () => said.push('back'),
      onGivenUp: (error) => said.push(`given up: ${(error as Error).message}`),
      ...more,
    },
  );
  return { said, server, supervisor };
};

describe('a supervised server', () => {
  it('is started again when it is gone, and both are told', async () => {
    const { said, server, supervisor } = watched(() => Promise.resolve());
    for (let time = 1; time <= 3; time++) {
      server.up = false;
      await until(() => said.length === 2 * time);
    }
    expect(said).toEqual(['lost', 'back', 'lost', 'back', 'lost', 'back']);
    await supervisor.stop();
  });

  it('is given up when it goes away too often, and is not looked at any more', async () => {
    const { said, server } = watched(() => Promise.resolve(), { restarts: 2 });
    for (let time = 1; time <= 2; time++) {
      server.up = false;
      await until(() => said.length === 2 * time);
    }
    server.up = false;
    await until(() => said.length === 5);
    expect(said.at(-1)).toMatch(/given up: .*3 times/);
    expect(server.restarts).toBe(2);
  });

  it('is given up when it cannot be started', async () => {
    const { said, server } = watched(() => Promise.reject(new Error('the disk is full')));
    server.up = false;
    await until(() => said.length === 2);
    expect(said).toEqual(['lost', 'given up: the disk is full']);
  });

  it('is left alone after the end', async () => {
    const { said, server, supervisor } = watched(() => Promise.resolve());
    await supervisor.stop();
    server.up = false;
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(said).toEqual([]);
  });
});
