import { useSyncExternalStore } from 'react';

/**
 * Whether this browser keeps the pages themselves, so that they open without a connection: `insecure` at an address that browsers
 * allow no such thing for (plain HTTP from another machine), `refused` where it was tried and failed, as with a certificate that
 * the device does not trust.
 */
export type PagesKept = 'kept' | 'coming' | 'insecure' | 'refused' | 'unable';

interface Browser {
  readonly isSecureContext: boolean;
  readonly serviceWorker: { readonly controller: unknown } | undefined;
}

/** What can be said before the browser has tried. */
export function pagesAtFirst({ isSecureContext, serviceWorker }: Browser): PagesKept {
  if (!isSecureContext) return 'insecure';
  if (serviceWorker === undefined) return 'unable';
  return serviceWorker.controller === null ? 'coming' : 'kept';
}

/** Whether the pages open without a connection, as far as a promise may go. */
export const opensAlone = (pages: PagesKept): boolean => pages === 'kept' || pages === 'coming';

let found: PagesKept | null = null;
const listeners = new Set<() => void>();

const current = (): PagesKept =>
  (found ??= pagesAtFirst({
    isSecureContext: window.isSecureContext,
    serviceWorker: navigator.serviceWorker as ServiceWorkerContainer | undefined,
  }));

/** Told by whoever starts the worker. */
export function notePages(pages: 'kept' | 'refused'): void {
  // One that is there already goes on working, whatever becomes of a newer one.
  if (pages === 'refused' && current() === 'kept') return;
  found = pages;
  listeners.forEach((listener) => listener());
}

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => listeners.delete(listener);
};

export const usePagesKept = (): PagesKept => useSyncExternalStore(subscribe, current);
