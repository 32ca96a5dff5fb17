import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { ThreadPool } from './thread-pool.js';

/** Answers which thread it is, and how many tasks it has had. */
const PROGRAM = `
  import { parentPort, threadId } from 'node:worker_threads';
  let had = 0;
  parentPort.on('message', ({ task }) => {
    had += 1;
    const { does, heldMb = 1 } = task;
    if (does === 'answer') parentPort.postMessage({ kind: 'answer', answer: { threadId, had }, heldMb });
    if (does === 'refuse')
      parentPort.postMessage({ kind: 'error', message: 'no', code: 'VALIDATION', details: {}, heldMb });
    if (does === 'end') process.exit(0);
  });
`;

interface Said {
  readonly threadId: number;
  readonly had: number;
}

describe('threads that are kept', () => {
  let folder: string;
  let file: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'linewright-pool-'));
    file = join(folder, 'program.mjs');
    writeFileSync(file, PROGRAM);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  const withPool = async (
    work: (pool: ThreadPool) => Promise<void>,
    idleMs = 60_000,
  ): Promise<void> => {
    const pool = new ThreadPool(file, { heap: { young: 4, old: 32 }, idleMs, mostKept: 10 });
    try {
      await work(pool);
    } finally {
      await pool.end();
    }
  };
  const answer = (pool: ThreadPool, heldMb?: number): Promise<Said> =>
    pool.ask<Said>({ does: 'answer', heldMb }, {});

  it('work on one task after another, and side by side where two are asked at once', () =>
    withPool(async (pool) => {
      const first = await answer(pool);
      expect(await answer(pool)).toEqual({ threadId: first.threadId, had: 2 });
      const both = await Promise.all([answer(pool), answer(pool)]);
      expect(new Set(both.map(({ threadId }) => threadId)).size).toBe(2);
      expect(pool.waiting).toBe(2);
    }));

  it('stay when their program refuses a task, and go when it ends or is stopped', () =>
    withPool(async (pool) => {
      const { threadId } = await answer(pool);
      await expect(pool.ask({ does: 'refuse' }, {})).rejects.toThrow('no');
      expect(await answer(pool)).toEqual({ threadId, had: 3 });
      const stop = new AbortController();
      const never = pool.ask({ does: 'nothing' }, { signal: stop.signal });
      // Once it is told its task.
      await new Promise(setImmediate);
      stop.abort();
      await expect(never).rejects.toThrow('stopped');
      const next = await answer(pool);
      expect(next).toMatchObject({ had: 1 });
      expect(next.threadId).not.toBe(threadId);
      await expect(pool.ask({ does: 'end' }, {})).rejects.toThrow('stopped');
      expect(pool.waiting).toBe(0);
    }));

  it('go when they hold too much, and when nobody asks for long', async () => {
    await withPool(async (pool) => {
      await answer(pool, 11);
      expect(pool.waiting).toBe(0);
      await answer(pool, 10);
      expect(pool.waiting).toBe(1);
    });
    await withPool(async (pool) => {
      await answer(pool);
      await vi.waitUntil(() => pool.waiting === 0, { timeout: 60_000 });
    }, 10);
  });
});
