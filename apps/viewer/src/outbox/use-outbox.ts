import { createContext, useContext, useEffect, useState, useSyncExternalStore } from 'react';
import type { Outbox, OutboxState } from './outbox.js';
import { outboxOf } from './this-device.js';

export interface OpenOutbox {
  readonly outbox: Outbox;
  readonly lasting: boolean;
}

export const OutboxContext = createContext<OpenOutbox | null>(null);

const LONGEST_WAIT = 60_000;

/** Tries at once, when a connection returns, when the page is looked at, and every so often after a failure. */
function keepSending(outbox: Outbox): () => void {
  let failures = 0;
  let timer: ReturnType<typeof setTimeout> | null = null;
  const send = () => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    void outbox.send();
  };
  const watch = () => {
    const { sending, stopped } = outbox.current();
    if (sending || timer !== null) return;
    if (stopped === 'sent') failures = 0;
    if (stopped === null || stopped === 'sent' || stopped === 'signed_out') return;
    timer = setTimeout(send, Math.min(LONGEST_WAIT, 2_000 * 2 ** failures));
    failures += 1;
  };
  const seen = () => {
    if (document.visibilityState === 'visible') send();
  };
  const unsubscribe = outbox.subscribe(watch);
  send();
  window.addEventListener('online', send);
  document.addEventListener('visibilitychange', seen);
  return () => {
    if (timer !== null) clearTimeout(timer);
    unsubscribe();
    window.removeEventListener('online', send);
    document.removeEventListener('visibilitychange', seen);
  };
}

/** Opens the person's outbox and keeps it sending. */
export function useOpenOutbox(personId: string | null, session: object): OpenOutbox | null {
  const [open, setOpen] = useState<OpenOutbox | null>(null);
  useEffect(() => {
    let wanted = true;
    setOpen(null);
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tryToOpen = (): void => {
      if (!wanted || personId === null) return;
      outboxOf(personId).then(
        (kept) => wanted && setOpen(kept),
        () => (timer = setTimeout(tryToOpen, 2_000)),
      );
    };
    tryToOpen();
    return () => {
      wanted = false;
      clearTimeout(timer);
    };
  }, [personId]);
  useEffect(() => {
    if (open === null) return;
    return keepSending(open.outbox);
    // A session opened anew (`session`) is a reason to try again.
  }, [open, session]);
  return open;
}

const never = () => () => undefined;
const none: OutboxState = { entries: [], sent: [], stopped: null, sending: false };

/** What waits on this device, kept up to date. `open` is null for the moment it takes to look. */
export function useOutbox(): { open: OpenOutbox | null; state: OutboxState } {
  const open = useContext(OutboxContext);
  const state = useSyncExternalStore(
    open?.outbox.subscribe ?? never,
    open?.outbox.current ?? (() => none),
  );
  return { open, state };
}
