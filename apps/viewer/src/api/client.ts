import { cacheExchange, Client, fetchExchange, mapExchange } from 'urql';
import { zoneHeader } from '../clock/clock.js';
import { hasCode } from './problem.js';
import { seenAsHeader } from './seen-as.js';

type Listener = () => void;
const signedOutListeners = new Set<Listener>();

/** Calls `listener` whenever the API says that the session has ended. */
export function onSignedOut(listener: Listener): () => void {
  signedOutListeners.add(listener);
  return () => signedOutListeners.delete(listener);
}

/** For requests that go past the client. */
export function announceSignedOut(): void {
  signedOutListeners.forEach((listener) => listener());
}

/**
 * Every query and every mutation carries this name, so that a save refreshes whatever is on screen: one figure (F, a
 * count, a history) may follow from any record.
 */
export const EVERY_RECORD = { additionalTypenames: ['Record'] };

export const client = new Client({
  url: '/graphql',
  preferGetMethod: false,
  fetchOptions: () => ({
    credentials: 'same-origin',
    headers: { ...zoneHeader(), ...seenAsHeader() },
  }),
  requestPolicy: 'cache-and-network',
  exchanges: [
    mapExchange({
      onError(error) {
        if (hasCode(error, 'SIGN_IN_NEEDED')) announceSignedOut();
      },
    }),
    cacheExchange,
    fetchExchange,
  ],
});
