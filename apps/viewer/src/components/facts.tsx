import type { ReactNode } from 'react';
import styles from './facts.module.css';

export interface Fact {
  name: string;
  value: ReactNode;
}

/** Names and values in ruled rows. A value of null or undefined is shown as not recorded. */
export function Facts({ facts }: { facts: readonly Fact[] }) {
  return (
    <dl className={styles['facts']}>
      {facts.map(({ name, value }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            {value === null || value === undefined || value === '' ? (
              <span className="lw-quiet">not recorded</span>
            ) : (
              value
            )}
          </dd>
        </div>
      ))}
    </dl>
  );
}
