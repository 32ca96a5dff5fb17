import {
  openDB,
  type DBSchema,
  type IDBPDatabase,
  type IDBPTransaction,
  type StoreNames,
} from 'idb';
import type { Entry, SentEntry } from './entry.js';
import { fromVersionOne } from './older-entry.js';
import { StoreError, trimSent, type OutboxStore } from './store.js';

interface DeviceSchema extends DBSchema {
  entries: { key: number; value: Entry; indexes: { id: string; keeper: string } };
  sent: { key: string; value: SentEntry; indexes: { keeper: string } };
  /** What was taken along to work without a connection, by person and spawn. */
  taken: { key: string; value: { key: string; keeperId: string; what: unknown } };
}

export type Device = IDBPDatabase<DeviceSchema>;

function makeStores(database: Device): void {
  const entries = database.createObjectStore('entries', {
    keyPath: 'sequence',
    autoIncrement: true,
  });
  entries.createIndex('id', 'id', { unique: true });
  entries.createIndex('keeper', 'keeperId');
  database.createObjectStore('sent', { keyPath: 'id' }).createIndex('keeper', 'keeperId');
  database.createObjectStore('taken', { keyPath: 'key' });
}

type Upgrade = IDBPTransaction<DeviceSchema, StoreNames<DeviceSchema>[], 'versionchange'>;

/** In the transaction that raises the version: a device that stops in between has the older version, whole. */
async function renewEntries(transaction: Upgrade): Promise<void> {
  for (const name of ['entries', 'sent'] as const) {
    let at = await transaction.objectStore(name).openCursor();
    while (at !== null) {
      await at.update(fromVersionOne(at.value));
      at = await at.continue();
    }
  }
}

/** `closed` is called when the browser ends the connection by itself, as phones do to pages in the background. */
export function openDevice(closed: () => void, name = 'linewright'): Promise<Device> {
  return openDB<DeviceSchema>(name, 2, {
    async upgrade(database, version, _, transaction) {
      if (version === 0) makeStores(database);
      if (version === 1) await renewEntries(transaction);
    },
    blocking(_current, _blocked, event) {
      // A newer page in another tab needs another shape: let it, this tab opens again on its next reload.
      (event.target as IDBDatabase).close();
      closed();
    },
    terminated: closed,
  });
}

const told = (error: unknown): never => {
  if (error instanceof DOMException && error.name === 'QuotaExceededError') {
    throw new StoreError(
      'DEVICE_FULL',
      'This device has no room left, so the entry was NOT kept and is still filled in here: free some space, then enter it again.',
    );
  }
  throw new StoreError(
    'DEVICE_REFUSED',
    `This device could not keep the entry (${error instanceof Error ? error.message : 'no reason given'}): the entry is still filled in here; reload the page, then enter it again.`,
  );
};

type Open = () => Promise<Device>;

// The change is on the disk when its promise resolves.
const strict = { durability: 'strict' } as const;

const writingEntries = async (open: Open) =>
  (await open()).transaction('entries', 'readwrite', strict);

/** Sent entries of one keeper that are over the number kept. */
const surplusOf = (all: readonly SentEntry[]): SentEntry[] => {
  const kept = new Set(trimSent(all).map(({ id }) => id));
  return all.filter(({ id }) => !kept.has(id));
};

const entriesIn = (open: Open): Pick<OutboxStore, 'add' | 'change' | 'changeAll'> => ({
  add: async (given) => {
    try {
      const transaction = await writingEntries(open);
      // The key is made by the store; the type asks for it before it is there.
      const adding = given.map((entry) => transaction.store.add({ ...entry } as Entry));
      const [sequences] = await Promise.all([Promise.all(adding), transaction.done]);
      return given.map((entry, index) => ({ ...entry, sequence: sequences[index] ?? 0 }));
    } catch (error) {
      return told(error);
    }
  },
  change: async (id, change) => {
    const transaction = await writingEntries(open);
    const entry = await transaction.store.index('id').get(id);
    const changed = entry === undefined ? null : change(entry);
    if (entry !== undefined && changed === null) await transaction.store.delete(entry.sequence);
    else if (changed !== null && changed !== entry) await transaction.store.put(changed);
    await transaction.done;
    return changed;
  },
  changeAll: async (personId, change) => {
    const transaction = await writingEntries(open);
    for (const entry of await transaction.store.index('keeper').getAll(personId)) {
      const changed = change(entry);
      if (changed !== entry) await transaction.store.put(changed);
    }
    await transaction.done;
  },
});

const sentIn = (open: Open): Pick<OutboxStore, 'markSeen' | 'forgetSent'> => ({
  markSeen: async (personId, ids) => {
    const transaction = (await open()).transaction('sent', 'readwrite');
    const marked = (await transaction.store.index('keeper').getAll(personId)).map((each) =>
      ids.includes(each.id) ? { ...each, seen: true } : each,
    );
    const surplus = surplusOf(marked);
    for (const each of surplus) await transaction.store.delete(each.id);
    for (const each of marked)
      if (ids.includes(each.id) && !surplus.includes(each)) await transaction.store.put(each);
    await transaction.done;
  },
  forgetSent: async (personId) => {
    const transaction = (await open()).transaction('sent', 'readwrite');
    for (const key of await transaction.store.index('keeper').getAllKeys(personId))
      await transaction.store.delete(key);
    await transaction.done;
  },
});

/** Entries in IndexedDB: there after a reload, a restart of the browser and a flat battery. */
export const deviceStore = (open: Open): OutboxStore => ({
  ...entriesIn(open),
  ...sentIn(open),
  read: async (personId) => {
    const transaction = (await open()).transaction(['entries', 'sent']);
    const [entries, sent] = await Promise.all([
      transaction.objectStore('entries').index('keeper').getAll(personId),
      transaction.objectStore('sent').index('keeper').getAll(personId),
    ]);
    return { entries: entries.sort((a, b) => a.sequence - b.sequence), sent: trimSent(sent) };
  },
  settle: async (entry) => {
    const transaction = (await open()).transaction(['entries', 'sent'], 'readwrite', strict);
    const sent = transaction.objectStore('sent');
    await transaction.objectStore('entries').delete(entry.sequence);
    await sent.put(entry);
    const undone = entry.kind === 'undo' ? await sent.get(entry.input.undoes) : undefined;
    if (undone !== undefined) await sent.put({ ...undone, undone: true });
    for (const { id } of surplusOf(await sent.index('keeper').getAll(entry.keeperId)))
      await sent.delete(id);
    await transaction.done;
  },
});
