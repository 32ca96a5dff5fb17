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
import { useMayChange } from '../session/may.js';
import styles from './history-panel.module.css';
import { useRecordNames } from './use-record-names.js';

interface HistoryPanelProps {
  recordKind: RecordKind;
  recordId: string;
}

/** Every revision of a record, fetched when asked for. */
export function HistoryPanel({ recordKind, recordId }: HistoryPanelProps) {
  const [open, setOpen] = useState(false);
  // What others changed of it is not lent with a line.
  if (!useMayChange()) return null;
  return (
    <Section
      title="History"
      actions={
        <Button size="xs" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Hide history' : 'Show history'}
        </Button>
      }
    >
      {open && <Changes recordKind={recordKind} recordId={recordId} />}
    </Section>
  );
}

interface ChangesProps extends HistoryPanelProps {
  /** Where the page before ended, and how many changes were listed by then. */
  after?: string | null;
  before?: number;
}

function Changes({ recordKind, recordId, after = null, before = 0 }: ChangesProps) {
  const read = useRead(RECORD_HISTORY, { recordKind, recordId, after });
  const names = useRecordNames();
  return (
    <Shown read={read} what="the history">
      {({ history }) => (
        <>
          <ol className={styles['history']} reversed start={history.totalCount - before}>
            {history.edges.map(({ node: change }) => (
              <li key={change.id}>
                <strong>
                  {change.actId === null ? (
                    change.action
                  ) : (
                    <Link to={`/fish-acts/${change.actId}`}>{change.action}</Link>
                  )}
                </strong>{' '}
                by {change.by}, {showTime(change.at)}{' '}
                <span className="lw-quiet">(revision {change.revision})</span>
                {change.changes.length > 0 && (
                  <ul>
                    {change.changes.map((field) => (
                      <li key={field.field}>{changeWords(field, names)}</li>
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
              <Changes
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
