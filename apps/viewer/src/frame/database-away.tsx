import { useSyncExternalStore } from 'react';
import { waitingForDatabase } from '../api/client.js';
import styles from '../outbox/waiting-strip.module.css';

/** On every screen while reads wait for the database: why nothing comes, and that nobody has to do anything. */
export function DatabaseAway() {
  const away = useSyncExternalStore(waitingForDatabase.subscribe, waitingForDatabase.any);
  return (
    <div role="status" aria-label="The database">
      {away && (
        <div className={styles['strip']}>
          <span>The database is being started again.</span>
          <span className="lw-quiet">
            What was saved is kept. This page asks again by itself every few seconds.
          </span>
        </div>
      )}
    </div>
  );
}
