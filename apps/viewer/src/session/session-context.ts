import { createContext, useContext } from 'react';
import type { Session } from '../api/session.js';

export const SessionContext = createContext<Session | null>(null);

/** The open session; only below the session gate. */
export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === null) throw new Error('useSession is for screens inside the session gate.');
  return session;
}
