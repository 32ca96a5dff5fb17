import type { ReactNode } from 'react';
import type { Read } from '../api/use-read.js';
import { ProblemNotice } from './notice.js';
import styles from './states.module.css';

export function Loading({ what = 'records' }: { what?: string }) {
  return (
    <p className={styles['loading']} role="status">
      Fetching {what}…
    </p>
  );
}

/** Nothing here yet, and what to do about it. */
export function Empty({ children, action }: { children: ReactNode; action?: ReactNode }) {
  return (
    <div className={styles['empty']}>
      <p>{children}</p>
      {action}
    </div>
  );
}

interface ShownProps<Data> {
  read: Read<Data>;
  what: string;
  children: (data: Data) => ReactNode;
}

/** Shows what was read, or that it is on its way, or what went wrong with a way to try again. */
export function Shown<Data>({ read, what, children }: ShownProps<Data>) {
  if (read.data !== undefined) {
    return (
      <>
        <ProblemNotice problem={read.problem} onRetry={read.reload} />
        {children(read.data)}
      </>
    );
  }
  if (read.problem !== null) return <ProblemNotice problem={read.problem} onRetry={read.reload} />;
  return <Loading what={what} />;
}
