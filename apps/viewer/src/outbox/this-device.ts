import { now, zoneHere } from '../clock/clock.js';
import { deviceStore, openDevice, type Device } from './device-store.js';
import { memoryStore } from './memory-store.js';
import { Outbox } from './outbox.js';
import type { OutboxStore } from './store.js';
import { sendEntry } from './transport.js';

let opened: Promise<Device | null> | null = null;

/** `null` where the browser keeps nothing, as some private windows do. */
export function device(): Promise<Device | null> {
  // Some browsers refuse at once and not in the answer.
  opened ??= Promise.resolve()
    .then(() =>
      openDevice(() => {
        opened = null;
      }),
    )
    .catch(() => null);
  return opened;
}

async function openAgain(): Promise<Device> {
  const database = await device();
  if (database === null) throw new Error('its storage is closed');
  return database;
}

interface KeptOutbox {
  readonly outbox: Outbox;
  /** False when entries last only as long as the page. */
  readonly lasting: boolean;
}

const outboxes = new Map<string, Promise<KeptOutbox>>();
const CHANNEL = 'linewright-entries';

let lastAlone: Promise<unknown> = Promise.resolve();

/** One sender for all tabs. Where the browser has no locks, one a tab: the server applies an entry once anyway. */
async function alone<Result>(work: () => Promise<Result>): Promise<Result> {
  if ('locks' in navigator) return navigator.locks.request('linewright-sender', work);
  const mine = lastAlone.then(work);
  lastAlone = mine.catch(() => undefined);
  return mine;
}

async function open(personId: string): Promise<KeptOutbox> {
  const database = await device();
  const store: OutboxStore = database === null ? memoryStore() : deviceStore(openAgain);
  const channel = 'BroadcastChannel' in window ? new BroadcastChannel(CHANNEL) : null;
  const outbox = new Outbox({
    store,
    personId,
    send: sendEntry,
    alone,
    now: () => now().toISOString(),
    zone: zoneHere,
    tellOthers: () => channel?.postMessage('changed'),
    reachable: () => navigator.onLine,
  });
  channel?.addEventListener('message', () => void outbox.refresh());
  await outbox.refresh();
  return { outbox, lasting: database !== null };
}

/** The person's outbox on this device: one a page. */
export function outboxOf(personId: string): Promise<KeptOutbox> {
  const known = outboxes.get(personId) ?? open(personId);
  outboxes.set(personId, known);
  // What could not be opened is tried again by whoever asks next.
  known.catch(() => outboxes.delete(personId));
  return known;
}

/** Asks the browser not to clear what is kept here when room is short. */
export async function askToKeep(): Promise<void> {
  if (!('storage' in navigator) || !('persist' in navigator.storage)) return;
  if (!(await navigator.storage.persisted())) await navigator.storage.persist();
}
