import type { Entry, SentEntry } from './entry.js';
import { trimSent, type OutboxStore } from './store.js';

/** For devices whose browser keeps nothing (a private window), and for tests: lasts as long as the page. */
export function memoryStore(): OutboxStore {
  const entries = new Map<string, Entry>();
  let sentEntries: SentEntry[] = [];
  let sequence = 0;
  const inOrder = (personId: string) =>
    [...entries.values()]
      .filter((entry) => entry.keeperId === personId)
      .sort((a, b) => a.sequence - b.sequence);
  return {
    add: async (given) =>
      given.map((entry) => {
        sequence += 1;
        const added = { ...entry, sequence };
        entries.set(added.id, added);
        return added;
      }),
    read: async (personId) => ({
      entries: inOrder(personId),
      sent: sentEntries.filter((entry) => entry.keeperId === personId),
    }),
    change: async (id, change) => {
      const entry = entries.get(id);
      if (entry === undefined) return null;
      const changed = change(entry);
      if (changed === null) entries.delete(id);
      else entries.set(id, changed);
      return changed;
    },
    changeAll: async (personId, change) => {
      for (const entry of inOrder(personId)) entries.set(entry.id, change(entry));
    },
    settle: async (sent) => {
      entries.delete(sent.id);
      const undone = sent.kind === 'undo' ? sent.input.undoes : undefined;
      const marked = sentEntries.map((each) =>
        each.id === undone ? { ...each, undone: true } : each,
      );
      sentEntries = trimSent([...marked, sent]);
    },
    markSeen: async (_personId, ids) => {
      sentEntries = trimSent(
        sentEntries.map((each) => (ids.includes(each.id) ? { ...each, seen: true } : each)),
      );
    },
    forgetSent: async (personId) => {
      sentEntries = sentEntries.filter((entry) => entry.keeperId !== personId);
    },
  };
}
