import { createContext, useContext } from 'react';
import type { Session } from '../api/session.js';
import { SessionContext } from './session-context.js';

/** Whether somebody keeps records of their own here; a partner changes only what they were granted. Of a page without a session, all is shown. */
export const mayChangeAll = (session: Session | null): boolean => session?.role !== 'PARTNER';

export const useKeepsRecords = (): boolean => mayChangeAll(useContext(SessionContext));

/** Whether what is the house's is theirs: traits, sheets, loci, and files of lines. Of a session that a device kept from before, it is. */
export const useOfTheHouse = (): boolean => useContext(SessionContext)?.ofTheHouse !== false;

/** What the server says of the one record that a page is about; null where it is about none, and the account decides. */
export const MayChangeContext = createContext<boolean | null>(null);

/** Whether whoever is signed in may change what the page around is about; whoever looks as somebody else changes nothing. */
export function useMayChange(): boolean {
  const said = useContext(MayChangeContext);
  const keeps = useKeepsRecords();
  const looking = useContext(SessionContext)?.looking === true;
  return !looking && (said ?? keeps);
}

/** Whether every record of theirs is in some line: of keepers and partners, who see lines and no stock beside them. */
export function useInLinesAlone(): boolean {
  const role = useContext(SessionContext)?.role;
  return role === 'PARTNER' || role === 'KEEPER';
}

/** The same of what a partner adds to no record, not even to one that they may change: photos and readings of water. */
export function useMayAdd(): boolean {
  const keeps = useKeepsRecords();
  return useMayChange() && keeps;
}
