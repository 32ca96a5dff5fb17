import { Button } from '@mantine/core';
import { useState } from 'react';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty } from '../../components/states.js';
import { StoppedEntry } from '../../outbox/stopped-entry.js';
import { useOutbox, type OpenOutbox } from '../../outbox/use-outbox.js';
import { KeptBenches } from '../../panels/kept-on-device.js';
import { stoppedEntries } from '../../outbox/waiting-words.js';
import { plural, showTime } from '../../wording/figures.js';
import styles from '../../outbox/waiting-list.module.css';
import type { OutboxState } from '../../outbox/outbox.js';
import type { Entry } from '../../outbox/entry.js';

const SENT_SHOWN = 20;

/** What was entered on this device: what waits, what needs the person, what was sent last. */
export function EntriesScreen() {
  const { open, state } = useOutbox();
  const [busy, setBusy] = useState(false);
  const stopped = stoppedEntries(state);
  const waiting = state.entries.filter((entry) => entry.state === 'waiting');
  const send = async () => {
    setBusy(true);
    await open?.outbox.send();
    setBusy(false);
  };
  return (
    <Screen
      title="On this device"
      lead={'Entries are kept here first, then sent to the server, each once.'}
      actions={
        waiting.length > 0 && (
          <Button size="md" loading={busy} onClick={() => void send()}>
            Send now
          </Button>
        )
      }
    >
      <NeedDecision stopped={stopped} open={open} />
      <Section
        title="Waiting"
        aside={waiting.length > 0 ? plural(waiting.length, 'entry', 'entries') : undefined}
      >
        {waiting.length === 0 ? (
          <Empty>
            {stopped.length === 0
              ? 'Nothing waits: the server has everything that was entered here.'
              : 'Nothing else waits: the server has the rest.'}
          </Empty>
        ) : (
          <ol className={styles['list']}>
            {waiting.map((entry) => (
              <li key={entry.id}>
                <span>{entry.label}</span>
                <span className="lw-quiet">{showTime(entry.madeAt)}</span>
              </li>
            ))}
          </ol>
        )}
      </Section>
      <KeptBenches />
      {state.sent.length > 0 && <SentRecently state={state} />}
    </Screen>
  );
}

function NeedDecision({ stopped, open }: { stopped: Entry[]; open: OpenOutbox | null }) {
  return (
    stopped.length > 0 && (
      <Section title="These need your decision" aside={plural(stopped.length, 'entry', 'entries')}>
        {stopped.filter((entry) => entry.state === 'refused').length > 1 && (
          <Button size="md" onClick={() => void open?.outbox.tryAllAgain()}>
            Send all refused again
          </Button>
        )}
        {stopped.map((entry) => (
          <StoppedEntry key={entry.id} entry={entry} />
        ))}
      </Section>
    )
  );
}

function SentRecently({ state }: { state: OutboxState }) {
  return (
    <Section
      title="Sent recently"
      aside={
        state.sent.length > SENT_SHOWN
          ? `the last ${SENT_SHOWN}; the server has these and all before`
          : 'the server has these'
      }
    >
      <ol className={styles['list']}>
        {state.sent
          .slice(-SENT_SHOWN)
          .reverse()
          .map((entry) => (
            <li key={entry.id}>
              <span className={entry.undone ? 'lw-struck' : undefined}>{entry.label}</span>
              <span className="lw-quiet">
                {entry.undone ? 'undone, ' : ''}
                {showTime(entry.sentAt)}
              </span>
            </li>
          ))}
      </ol>
    </Section>
  );
}
