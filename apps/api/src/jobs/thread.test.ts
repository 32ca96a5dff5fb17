import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { RequestError } from '../errors/request-error.js';
import { runInThread, WorkThread } from './thread.js';

/** A thread's program as plain JavaScript, which says what such programs say. */
const PROGRAM = `
  import { parentPort } from 'node:worker_threads';
  const say = (said) => parentPort.postMessage(said);
  let keep;
  parentPort.on('message', async (told) => {
    if (told.kind === 'keep') return keep();
    const { task } = told;
    if (task.does === 'double') {
      say({ kind: 'progress', share: 0.5 });
      say({ kind: 'answer', answer: task.number * 2 });
    }
    if (task.does === 'refuse')
      say({ kind: 'error', message: 'Give less.', code: 'VALIDATION', details: { most: 3 } });
    if (task.does === 'break') say({ kind: 'error', message: 'broken', code: null, details: {} });
    if (task.does === 'end') process.exit(0);
    if (task.does === 'throw') throw new Error('thrown');
    if (task.does === 'keep') {
      const kept = new Promise((resolve) => { keep = resolve; });
      say({ kind: 'ready' });
      await kept;
      say({ kind: 'progress', share: 1 });
      setTimeout(() => say({ kind: 'answer', answer: 'kept' }), 20);
    }
  });
`;

describe('a thread that is asked', () => {
  let folder: string;
  let file: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'linewright-thread-'));
    file = join(folder, 'program.mjs');
    writeFileSync(file, PROGRAM);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  const withThread = async (work: (thread: WorkThread) => Promise<void>): Promise<void> => {
    const thread = new WorkThread(file);
    try {
      await work(thread);
    } finally {
      await thread.end();
    }
  };

  it('answers one thing after another, and says how far it is', () =>
    withThread(async (thread) => {
      const shares: number[] = [];
      const onProgress = (share: number): void => void shares.push(share);
      const asked = [1, 2, 3].map((number) =>
        thread.ask<number>({ does: 'double', number }, { onProgress }),
      );
      expect(thread.idle).toBe(false);
      expect(await Promise.all(asked)).toEqual([2, 4, 6]);
      expect(shares).toEqual([0.5, 0.5, 0.5]);
      expect(thread.idle).toBe(true);
    }));

  it('gives an error for whoever asked back with its code, and one of its own without', () =>
    withThread(async (thread) => {
      const refused = await thread.ask({ does: 'refuse' }).catch((error: unknown) => error);
      expect(refused).toBeInstanceOf(RequestError);
      expect(refused).toMatchObject({ code: 'VALIDATION', details: { most: 3 } });
      const broken = await thread.ask({ does: 'break' }).catch((error: unknown) => error);
      expect(broken).not.toBeInstanceOf(RequestError);
      expect(broken).toMatchObject({ message: 'broken' });
      expect(await thread.ask<number>({ does: 'double', number: 4 })).toBe(8);
    }));

  it('tells each that waits when it ends before the answer', () =>
    withThread(async (thread) => {
      const stopped = (): Error => new Error('given up');
      const asked = [{ does: 'end' }, { does: 'double', number: 1 }].map((task) =>
        thread.ask(task, { stopped }),
      );
      const told = await Promise.allSettled(asked);
      expect(told.map((one) => one.status === 'rejected' && String(one.reason))).toEqual([
        'Error: given up',
        'Error: given up',
      ]);
      expect(thread.ended).toBe(true);
    }));

  it('passes on what its program threw', async () => {
    await expect(runInThread(file, { does: 'throw' }, {})).rejects.toThrow('thrown');
  });

  it('is stopped by the signal, but no more once it may keep what it made', async () => {
    const early = new AbortController();
    const never = runInThread(file, { does: 'nothing' }, { signal: early.signal });
    early.abort();
    await expect(never).rejects.toThrow('stopped');
    const late = new AbortController();
    const kept = runInThread<string>(
      file,
      { does: 'keep' },
      { signal: late.signal, onProgress: () => late.abort() },
    );
    expect(await kept).toBe('kept');
    expect(late.signal.aborted).toBe(true);
  });
});
