import type { ReactNode } from 'react';
import type { CareStep } from '../../api/care.js';
import { CareBasis } from '../../components/care-basis.js';
import { PublishedFigures } from '../../components/care-why.js';
import { scheduleText, stepKindWord } from './step-words.js';
import styles from './step-list.module.css';

interface StepListProps {
  steps: readonly CareStep[];
  actions?: (step: CareStep) => ReactNode;
}

/** The steps of a plan with when, why, where it comes from, and published figures beside. */
export function StepList({ steps, actions }: StepListProps) {
  return (
    <ol className={styles['steps']}>
      {steps.map((step) => (
        <li key={step.id}>
          <div>
            <p>
              <strong>{step.title}</strong>{' '}
              <span className="lw-quiet">({stepKindWord[step.kind]})</span>
            </p>
            <p>{scheduleText(step)}.</p>
            <p>
              {step.why} <CareBasis step={step} />
            </p>
            {step.caution !== null && (
              <p className="lw-caution">
                <strong>Caution.</strong> {step.caution}
              </p>
            )}
            <PublishedFigures step={step} />
          </div>
          {actions !== undefined && <div>{actions(step)}</div>}
        </li>
      ))}
    </ol>
  );
}
