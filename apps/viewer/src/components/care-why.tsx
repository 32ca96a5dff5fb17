import type { CareReason, CareStep } from '../api/care.js';
import { reasonText, whenText } from '../wording/care-words.js';
import { span } from '../wording/figures.js';
import { capital } from '../wording/words.js';
import { CareBasis } from './care-basis.js';
import styles from './care-why.module.css';

interface CareWhyProps {
  step: CareStep;
  reasons: readonly CareReason[];
  from: string | null;
  to: string | null;
}

/** Why a step is due when it is: what it follows, its window, where the habit comes from, and published figures. */
export function CareWhy({ step, reasons, from, to }: CareWhyProps) {
  const ordered = [...reasons].sort((a, b) => Number(b.decides) - Number(a.decides));
  return (
    <div className={styles['why']}>
      <p>
        {step.why} <CareBasis step={step} />.
      </p>
      {ordered.length > 0 && (
        <ul>
          {ordered.map((reason) => (
            <li key={reason.after}>
              {capital(reasonText(reason))}
              {reason.decides && ordered.length > 1 && '; this one decides'}
            </li>
          ))}
        </ul>
      )}
      {from !== null && to !== null && (
        <p className="lw-quiet">Window: {span(whenText(from), whenText(to))}.</p>
      )}
      <PublishedFigures step={step} />
    </div>
  );
}

/** Figures to compare with; they do not move the calendar. */
export function PublishedFigures({ step }: { step: CareStep }) {
  if (step.published.length === 0) return null;
  return (
    <div className={styles['published']}>
      <p>Published, each under its own conditions (no values in between are calculated):</p>
      <ul>
        {step.published.map((figure) => (
          <li key={`${figure.citation} ${figure.what} ${figure.from}`}>
            {figure.from === figure.to ? figure.from : `${figure.from}–${figure.to}`}{' '}
            {figure.unit.toLowerCase()} after {figure.after.replaceAll('_', ' ')}: {figure.what}.{' '}
            {capital(figure.conditions)}. <cite>{figure.citation}</cite>
          </li>
        ))}
      </ul>
    </div>
  );
}
