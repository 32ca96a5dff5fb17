import { useState } from 'react';
import { Button } from '@mantine/core';
import { RECORD_HISTORY } from '../api/fish.js';
import { useRead } from '../api/use-read.js';
import { Section } from '../components/section.js';
import { Shown } from '../components/states.js';
import { showTime } from '../wording/figures.js';
import { fieldWord, type RecordKind } from '../wording/words.js';
import styles from './history-panel.module.css';

interface HistoryPanelProps {
  recordKind: RecordKind;
  recordId: string;
}

/** Every revision of a record, fetched when asked for. */
export function HistoryPanel({ recordKind, recordId }: HistoryPanelProps) {
  const [open, setOpen] = useState(false);
  return (
    <Section
      title="History"
      actions={
        <Button size="xs" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Hide history' : 'Show history'}
        </Button>
      }
    >
      {open && <Entries recordKind={recordKind} recordId={recordId} />}
    </Section>
  );
}

function Entries({ recordKind, recordId }: HistoryPanelProps) {
  const read = useRead(RECORD_HISTORY, { recordKind, recordId });
  return (
    <Shown read={read} what="the history">
      {({ history }) => (
        <ol className={styles['history']} reversed>
          {history.map((entry) => (
            <li key={entry.id}>
              <strong>{entry.action}</strong> by {entry.by}, {showTime(entry.at)}{' '}
              <span className="lw-quiet">(revision {entry.revision})</span>
              {entry.changes.length > 0 && (
                <ul>
                  {entry.changes.map((change) => (
                    <li key={change.field}>
                      {fieldWord(change.field)}: {change.before ?? 'blank'} →{' '}
                      {change.after ?? 'blank'}
                    </li>
                  ))}
                </ul>
              )}
            </li>
          ))}
        </ol>
      )}
    </Shown>
  );
}
