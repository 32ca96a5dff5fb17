import type { ReactNode } from 'react';
import { useSession } from '../session/session-context.js';
import { OutboxContext, useOpenOutbox } from './use-outbox.js';

/** The signed-in person's entries on this device, for everything below. */
export function OutboxProvider({ children }: { children: ReactNode }) {
  const session = useSession();
  const open = useOpenOutbox(session.person?.id ?? null, session);
  return <OutboxContext value={open}>{children}</OutboxContext>;
}
