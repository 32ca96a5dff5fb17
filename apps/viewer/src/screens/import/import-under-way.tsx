import { useEffect } from 'react';
import { IMPORT_RUN, type ImportRun } from '../../api/import.js';
import { useRead } from '../../api/use-read.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { ProblemNotice } from '../../components/notice.js';

interface ImportUnderWayProps {
  run: ImportRun;
  /** Said below while it goes on. */
  whileGoing?: string;
  /** Called with the run once its answer is there. */
  onAnswer: (run: ImportRun) => void;
}

/** A large file being looked at or taken in by some process of the server: how far it is, and a stop. */
export function ImportUnderWay({ run: begun, whileGoing, onAnswer }: ImportUnderWayProps) {
  const read = useRead(IMPORT_RUN, { id: begun.id });
  const run = read.data?.importRun ?? begun;
  const answered = run.preview !== null || run.result !== null;
  useEffect(() => {
    if (answered) onAnswer(run);
    // Told once, when the answer comes.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [answered]);
  const { computation } = run;
  if (answered || computation === null) return <ProblemNotice problem={read.problem} />;
  const take = run.purpose === 'TAKE';
  return (
    <WaitingComputation
      key={computation.id}
      computation={computation}
      doing={take ? 'Importing' : 'Looking at'}
      what={run.fileName}
      {...(whileGoing !== undefined && { whileGoing })}
      {...(take && { stoppedText: 'Stopped: nothing of it was saved.' })}
      onDone={read.reload}
    />
  );
}
