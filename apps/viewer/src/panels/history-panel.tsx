import { useState } from 'react';
import { Button } from '@mantine/core';
import { Link } from 'react-router';
import { RECORD_HISTORY } from '../api/history.js';
import { useRead } from '../api/use-read.js';
import { MorePages } from '../components/more-pages.js';
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

interface EntriesProps extends HistoryPanelProps {
  /** Where the page before ended, and how many changes were listed by then. */
  after?: string | null;
  before?: number;
}

function Entries({ recordKind, recordId, after = null, before = 0 }: EntriesProps) {
  const read = useRead(RECORD_HISTORY, { recordKind, recordId, after });
  const names = useRecordNames();
  return (
    <Shown read={read} what="the history">
      {({ history }) => (
        <>
          <ol className={styles['history']} reversed start={history.totalCount - before}>
            {history.edges.map(({ node: entry }) => (
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
          <MorePages
            page={history}
            listed={before + history.edges.length}
            what="changes"
            next={(cursor) => (
              <Entries
                recordKind={recordKind}
                recordId={recordId}
                after={cursor}
                before={before + history.edges.length}
              />
            )}
          />
        </>
      )}
    </Shown>
  );
}
