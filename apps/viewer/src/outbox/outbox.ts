import { newId } from '../api/new-id.js';
import {
  holds,
  isUndoOf,
  mended,
  onRevision,
  revisionOf,
  type Entry,
  type Mended,
  type NewEntry,
  type SentEntry,
} from './entry.js';
import { sendWaiting, type SenderParts, type Stopped } from './sender.js';
import type { Kept, OutboxStore } from './store.js';

export interface OutboxState extends Kept {
  /** Why sending stopped last; `null` while nothing was tried. */
  readonly stopped: Stopped | null;
  readonly sending: boolean;
}

export interface OutboxParts {
  readonly store: OutboxStore;
  readonly personId: string;
  readonly send: SenderParts['send'];
  readonly alone: SenderParts['alone'];
  readonly now: () => string;
  /** Time zone of the device. */
  readonly zone: () => string;
  /** Tells the other tabs of this device. */
  readonly tellOthers: () => void;
  /** Whether there is a use in trying now. */
  readonly reachable: () => boolean;
}

const nothing: OutboxState = { entries: [], sent: [], stopped: null, sending: false };

/** One person's entries on this device: kept first, then sent, then undone or settled where need be. */
export class Outbox {
  private state = nothing;
  private readonly listeners = new Set<() => void>();
  private underWay: Promise<Stopped> | null = null;
  private again = false;

  constructor(private readonly parts: OutboxParts) {}

  current = (): OutboxState => this.state;

  subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** Reads what the device keeps; called at the start and when another tab has changed something. */
  async refresh(): Promise<void> {
    this.show(await this.parts.store.read(this.parts.personId));
  }

  /** At signing out: what was sent is with the server and leaves the device; what waits stays. */
  async forgetSent(): Promise<void> {
    await this.parts.store.forgetSent(this.parts.personId);
  }

  /** Resolves when the device has the entries; sending goes on by itself. */
  async enter(...given: NewEntry[]): Promise<Entry[]> {
    let entries: Entry[];
    const group = newId();
    try {
      entries = await this.parts.store.add(
        given.map((entry) => ({
          ...entry,
          id: newId(),
          keeperId: this.parts.personId,
          group,
          madeAt: this.parts.now(),
          zone: this.parts.zone(),
          attempts: 0,
          state: 'waiting',
        })),
      );
    } finally {
      // Whatever went wrong with keeping is told by its own error, not by one of looking again.
      await this.refresh().catch(() => undefined);
      this.parts.tellOthers();
    }
    void this.send();
    return entries;
  }

  /**
   * Takes an entry back: one that never left is removed; one that may have arrived gets a correction of its own,
   * sent behind it.
   */
  async undo(id: string): Promise<void> {
    const left = await this.parts.store.change(id, (entry) =>
      entry.attempts === 0 || entry.state !== 'waiting' ? null : entry,
    );
    const { entries, sent } = await this.parts.store.read(this.parts.personId);
    const target = left ?? sent.find((entry) => entry.id === id);
    const already = entries.some((entry) => isUndoOf(entry, id));
    if (target === undefined || already) {
      await this.refresh();
      this.parts.tellOthers();
      void this.send();
      return;
    }
    await this.enter({
      kind: 'undo',
      spawnId: target.spawnId,
      subject: target.subject,
      label: `undo: ${target.label}`,
      input: { undoes: target.id },
    });
  }

  /** Takes back the last thing done with one tap at the bench of a spawn; answers what it was. */
  async undoLast(spawnId: string): Promise<Entry | null> {
    const all = undoable(await this.parts.store.read(this.parts.personId)).filter(
      (entry) => entry.spawnId === spawnId,
    );
    const last = all[0];
    if (last === undefined) return null;
    const together = all.filter((entry) => entry.group === last.group);
    for (const entry of together) await this.undo(entry.id);
    return last;
  }

