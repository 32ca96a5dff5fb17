import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { RECORD_SPAWN_EVENT, type SpawnFacts } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { FieldRow } from '../../components/record-form.js';
import { Section } from '../../components/section.js';
import { Empty } from '../../components/states.js';
import { showTime } from '../../wording/figures.js';
import { capital, eventsInOrder, eventWord, type SpawnEventKind } from '../../wording/words.js';
import { useEntryWithdrawal } from './use-entry-withdrawal.js';

/** One tap records an event at this moment, or at the time typed. */
export function EventsSection({ spawn }: { spawn: SpawnFacts }) {
  const [open, setOpen] = useState(false);
  const withdrawal = useEntryWithdrawal(spawn.id);
  const events = [...spawn.events].sort((a, b) => a.at.localeCompare(b.at));
  return (
    <Section
      title="Events"
      actions={
        <Button size="xs" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? 'Done recording' : 'Record event'}
        </Button>
      }
    >
      {open && <EventTaps spawn={spawn} />}
      {events.length === 0 ? (
        <Empty>No event yet. Record them as they happen, one tap each.</Empty>
      ) : (
        <DataTable
          caption="Events"
          rows={events}
          rowKey={(event) => event.id}
          columns={[
            { key: 'at', title: 'When', unbroken: true, cell: (event) => showTime(event.at) },
            {
              key: 'kind',
              title: 'What',
              cell: (event) => (
                <>
                  {eventWord[event.kind]}
                  {event.note !== null && <span className="lw-quiet"> {event.note}</span>}
                </>
              ),
            },
            {
              key: 'do',
              title: <span className="lw-heard">Actions</span>,
              cell: (event) => withdrawal.button(event.id, `event ${eventWord[event.kind]}`),
            },
          ]}
        />
      )}
      {withdrawal.sheet}
    </Section>
  );
}

function EventTaps({ spawn }: { spawn: SpawnFacts }) {
  const [time, setTime] = useState('');
  const [note, setNote] = useState('');
  const [last, setLast] = useState<SpawnEventKind | null>(null);
  const { save, saving, problem } = useSave(RECORD_SPAWN_EVENT);
  const happened = new Set(spawn.events.map((event) => event.kind));
  const record = async (kind: SpawnEventKind) => {
    const at = (time === '' ? new Date() : new Date(time)).toISOString();
    const input = { spawnId: spawn.id, kind, at, note: note.trim() === '' ? null : note.trim() };
    if ((await save({ input })) === null) return;
    setLast(kind);
    setNote('');
  };
  return (
    <div>
      <FieldRow>
        <TextInput
          label="Time of event"
          description="Blank: this moment."
          type="datetime-local"
          value={time}
          onChange={(event) => setTime(event.currentTarget.value)}
        />
        <TextInput
          label="Note on event"
          description="Goes with the next tap."
          value={note}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
      </FieldRow>
      <p className="lw-quiet">Tap what happened:</p>
      <div className="lw-taps">
        {eventsInOrder
          .filter((kind) => kind !== 'FAILED')
          .map((kind) => (
            <Button key={kind} size="xs" disabled={saving} onClick={() => void record(kind)}>
              {capital(eventWord[kind])}
              {happened.has(kind) && <span aria-label="recorded already"> ✓</span>}
            </Button>
          ))}
      </div>
      <ProblemNotice problem={problem} />
      {last !== null && problem === null && <Done>Recorded: {eventWord[last]}.</Done>}
    </div>
  );
}
