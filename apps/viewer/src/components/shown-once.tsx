import { Button } from '@mantine/core';
import type { ReactNode } from 'react';
import styles from './shown-once.module.css';

/** Browsers offer the clipboard on secure origins only. */
const canCopy = (): boolean => window.isSecureContext;

/** Secrets that are told once, one a line, to be copied or written down. */
export function ShownOnce({
  secrets,
  after,
  children,
}: {
  secrets: readonly string[];
  after?: ReactNode;
  children: ReactNode;
}) {
  const text = secrets.join('\n');
  return (
    <div className="lw-notice lw-notice-done" role="status">
      <p>{children}</p>
      <p className={styles['secrets']}>
        <code>{text}</code>
        {canCopy() && (
          <Button onClick={() => void navigator.clipboard.writeText(text)}>Copy</Button>
        )}
      </p>
      {after}
    </div>
  );
}
