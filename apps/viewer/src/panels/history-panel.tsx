import { useState } from 'react';
import { Button } from '@mantine/core';
import { Link } from 'react-router';
import { RECORD_HISTORY } from '../api/fish.js';
import { useRead } from '../api/use-read.js';
import { Section } from '../components/section.js';
import { Shown } from '../components/states.js';
import { showTime } from '../wording/figures.js';
import type { RecordKind } from '../wording/words.js';
import { changeWords } from './change-words.js';
import styles from './history-panel.module.css';
import { useRecordNames } from './use-record-names.js';

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
  const names = useRecordNames();
  return (
    <Shown read={read} what="the history">
      {({ history }) => (
        <ol className={styles['history']} reversed>
          {history.map((entry) => (
            <li key={entry.id}>
              <strong>
                {entry.actId === null ? (
                  entry.action
                ) : (
                  <Link to={`/fish-acts/${entry.actId}`}>{entry.action}</Link>
                )}
              </strong>{' '}
              by {entry.by}, {showTime(entry.at)}{' '}
              <span className="lw-quiet">(revision {entry.revision})</span>
              {entry.changes.length > 0 && (
                <ul>
                  {entry.changes.map((change) => (
                    <li key={change.field}>{changeWords(change, names)}</li>
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
