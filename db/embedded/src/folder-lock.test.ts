import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, describe, expect, it } from 'vitest';
import { withFolderLock } from './folder-lock.js';
import { markIsAlive, processMark } from './process-mark.js';

const root = mkdtempSync(join(tmpdir(), 'linewright-lock-'));
afterAll(() => {
  rmSync(root, { recursive: true, force: true });
});

describe('a process mark', () => {
  it('lives as long as its process, and not with another start time or another boot', () => {
    const mark = processMark();
    expect(markIsAlive(mark)).toBe(true);
    const [pid, ticks, boot] = mark.split('-');
    expect(markIsAlive(`${pid ?? ''}-${ticks ?? ''}-ffffffff`)).toBe(false);
    if (ticks !== '') expect(markIsAlive(`${pid ?? ''}-1-${boot ?? ''}`)).toBe(false);
    expect(markIsAlive(`2147483646--${boot ?? ''}`)).toBe(false);
    expect(markIsAlive('rubbish')).toBe(false);
  });
});

describe('the folder lock', () => {
  it('lets one worker in at a time, serves all, and leaves nothing behind', async () => {
    const folder = join(root, 'many');
    let inside = 0;
    let most = 0;
    const done = await Promise.all(
      Array.from({ length: 12 }, (_, index) =>
        withFolderLock(folder, 20_000, async () => {
          inside += 1;
          most = Math.max(most, inside);
          await pause(3);
          inside -= 1;
          return index;
        }),
      ),
    );
    expect(most).toBe(1);
    expect(done).toHaveLength(12);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('passes over the tickets of processes that are gone', async () => {
    const folder = join(root, 'stale');
    await withFolderLock(folder, 1_000, () => Promise.resolve());
    writeFileSync(join(folder, 'ticket.000000001.2147483646--00000000-aa'), '');
    writeFileSync(join(folder, 'choosing.0.2147483646--00000000-bb'), '');
    expect(await withFolderLock(folder, 1_000, () => Promise.resolve('in'))).toBe('in');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('gives up after its time and names the holder; an error inside frees it', async () => {
    const folder = join(root, 'held');
    const held = withFolderLock(folder, 1_000, () => pause(400));
    await pause(50);
    await expect(withFolderLock(folder, 50, () => Promise.resolve())).rejects.toMatchObject({
      code: 'EMBEDDED_LOCK_TIMEOUT',
      message: expect.stringContaining('ticket.') as string,
    });
    await held;
    await expect(
      withFolderLock(folder, 50, () => Promise.reject(new Error('inside'))),
    ).rejects.toThrow('inside');
    expect(await withFolderLock(folder, 50, () => Promise.resolve(1))).toBe(1);
  });
});
