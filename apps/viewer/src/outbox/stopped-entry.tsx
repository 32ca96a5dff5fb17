import { Button, TextInput } from '@mantine/core';
import { useState, type FormEvent, type ReactNode } from 'react';
import { useUnsaved } from '../components/unsaved.js';
import { DataTable } from '../components/data-table.js';
import { dayOf, type Entry, type TheirFish } from './entry.js';
import { useOutbox } from './use-outbox.js';
import { bothSides } from './waiting-words.js';
import { LEAVE_STANDING, SAVE_ENTERED } from '../wording/conflict-words.js';
import type { Outbox } from './outbox.js';

/** An entry that was not taken: why, both versions where there are two, and what can be done. */
export function StoppedEntry({ entry }: { entry: Entry }) {
  const { open } = useOutbox();
  if (open === null) return null;
  const { outbox } = open;
  const { theirs, problem } = entry;
  const gone = theirs !== undefined && theirs.withdrawnReason !== null;
  const canTakeMine = theirs !== undefined && !gone && entry.kind !== 'undo';
  return (
    <div
      className="lw-notice lw-notice-problem"
      role="group"
      aria-label={`Not sent: ${entry.label}`}
    >
      <p>
        <strong>{entry.label}</strong>: {words(entry)}
      </p>
      {theirs === undefined ? (
        <p>{problem?.message}</p>
      ) : (
        <DataTable
          caption={`Yours and the server’s version: ${entry.label}`}
          rows={bothSides(entry, theirs)}
          rowKey={(side) => side.what}
          columns={[
            { key: 'what', title: 'What', cell: (side) => side.what },
            { key: 'mine', title: 'Entered here', cell: (side) => side.mine },
            { key: 'theirs', title: 'Recorded now', cell: (side) => side.theirs },
          ]}
        />
      )}
      {gone && <p>The fish was withdrawn there: {theirs.withdrawnReason}.</p>}
      {problem?.code === 'TAG_TAKEN' && <AnotherTag entry={entry} />}
      {refusedDay(entry) !== null && <AnotherDay entry={entry} />}
      <StoppedButtons canTakeMine={canTakeMine} outbox={outbox} entry={entry} theirs={theirs} />
    </div>
  );
}

/** A conflict of which the server's side is not known is found out by sending again. */
const canSendAgain = ({ state, kind, theirs, problem }: Entry): boolean =>
  state === 'refused' ||
  (theirs === undefined && kind !== 'undo' && problem?.code === 'CONFLICT_REVISION');

const hasLocus = (entry: Entry): boolean =>
  entry.kind === 'loss' &&
  typeof entry.input.locusId === 'string' &&
  entry.problem?.code.startsWith('LOCUS_') === true;

interface StoppedButtonsProps {
  canTakeMine: boolean;
  outbox: Outbox;
  entry: Entry;
  theirs: TheirFish | undefined;
}

function StoppedButtons({ canTakeMine, outbox, entry, theirs }: StoppedButtonsProps) {
  return (
    <div className="lw-form-buttons">
      {canTakeMine && (
        <Button size="md" onClick={() => void outbox.takeMine(entry.id)}>
          {SAVE_ENTERED}
        </Button>
      )}
      {hasLocus(entry) && (
        <Button
          size="md"
          onClick={() => void outbox.tryAgain(entry.id, { field: 'locus', value: null })}
        >
          Send without the locus
        </Button>
      )}
      {canSendAgain(entry) && (
        <Button size="md" onClick={() => void outbox.tryAgain(entry.id)}>
          Send again
        </Button>
      )}
      <Button size="md" onClick={() => void outbox.letGo(entry.id)}>
        {theirs === undefined ? 'Discard this entry' : LEAVE_STANDING}
      </Button>
    </div>
  );
}

/** The day, when it is what the server could not take. */
function refusedDay(entry: Entry): ReturnType<typeof dayOf> {
  const day = dayOf(entry);
  return day !== null && entry.problem?.fields?.includes(day.field) === true ? day : null;
}

function words(entry: Entry): string {
  if (entry.state === 'refused') return 'the server cannot take it as it is.';
  if (entry.kind === 'undo') return 'changed again after it, so it is not withdrawn by itself.';
  if (entry.theirs !== undefined) return 'the fish was changed elsewhere after you saw it.';
  return 'not taken.';
}

function AnotherTag({ entry }: { entry: Entry }) {
  const { open } = useOutbox();
  const [tag, setTag] = useState('');
  useUnsaved(tag.trim() !== '');
  return (
    <AnotherValue
      submit="Use this tag"
      onSubmit={() => {
        if (tag.trim() !== '') {
          void open?.outbox.tryAgain(entry.id, { field: 'tag', value: tag.trim() });
        }
      }}
    >
      <TextInput
        label="Another tag"
        value={tag}
        onChange={(event) => setTag(event.currentTarget.value)}
      />
    </AnotherValue>
  );
}

function AnotherDay({ entry }: { entry: Entry }) {
  const { open } = useOutbox();
  const refused = refusedDay(entry);
  const [day, setDay] = useState(refused?.day ?? '');
  if (refused === null) return null;
  return (
    <AnotherValue
      submit="Use this day"
      onSubmit={() => {
        if (day === '') return;
        void open?.outbox.tryAgain(entry.id, { field: refused.field, value: day });
      }}
    >
      <TextInput
        label="Another day"
        type="date"
        value={day}
        onChange={(event) => setDay(event.currentTarget.value)}
      />
    </AnotherValue>
  );
}

interface AnotherValueProps {
  submit: string;
  onSubmit: () => void;
  children: ReactNode;
}

function AnotherValue({ submit, onSubmit, children }: AnotherValueProps) {
  return (
    <form
      className="lw-filter"
      onSubmit={(event: FormEvent) => {
        event.preventDefault();
        onSubmit();
      }}
    >
      {children}
      <Button type="submit" size="md">
        {submit}
      </Button>
    </form>
  );
}
