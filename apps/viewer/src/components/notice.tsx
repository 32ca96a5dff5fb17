import { Button } from '@mantine/core';
import { useEffect, useRef, type ReactNode } from 'react';
import { isOfFields, type Problem } from '../api/problem.js';

interface ProblemNoticeProps {
  problem: Problem | null;
  onRetry?: () => void;
}

/** What went wrong and what to do, announced to screen readers. */
export function ProblemNotice({ problem, onRetry }: ProblemNoticeProps) {
  const notice = useRef<HTMLDivElement>(null);
  // What asks again by itself fails again by itself: that must not move the page under a reader each time.
  const news = problem?.code === 'DATABASE_AWAY' ? problem.message : problem;
  // In a long form the notice may lie outside the view.
  useEffect(() => {
    // Braces: browsers may answer with a promise, which is no clean-up.
    void notice.current?.scrollIntoView({ block: 'nearest' });
  }, [news]);
  if (problem === null) return null;
  return (
    <div ref={notice} className="lw-notice lw-notice-problem" role="alert">
      <p>
        <strong aria-hidden="true">! </strong>
        {isOfFields(problem) && problem.fields.length > 1
          ? `${problem.fields.length} things to correct:`
          : problem.message}
      </p>
      {problem.fields.length > (isOfFields(problem) ? 1 : 0) && (
        <ul>
          {problem.fields.map((each) => (
            <li key={`${each.field} ${each.message}`}>{each.message}</li>
          ))}
        </ul>
      )}
      {problem.reference !== null && (
        <p className="lw-quiet">Error reference in the log: {problem.reference}</p>
      )}
      {onRetry !== undefined && <Button onClick={onRetry}>Try again</Button>}
    </div>
  );
}

/** A standing caution: welfare, law, health. Never by colour alone: it starts with the word. */
export function Caution({ children }: { children: ReactNode }) {
  return (
    <div className="lw-notice lw-notice-caution" role="note">
      <p>
        <strong>Caution. </strong>
        {children}
      </p>
    </div>
  );
}

/** Several cautions of one thing, in one notice: nothing when there are none. */
export function Cautions({ of }: { of: readonly string[] }) {
  if (of.length === 0) return null;
  if (of.length === 1) return <Caution>{of[0]}</Caution>;
  return (
    <div className="lw-notice lw-notice-caution" role="note">
      <p>
        <strong>Caution.</strong>
      </p>
      <ul>
        {of.map((caution) => (
          <li key={caution}>{caution}</li>
        ))}
      </ul>
    </div>
  );
}

/** Something done, said once. */
export function Done({ children }: { children: ReactNode }) {
  return (
    <div className="lw-notice lw-notice-done" role="status">
      {children}
    </div>
  );
}
