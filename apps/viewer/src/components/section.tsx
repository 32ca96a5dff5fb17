import { useId, type ReactNode } from 'react';
import { useMayChange } from '../session/may.js';
import styles from './section.module.css';

interface SectionProps {
  title: string;
  /** Number or short words beside the title. */
  aside?: ReactNode;
  /** Shown to whoever may change records. */
  actions?: ReactNode;
  /** Whether the actions are shown, where it is for something else than changing records that one may or may not. */
  act?: boolean;
  children: ReactNode;
}

/** A titled stretch of a screen under a ruled line. */
export function Section({ title, aside, actions, act, children }: SectionProps) {
  const id = useId();
  const mayChange = useMayChange();
  return (
    <section className={styles['section']} aria-labelledby={id}>
      <div className={styles['head']}>
        <h2 id={id}>{title}</h2>
        {aside !== undefined && <span className={styles['aside']}>{aside}</span>}
        {actions !== undefined && (act ?? mayChange) && <div className="lw-actions">{actions}</div>}
      </div>
      {children}
    </section>
  );
}
