import { deleteDB, openDB } from 'idb';
import { useCallback, useEffect, useState } from 'react';
import { newId } from '../../api/new-id.js';
import { usePagesKept } from '../../session/pages-kept.js';
import { useSession } from '../../session/session-context.js';
import type { DeviceFacts } from './device-checks.js';

type Asked = Pick<DeviceFacts, 'answers' | 'stores' | 'lasting'>;

const unknown: Asked = { answers: null, stores: null, lasting: null };

const answersNow = (): Promise<boolean> =>
  fetch('/healthz', { cache: 'no-store' }).then(
    ({ ok }) => ok,
    () => false,
  );

/** Writes something down, reads it again and takes it away. */
async function storesNow(): Promise<boolean> {
  const name = `linewright-check-${newId()}`;
  try {
    const store = await openDB(name, 1, {
      upgrade: (made) => void made.createObjectStore('check'),
    });
    await store.put('check', name, 'key');
    const same = (await store.get('check', 'key')) === name;
    store.close();
    await deleteDB(name);
    return same;
  } catch {
    return false;
  }
}

/** Not there at an insecure address, whatever the types say. */
const keepsStored = async (): Promise<boolean | null> => {
  const storage = navigator.storage as StorageManager | undefined;
  if (storage?.persist === undefined) return null;
  return (await storage.persisted()) || storage.persist();
};

/** What this browser can do, asked of it and tried out; `again` asks once more. */
export function useDeviceFacts(): { facts: DeviceFacts; again: () => void } {
  const { loopback } = useSession();
  const pages = usePagesKept();
  const [asked, setAsked] = useState<Asked>(unknown);
  const again = useCallback(() => {
    setAsked(unknown);
    void Promise.all([answersNow(), storesNow(), keepsStored()]).then(
      ([answers, stores, lasting]) => setAsked({ answers, stores, lasting }),
    );
  }, []);
  useEffect(again, [again]);
  const facts = {
    ...{ address: window.location.origin, secure: window.isSecureContext, pages },
    ...{ onMachine: loopback, ...asked },
  };
  return { facts, again };
}
