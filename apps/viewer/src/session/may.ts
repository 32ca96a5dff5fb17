import { useContext } from 'react';
import { LINE_GRANTS } from '../api/grants.js';
import type { Session } from '../api/session.js';
import { useRead } from '../api/use-read.js';
import { SessionContext } from './session-context.js';

/** Whether somebody changes any record; a partner changes only what they were granted. Of a page without a session, all is shown. */
export const mayChangeAll = (session: Session | null): boolean => session?.role !== 'PARTNER';

export const useMayChange = (): boolean => mayChangeAll(useContext(SessionContext));

/** Whether whoever is signed in scores fish of that line. */
export function useMayScore(lineId: string | undefined): boolean {
  const session = useContext(SessionContext);
  const all = mayChangeAll(session);
  const read = useRead(LINE_GRANTS, { lineId: lineId ?? null }, { pause: all || !lineId });
  if (all) return true;
  // The owner looks as a partner, and changes nothing meanwhile.
  if (session?.looking === true) return false;
  return read.data?.lineGrants.some(({ level }) => level !== 'LOOK') ?? false;
}
