import { createContext, useContext, useEffect, useState, useSyncExternalStore } from 'react';
import type { Outbox, OutboxState } from './outbox.js';
import { outboxOf } from './this-device.js';

export interface OpenOutbox {
  readonly outbox: Outbox;
  readonly lasting: boolean;
}

export const OutboxContext = createContext<OpenOutbox | null>(null);

/** Opens the keeper's outbox and keeps trying to send: at once, when a connection returns, and every so often. */
export function useOpenOutbox(keeperId: string | null, session: object): OpenOutbox | null {
  const [open, setOpen] = useState<OpenOutbox | null>(null);
  useEffect(() => {
    let wanted = true;
    setOpen(null);
    if (keeperId !== null) void outboxOf(keeperId).then((kept) => wanted && setOpen(kept));
    return () => {
      wanted = false;
    };
  }, [keeperId]);
  useEffect(() => {
    if (open === null) return;
    const { outbox } = open;
    let tries = 0;
    let timer: ReturnType<typeof setTimeout>;
    const send = () => {
      clearTimeout(timer);
      void outbox.send().then((stopped) => {
        clearTimeout(timer);
        tries = stopped === 'sent' ? 0 : tries + 1;
        if (stopped === 'unanswered' || stopped === 'fault')
          timer = setTimeout(send, Math.min(60_000, 2_000 * 2 ** Math.min(tries, 5)));
      });
    };
    const seen = () => {
      if (document.visibilityState === 'visible') send();
    };
    send();
    window.addEventListener('online', send);
    document.addEventListener('visibilitychange', seen);
    return () => {
      clearTimeout(timer);
      window.removeEventListener('online', send);
      document.removeEventListener('visibilitychange', seen);
    };
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
