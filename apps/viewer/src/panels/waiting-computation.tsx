import { Button } from '@mantine/core';
import { useEffect } from 'react';
import { useReadAgain } from '../api/use-read-again.js';
import { useRead } from '../api/use-read.js';
import {
  CANCEL_COMPUTATION,
  COMPUTATION,
  isGoing,
  RESTART_COMPUTATION,
  type Computation,
} from '../api/carriers.js';
import { useSave } from '../api/use-save.js';
import { ProblemNotice } from '../components/notice.js';
import styles from './waiting-computation.module.css';

const AFTER_MS = 700;

interface WaitingComputationProps {
  computation: Computation;
  /** What is worked out: "double tail". */
  what: string;
  /** In place of "Working out", for work of another kind. */
  doing?: string;
  /** Said below while it goes on. */
  whileGoing?: string;
  /** Said once it was stopped, in place of the plain fact. */
  stoppedText?: string;
  /** Called once when the answer is there. */
  onDone: () => void;
}

/** A long computation under way: how far it is, and a way to stop it. Any process of the server may be at it. */
export function WaitingComputation(props: WaitingComputationProps) {
  const { what, doing = 'Working out', whileGoing, stoppedText, onDone } = props;
  const { now, stop, again, problem } = useComputation(props.computation, onDone);
  return (
    <div className={styles['waiting']} role="status">
      {isGoing(now) ? (
        <>
          <label>
            {doing} {what}: {Math.round(now.progress * 100)} %{' '}
            <progress value={now.progress} max={1} />
          </label>
          <Button size="md" loading={stop.saving} onClick={stop.press}>
            Stop
          </Button>
          {whileGoing !== undefined && <span className="lw-quiet">{whileGoing}</span>}
        </>
      ) : (
        now.state !== 'DONE' && (
          <>
            <span>
              {(now.state === 'CANCELLED' ? stoppedText : undefined) ??
                now.errorMessage ??
                'It was stopped.'}
            </span>
            <Button size="md" loading={again.saving} onClick={again.press}>
              Start again
            </Button>
          </>
        )
      )}
      <ProblemNotice problem={problem} />
    </div>
  );
}

/** The computation as it stands now, asked for again while it goes on; with what stops it and starts it again. */
function useComputation(computation: Computation, onDone: () => void) {
  const { id } = computation;
  const read = useRead(COMPUTATION, { id });
  const stop = useSave(CANCEL_COMPUTATION);
  const again = useSave(RESTART_COMPUTATION);
  const now = read.data?.computation ?? computation;
  useReadAgain(read, { going: isGoing(now), afterMs: AFTER_MS });
  useEffect(() => {
    if (now.state === 'DONE' || now.state === 'OUTDATED') onDone();
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [now.state]);
  return {
    now,
    stop: { saving: stop.saving, press: () => void stop.save({ id }) },
    again: { saving: again.saving, press: () => void again.save({ id }).then(onDone) },
    problem: stop.problem ?? again.problem ?? read.problem,
  };
}
