import type { CareStep } from '../api/care.js';
import styles from './care-basis.module.css';

const basisText: Record<CareStep['basis'], string> = {
  PRACTICE: 'common practice, no source',
  PUBLISHED: 'published',
  OWN: 'your own',
};

/** Where a step of care comes from, in words. */
export function CareBasis({ step }: { step: CareStep }) {
  return (
    <span className={styles['basis']}>
      {basisText[step.basis]}
      {step.basis === 'PUBLISHED' && `: ${step.citation ?? ''}; ${step.conditions ?? ''}`}
    </span>
  );
}