  /** A conflict settled for what was entered here: sent again on the state of the fish that was shown. */
  async takeMine(id: string): Promise<void> {
    const { entries } = await this.parts.store.read(this.parts.personId);
    const mine = entries.find((entry) => entry.id === id);
    const revision = mine?.theirs?.revision;
    if (mine !== undefined && revision !== undefined) {
      // What was made on top of it goes with it.
      await this.parts.store.changeAll(mine.keeperId, (entry) =>
        holds(mine, entry) && revisionOf(entry) === revisionOf(mine)
          ? onRevision(entry, revision)
          : entry,
      );
    }
    return this.resume(id, (entry) =>
      entry.theirs === undefined ? entry : onRevision(entry, entry.theirs.revision),
    );
  }

  /** Sends a refused entry again, with a change to what it says (another tag). */
  tryAgain(id: string, change?: Mended): Promise<void> {
    return this.resume(id, (entry) => (change === undefined ? entry : mended(entry, change)));
  }

  /** Everything that was refused, once more: for when the cause was the server's and is over. */
  async tryAllAgain(): Promise<void> {
    const { entries } = await this.parts.store.read(this.parts.personId);
    for (const { id, state } of entries) if (state === 'refused') await this.tryAgain(id);
  }

  /** The records as kept on this device now show these sent entries. */
  async seen(ids: readonly string[]): Promise<void> {
    await this.parts.store.markSeen(this.parts.personId, ids);
    await this.refresh();
  }

  /** Lets go of an entry that was not applied: what the server has stands. */
  async letGo(id: string): Promise<void> {
    await this.parts.store.change(id, (entry) => (entry.state === 'waiting' ? entry : null));
    await this.changed();
  }

  /** Sends what waits; calls made meanwhile are served by the same run. */
  send(): Promise<Stopped> {
    this.again = true;
    this.underWay ??= this.run();
    return this.underWay;
  }

  private async run(): Promise<Stopped> {
    let stopped: Stopped = 'sent';
    // A call made while a run is failing may know better (the connection is back): it gets a run of its own.
    try {
      while (this.again) {
        this.again = false;
        stopped = await this.runOnce();
        const kept = await this.parts.store.read(this.parts.personId);
        this.show({ ...kept, sending: false, stopped });
      }
    } catch {
      // The device's own storage failed: nothing is lost, and the next try may find it open again.
      stopped = 'device';
      this.show({ sending: false, stopped });
    } finally {
      this.underWay = null;
    }
    return stopped;
  }

  private async runOnce(): Promise<Stopped> {
    if (!this.parts.reachable()) return 'unanswered';
    this.show({ sending: true });
    const { store, send, alone, now, personId } = this.parts;
    const changed = () => {
      void this.refresh();
      this.parts.tellOthers();
    };
    return sendWaiting({ store, send, alone, now, changed }, personId);
  }

  private async resume(id: string, change: (entry: Entry) => Entry): Promise<void> {
    await this.parts.store.change(id, (entry) => {
      if (entry.state === 'waiting') return entry;
      const sentAgain: Entry = { ...change(entry), state: 'waiting', attempts: 0 };
      delete (sentAgain as { problem?: unknown }).problem;
      delete (sentAgain as { theirs?: unknown }).theirs;
      return sentAgain;
    });
    await this.changed();
  }

  private async changed(): Promise<void> {
    await this.refresh();
    this.parts.tellOthers();
    void this.send();
  }

  private show(change: Partial<OutboxState>): void {
    this.state = { ...this.state, ...change };
    this.listeners.forEach((listener) => listener());
  }
}

/** What can be undone, newest first: whatever is not itself an undoing nor undone already. */
export function undoable(state: Kept): (Entry | SentEntry)[] {
  const taken = new Set(
    state.entries.flatMap((entry) => (entry.kind === 'undo' ? [entry.input.undoes] : [])),
  );
  return [...state.entries, ...state.sent]
    .filter(
      (entry) =>
        entry.kind !== 'undo' && !taken.has(entry.id) && !('undone' in entry && entry.undone),
    )
    .sort((a, b) => b.sequence - a.sequence);
}
