import '../../components/care.css';
import { useState } from 'react';
import { SPAWN_CARE, type LogEntry } from '../../api/care.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { showTime } from '../../wording/figures.js';
import { EntryForm } from './entry-form.js';
import { LogTaps } from './log-taps.js';

/** The spawn's log: each event and each bit of care, recorded with one tap as it happens. */
export function LogSection({ spawn }: { spawn: SpawnFacts }) {
  const read = useRead(SPAWN_CARE, { id: spawn.id });
  const [entry, setEntry] = useState<LogEntry | null>(null);
  const close = () => setEntry(null);
  return (
    <Section
      title="Log"
      aside={read.data === undefined ? undefined : read.data.spawn.care.log.length}
    >
      <Shown read={read} what="the log">
        {({ spawn: { care } }) => (
          <>
            {spawn.withdrawn === null && <LogTaps spawn={spawn} care={care} />}
            <LogTable log={care.log} onCorrect={setEntry} />
          </>
        )}
      </Shown>
      {entry !== null && (
        <Sheet title={`Correct: ${entry.title}`} opened onClose={close}>
          <EntryForm spawnId={spawn.id} entry={entry} onClose={close} />
        </Sheet>
      )}
    </Section>
  );
}

function LogTable({
  log,
  onCorrect,
}: {
  log: readonly LogEntry[];
  onCorrect: (entry: LogEntry) => void;
}) {
  return (
    <DataTable
      caption="Log of this spawn, latest first"
      low={log.length > 9}
      rows={[...log].reverse()}
      rowKey={(entry) => entry.id}
      columns={[
        {
          key: 'at',
          title: 'When',
          unbroken: true,
          cell: (entry) => (entry.editable ? showTime(entry.at) : entry.at.slice(0, 10)),
        },
        {
          key: 'what',
          title: 'What',
          cell: (entry) => (
            <>
              {entry.action === 'SKIPPED' && 'left out: '}
              {entry.title}
              {entry.note !== null && <span className="lw-quiet"> {entry.note}</span>}
            </>
          ),
        },
        {
          key: 'do',
          title: <span className="lw-heard">Actions</span>,
          cell: (entry) =>
            entry.editable && (
              <button
                type="button"
                className="lw-small-button"
                aria-label={`Correct ${entry.title}, ${showTime(entry.at)}`}
                onClick={() => onCorrect(entry)}
              >
                Correct
              </button>
            ),
        },
      ]}
    />
  );
}
