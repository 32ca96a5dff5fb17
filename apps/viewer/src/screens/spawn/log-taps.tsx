import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { PlannedStep, SpawnCare } from '../../api/care.js';
import type { SpawnFacts } from '../../api/spawns.js';
import { ProblemNotice } from '../../components/notice.js';
import { FieldRow } from '../../components/record-form.js';
import { JustDone } from '../today/just-done.js';
import { nextSteps, tapHint, tapTitle } from './tap-words.js';
import { useLogTaps, type LogTaps as Taps } from './use-log-taps.js';
import styles from './log-taps.module.css';

/** One tap records a step at this moment; another time and a note can be given first. */
export function LogTaps({ spawn, care }: { spawn: SpawnFacts; care: SpawnCare }) {
  const [more, setMore] = useState(false);
  const taps = useLogTaps(spawn.id);
  const next = nextSteps(care.steps);
  if (care.endedBy !== null && !more)
    return <Ended by={care.endedBy} onAnyway={() => setMore(true)} />;
  return (
    <div>
      {next.length > 0 && (
        <>
          <p className="lw-quiet">Next, one tap each:</p>
          <div className={styles['taps']}>
            {next.map((planned) => (
              <Tap key={planned.step.id} planned={planned} taps={taps} isNext />
            ))}
          </div>
        </>
      )}
      <Button size="xs" aria-expanded={more} onClick={() => setMore(!more)}>
        {more ? 'Fewer' : 'Another step, time or note'}
      </Button>
      {more && <AllSteps care={care} taps={taps} />}
      <ProblemNotice problem={taps.problem} />
      <JustDone
        recorded={taps.last}
        undoing={taps.undoing}
        onUndo={(recorded) => void taps.undo(recorded)}
      />
    </div>
  );
}

interface EndedProps {
  by: string;
  onAnyway: () => void;
}

function Ended({ by, onAnyway }: EndedProps) {
  return (
    <p className="lw-quiet">
      Ended: {by}.{' '}
      <button type="button" className="lw-link-button" onClick={onAnyway}>
        Record something anyway
      </button>
    </p>
  );
}

interface TapProps {
  planned: PlannedStep;
  taps: Taps;
  isNext?: boolean;
}

function Tap({ planned, taps, isNext = false }: TapProps) {
  return (
    <button
      type="button"
      disabled={taps.saving}
      data-next={isNext ? '' : undefined}
      onClick={() => void taps.record(planned)}
    >
      {tapTitle(planned.step)}
      <small>{tapHint(planned)}</small>
    </button>
  );
}

interface AllStepsProps {
  care: SpawnCare;
  taps: Taps;
}

function AllSteps({ care, taps }: AllStepsProps) {
  const { time, setTime, note, setNote } = taps;
  return (
    <>
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
      <div className={styles['taps']} role="group" aria-label="All steps">
        {care.steps.map((planned) => (
          <Tap key={planned.step.id} planned={planned} taps={taps} />
        ))}
      </div>
    </>
  );
}
