import { Button, TextInput } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { RECORD_CARE, UNDO_CARE, type PlannedStep, type SpawnCare } from '../../api/care.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { zoneHere } from '../../clock/clock.js';
import { ProblemNotice } from '../../components/notice.js';
import { FieldRow } from '../../components/record-form.js';
import { useUnsaved } from '../../components/unsaved.js';
import { happenedText, instantOf, whenText } from '../../wording/care-words.js';
import { eventWord, type SpawnEventKind } from '../../wording/words.js';
import { newId } from '../../api/new-id.js';
import { JustDone, type Recorded } from '../today/just-done.js';
import styles from './log-taps.module.css';

const NEXT_SHOWN = 4;

const asks = (planned: PlannedStep): boolean =>
  ['DUE', 'OVERDUE', 'UPCOMING'].includes(planned.state);

/** What is likely to be next: overdue and due first, then what is expected soonest. */
function nextSteps(steps: readonly PlannedStep[]): PlannedStep[] {
  const rank = { OVERDUE: 0, DUE: 1, UPCOMING: 2 } as Record<string, number>;
  return steps
    .filter((planned) => asks(planned) && planned.about !== null)
    .sort(
      (a, b) =>
        (rank[a.state] ?? 3) - (rank[b.state] ?? 3) ||
        Date.parse(a.about ?? '') - Date.parse(b.about ?? ''),
    )
    .slice(0, NEXT_SHOWN);
}

/** One tap records a step at this moment; another time and a note can be given first. */
export function LogTaps({ spawn, care }: { spawn: SpawnFacts; care: SpawnCare }) {
  const [more, setMore] = useState(false);
  const [time, setTime] = useState('');
  const [note, setNote] = useState('');
  const [last, setLast] = useState<Recorded | null>(null);
  useUnsaved(time !== '' || note.trim() !== '');
  const recording = useSave(RECORD_CARE);
  const undoing = useSave(UNDO_CARE);
  const next = nextSteps(care.steps);
  const record = async ({ step }: PlannedStep) => {
    const input = {
      id: newId(),
      spawnId: spawn.id,
      step: step.id,
      at: instantOf(time),
      note: note.trim() === '' ? null : note.trim(),
      zone: zoneHere(),
    };
    const saved = await recording.save({ input });
    if (saved === null) return;
    const what = `Recorded: ${tapTitle(step)}, ${whenText(input.at)}.`;
    setLast({ entryId: saved.recordCare, spawnId: spawn.id, what });
    setNote('');
    setTime('');
  };
  const tap = (planned: PlannedStep, isNext: boolean) => (
    <button
      key={planned.step.id}
      type="button"
      disabled={recording.saving}
      data-next={isNext ? '' : undefined}
      onClick={() => void record(planned)}
    >
      {tapTitle(planned.step)}
      <small>{tapHint(planned)}</small>
    </button>
  );
  if (care.endedBy !== null && !more) {
    return (
      <p className="lw-quiet">
        Ended: {care.endedBy}.{' '}
        <button type="button" className="lw-link-button" onClick={() => setMore(true)}>
          Record something anyway
        </button>
      </p>
    );
  }
  return (
    <div>
      {next.length > 0 && (
        <>
          <p className="lw-quiet">Next, one tap each:</p>
          <div className={styles['taps']}>{next.map((planned) => tap(planned, true))}</div>
        </>
      )}
      <Button size="xs" aria-expanded={more} onClick={() => setMore(!more)}>
        {more ? 'Fewer' : 'Another step, time or note'}
      </Button>
      {more && (
        <>
          <TimeAndPhotos time={time} setTime={setTime} note={note} setNote={setNote} />
          <div className={styles['taps']} role="group" aria-label="All steps">
            {care.steps.map((planned) => tap(planned, false))}
          </div>
        </>
      )}
      <ProblemNotice problem={recording.problem ?? undoing.problem} />
      <JustDone
        recorded={last}
        undoing={undoing.saving}
        onUndo={(recorded) => {
          const { spawnId, entryId } = recorded;
          void undoing.save({ input: { spawnId, entryId, zone: zoneHere() } }).then((saved) => {
            if (saved !== null) setLast(null);
          });
        }}
      />
    </div>
  );
}

function TimeAndPhotos({
  time,
  setTime,
  note,
  setNote,
}: {
  time: string;
  setTime: Dispatch<SetStateAction<string>>;
  note: string;
  setNote: Dispatch<SetStateAction<string>>;
}) {
  return (
    <FieldRow>
      <TextInput
        label="Time of the step"
        description="Blank: this moment."
        type="datetime-local"
        value={time}
        onChange={(event) => setTime(event.currentTarget.value)}
      />
      <TextInput
        label="Note on the step"
        description="Goes with the next tap."
        value={note}
        onChange={(event) => setNote(event.currentTarget.value)}
      />
    </FieldRow>
  );
}

/** What the tap records, in the words of the log: a look that found nothing is not an event. */
function tapTitle({ id, kind, title }: PlannedStep['step']): string {
  if (kind !== 'OBSERVE') return title;
  const event = eventWord[id.toUpperCase() as SpawnEventKind] as string | undefined;
  return event === undefined
    ? `Seen: ${title}`
    : `${event.slice(0, 1).toUpperCase()}${event.slice(1)}`;
}

function tapHint(planned: PlannedStep): string {
  const lastEntry = planned.entries.at(-1);
  if (planned.state === 'DONE' && lastEntry !== undefined) return `✓ ${happenedText(lastEntry)}`;
  if (planned.state === 'OVERDUE' && planned.to !== null)
    return `overdue since ${whenText(planned.to)}`;
  if (planned.state === 'DUE' && planned.to !== null) return `until ${whenText(planned.to)}`;
  if (planned.state === 'SKIPPED') return 'skipped';
  if (planned.state === 'NO_LONGER') return 'not needed';
  return planned.about === null ? 'no time yet' : `about ${whenText(planned.about)}`;
}
