import { Button } from '@mantine/core';
import { lookAs } from '../api/seen-as.js';
import { useSession } from '../session/session-context.js';
import styles from './looking-strip.module.css';

/** On every screen while the owner looks at what a partner sees: who it is, and the way back. */
export function LookingStrip() {
  const { looking, person } = useSession();
  if (!looking) return null;
  return (
    <div className={styles['strip']} role="status">
      <span>
        You see what <b>{person?.name}</b> sees. Nothing can be changed here.
      </span>
      <Button size="xs" onClick={() => lookAs(null, window.location.pathname)}>
        Back to my own view
      </Button>
    </div>
  );
}
