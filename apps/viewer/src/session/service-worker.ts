import { registerSW } from 'virtual:pwa-register';
import { notePages } from './pages-kept.js';

type Listener = () => void;
let take: (() => void) | null = null;
const listeners = new Set<Listener>();

/** Keeps the pages themselves on the device. Only the built viewer has a worker; under plain HTTP browsers allow none. */
export function startServiceWorker(): void {
  void navigator.serviceWorker?.ready.then(() => notePages('kept'));
  const update = registerSW({
    onRegisterError: () => notePages('refused'),
    onNeedRefresh: () => {
      take = () => void update(true);
      listeners.forEach((listener) => listener());
    },
  });
}

export const newerPages = {
  /** Takes the newer pages and loads again; `null` while there are none. */
  current: (): (() => void) | null => take,
  subscribe: (listener: Listener): (() => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
};
