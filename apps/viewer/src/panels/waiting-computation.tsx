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
export function WaitingComputation({
  computation,
  what,
  doing = 'Working out',
  whileGoing,
  stoppedText,
  onDone,
}: WaitingComputationProps) {
  const { id } = computation;
  const read = useRead(COMPUTATION, { id });
  const stop = useSave(CANCEL_COMPUTATION);
  const again = useSave(RESTART_COMPUTATION);
  const now = read.data?.computation ?? computation;
  const { state, progress, errorMessage } = now;
  const going = isGoing(now);
  useReadAgain(read, { going, afterMs: AFTER_MS });
  useEffect(() => {
    if (state === 'DONE' || state === 'OUTDATED') onDone();
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [state]);
  return (
    <div className={styles['waiting']} role="status">
      {going ? (
        <>
          <label>
            {doing} {what}: {Math.round(progress * 100)} % <progress value={progress} max={1} />
          </label>
          <Button size="md" loading={stop.saving} onClick={() => void stop.save({ id })}>
            Stop
          </Button>
          {whileGoing !== undefined && <span className="lw-quiet">{whileGoing}</span>}
        </>
      ) : (
        state !== 'DONE' && (
          <>
            <span>
              {(state === 'CANCELLED' ? stoppedText : undefined) ??
                errorMessage ??
                'It was stopped.'}
            </span>
            <Button
              size="md"
              loading={again.saving}
              onClick={() => void again.save({ id }).then(onDone)}
            >
              Start again
            </Button>
          </>
        )
      )}
      <ProblemNotice problem={stop.problem ?? again.problem ?? read.problem} />
    </div>
  );
}
