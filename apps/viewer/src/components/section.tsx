import { useId, type ReactNode } from 'react';
import styles from './section.module.css';

interface SectionProps {
  title: string;
  /** Number or short words beside the title. */
  aside?: ReactNode;
  actions?: ReactNode;
  children: ReactNode;
}

/** A titled stretch of a screen under a ruled line. */
export function Section({ title, aside, actions, children }: SectionProps) {
  const id = useId();
  return (
    <section className={styles['section']} aria-labelledby={id}>
      <div className={styles['head']}>
        <h2 id={id}>{title}</h2>
        {aside !== undefined && <span className={styles['aside']}>{aside}</span>}
        {actions !== undefined && <div className="lw-actions">{actions}</div>}
      </div>
      {children}
    </section>
  );
}
