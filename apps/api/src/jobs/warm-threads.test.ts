import { once } from 'node:events';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Worker } from 'node:worker_threads';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { RequestError } from '../errors/request-error.js';
import { WarmThreads } from './warm-threads.js';

/** Answers which thread it is, holding as much as it is told; or refuses, breaks, or never answers. */
const PROGRAM = `
  import { parentPort, threadId } from 'node:worker_threads';
  const error = (code) => parentPort.postMessage({ kind: 'error', message: 'no', code, details: {}, heldMb: 1 });
  parentPort.on('message', ({ task }) => {
    if (task.does === 'refuse') error('VALIDATION');
    else if (task.does === 'break') error(null);
    else if (task.does !== 'nothing') parentPort.postMessage({ kind: 'answer', answer: threadId, heldMb: task.heldMb ?? 1 });
  });
`;

describe('threads that wait for the next task', () => {
  let folder: string;
  let file: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'linewright-warm-'));
    file = join(folder, 'program.mjs');
    writeFileSync(file, PROGRAM);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  const threads = (idleMs = 600_000): WarmThreads =>
    new WarmThreads(file, { heap: { young: 4, old: 16 }, idleMs, mostHeldMb: 10 });
  const ask = (from: WarmThreads, task: object = {}, signal?: AbortSignal): Promise<number> =>
    from.ask<number>(task, signal === undefined ? {} : { signal });

  it('are asked again, and as many as are asked at once', async () => {
    const some = threads();
    const first = await ask(some);
    expect(await ask(some)).toBe(first);
    const [one, other] = await Promise.all([ask(some), ask(some)]);
    expect(one).toBe(first);
    expect(other).not.toBe(first);
    const again = await Promise.all([ask(some), ask(some)]);
    expect([...again].sort()).toEqual([one, other].sort());
  });

  it('stay after they refused something, and end when they break', async () => {
    const some = threads();
    const first = await ask(some);
    await expect(ask(some, { does: 'refuse' })).rejects.toThrow(RequestError);
    expect(await ask(some)).toBe(first);
    await expect(ask(some, { does: 'break' })).rejects.toThrow('no');
    expect(await ask(some)).not.toBe(first);
  });

  it('end when nobody waits for the answer any more', async () => {
    const some = threads();
    const first = await ask(some);
    const leaving = new AbortController();
    const asked = ask(some, { does: 'nothing' }, leaving.signal);
    leaving.abort();
    await expect(asked).rejects.toThrow('stopped');
    await expect(ask(some, {}, leaving.signal)).rejects.toThrow(/abort/i);
    expect(await ask(some)).not.toBe(first);
  });

  it('end when they hold much, or were not asked for a while', async () => {
    const some = threads();
    const first = await ask(some, { heldMb: 10 });
    expect(await ask(some, { heldMb: 10.1 })).toBe(first);
    expect(await ask(some)).not.toBe(first);
    const made = once(process, 'worker') as Promise<[Worker]>;
    const shortly = threads(1);
    const second = await ask(shortly);
    const [thread] = await made;
    if (thread.threadId > 0) await once(thread, 'exit');
    expect(await ask(shortly)).not.toBe(second);
  });
});
