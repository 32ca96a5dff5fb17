import { registerSW } from 'virtual:pwa-register';

type Listener = () => void;
let take: (() => void) | null = null;
const listeners = new Set<Listener>();

/** Keeps the pages themselves on the device. Only the built viewer has a worker; under plain HTTP browsers allow none. */
export function startServiceWorker(): void {
  const update = registerSW({
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
