import { clsx } from 'clsx';
import { severitiesInOrder, toSeverity, type Severity } from '../wording/pairing-words.js';
import styles from './severity-mark.module.css';

const outline: Record<Severity, React.ReactNode> = {
  stop: (
    <>
      <path d="M4.3 1h5.4L13 4.3v5.4L9.7 13H4.3L1 9.7V4.3z" fill="currentColor" stroke="none" />
      <path d="M4.5 7h5" stroke="var(--lw-paper)" strokeWidth="2" />
    </>
  ),
  caution: (
    <>
      <path d="M7 1.6 13 12.4H1z" />
      <path d="M7 5.4v3.4M7 10.2v1.2" />
    </>
  ),
  note: (
    <>
      <circle cx="7" cy="7" r="5.6" />
      <path d="M7 6.2v4M7 3.6v1.3" />
    </>
  ),
};

const many: Record<Severity, string> = { stop: 'stops', caution: 'cautions', note: 'notes' };

/** "1 stop", "2 notes". */
const countWords = (severity: Severity, count: number): string =>
  `${count} ${count === 1 ? severity : many[severity]}`;

interface SeverityMarkProps {
  severity: string;
  /** How many warnings of this severity; not shown when left out. */
  count?: number;
}

/** Shape and word together, so that neither colour nor shape alone carries the meaning. */
export function SeverityMark({ severity, count }: SeverityMarkProps) {
  const known = toSeverity(severity);
  return (
    <span className={clsx(styles['severity'], styles[`severity-${known}`])}>
      <svg
        viewBox="0 0 14 14"
        width="13"
        height="13"
        fill="none"
        stroke="currentColor"
        strokeWidth="1.5"
        aria-hidden="true"
      >
        {outline[known]}
      </svg>
      {count === undefined ? known : countWords(known, count)}
    </span>
  );
}

/** Warnings counted by severity, gravest first: "1 stop, 2 cautions". */
export function SeverityCounts({ warnings }: { warnings: readonly { severity: string }[] }) {
  if (warnings.length === 0) return <span className="lw-quiet">none</span>;
  const counted = severitiesInOrder
    .map((severity) => ({
      severity,
      count: warnings.filter((each) => toSeverity(each.severity) === severity).length,
    }))
    .filter(({ count }) => count > 0);
  return (
    <span className={styles['severities']}>
      {counted.map(({ severity, count }, i) => (
        <span key={severity}>
          <SeverityMark severity={severity} count={count} />
          {i < counted.length - 1 && ','}
        </span>
      ))}
    </span>
  );
}
