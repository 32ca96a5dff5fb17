import { clsx } from 'clsx';
import { useSyncExternalStore } from 'react';
import { Link } from 'react-router';
import { newerPages } from '../session/service-worker.js';
import { useOutbox } from './use-outbox.js';
import { stoppedEntries, waitingWords } from './waiting-words.js';
import styles from './waiting-strip.module.css';

/** On every screen while something waits: how much, why, and the way to the list. */
export function WaitingStrip() {
  const { open, state } = useOutbox();
  const takeNewer = useSyncExternalStore(newerPages.subscribe, newerPages.current);
  const { count, why } = waitingWords(state);
  const needsPerson = stoppedEntries(state).length > 0;
  return (
    <>
      <div role="status" aria-label="Entries on this device">
        {count !== '' && (
          <div
            className={needsPerson ? clsx(styles['strip'], styles['strip-needs']) : styles['strip']}
          >
            <Link to="/entries">{count}</Link>
            {why !== '' && <span className="lw-quiet">{why}</span>}
            {open?.lasting === false && (
              <span>This browser keeps nothing: leave the page open until they are sent.</span>
            )}
          </div>
        )}
      </div>
      {takeNewer !== null && (
        <div className={styles['strip']}>
          <span>A newer Linewright is ready.</span>
          <button type="button" className="lw-link-button" onClick={takeNewer}>
            Load it now
          </button>
        </div>
      )}
    </>
  );
}
