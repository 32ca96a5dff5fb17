import { randomBytes } from 'node:crypto';
import { mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { EmbeddedDatabaseError } from './errors.js';
import { markIsAlive, processMark } from './process-mark.js';

interface Ticket {
  readonly file: string;
  readonly choosing: boolean;
  readonly number: number;
}

/**
 * Runs `work` while no other process (nor other caller in this one) runs work under the same `folder`.
 *
 * Lamport's bakery (Communications of the ACM 17, 1974, 453-455) over files: everyone takes a number one above the
 * highest seen, and the lowest number of a living process goes first. Every name is used once, so the ticket of a
 * killed process is simply passed over: unlike a lock file there is nothing to take over, and so no moment in which
 * two processes take it over at once.
 *
 * @throws EmbeddedDatabaseError `EMBEDDED_LOCK_TIMEOUT` when others hold it for longer than `timeoutMs`; the signal's reason
 * when it is told to stop waiting.
 */
export async function withFolderLock<T>(
  folder: string,
  timeoutMs: number,
  work: () => Promise<T>,
  signal?: AbortSignal,
): Promise<T> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const me = `${processMark()}-${randomBytes(6).toString('hex')}`;
  const choosing = join(folder, `choosing.0.${me}`);
  let ticket = '';
  try {
    await writeFile(choosing, '');
    const highest = Math.max(0, ...(await living(folder)).map((other) => other.number));
    const mine = `ticket.${String(highest + 1).padStart(9, '0')}.${me}`;
    ticket = join(folder, mine);
    await writeFile(ticket, '');
    await rm(choosing, { force: true });
    await myTurn(folder, mine, timeoutMs, signal);
    return await work();
  } finally {
    await rm(choosing, { force: true });
    if (ticket !== '') await rm(ticket, { force: true });
  }
}

async function myTurn(
  folder: string,
  mine: string,
  timeoutMs: number,
  signal: AbortSignal | undefined,
): Promise<void> {
  const deadline = performance.now() + timeoutMs;
  for (;;) {
    const ahead = (await living(folder)).filter((other) => other.choosing || other.file < mine);
    if (ahead.length === 0) return;
    signal?.throwIfAborted();
    if (performance.now() > deadline) {
      const holder = ahead.map((other) => join(folder, other.file)).join(', ');
      throw new EmbeddedDatabaseError(
        'EMBEDDED_LOCK_TIMEOUT',
        `Another process has been starting or stopping the database for more than ${Math.round(timeoutMs / 1000)} s. ` +
          `Wait for it or end it; if none is running, delete ${holder}.`,
        { folder },
      );
    }
    await pause(10);
  }
}

async function living(folder: string): Promise<Ticket[]> {
  const found: Ticket[] = [];
  for (const file of await readdir(folder)) {
    const [kind, number, mark] = file.split('.');
    if (mark === undefined) continue;
    if (markIsAlive(mark))
      found.push({ file, choosing: kind === 'choosing', number: Number(number) });
    else await rm(join(folder, file), { force: true });
  }
  return found;
}
