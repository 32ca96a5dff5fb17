import type { DataSource } from 'typeorm';
import { expect, it } from 'vitest';
import { currentActor } from '../access/acting.js';
import { JobQueue } from './job-queue.js';

it('the queue is started for the program itself, also where nobody asks: at the start of a process', async () => {
  const startedFor: string[] = [];
  const dataSource = {
    options: { url: 'postgres://nowhere' },
    createQueryRunner: () => {
      startedFor.push(currentActor().kind);
      throw new Error('no database here');
    },
  } as unknown as DataSource;
  await expect(new JobQueue(dataSource).join()).rejects.toThrow('no database here');
  expect(startedFor).toEqual(['system']);
});
