import { Button } from '@mantine/core';
import styles from './today.module.css';

export interface Recorded {
  readonly recordId: string;
  readonly spawnId: string;
  readonly what: string;
}

/** What was recorded last, with the way back. */
export function JustDone({
  recorded,
  undoing,
  onUndo,
}: {
  recorded: Recorded | null;
  undoing: boolean;
  onUndo: (recorded: Recorded) => void;
}) {
  return (
    <div role="status" className={recorded === null ? 'lw-heard' : styles['just-done']}>
      {recorded !== null && (
        <>
          <p>{recorded.what}</p>
          <Button loading={undoing} onClick={() => onUndo(recorded)}>
            Undo
          </Button>
        </>
      )}
    </div>
  );
}
