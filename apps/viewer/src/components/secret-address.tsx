import { Button } from '@mantine/core';
import type { ReactNode } from 'react';
import styles from './secret-address.module.css';

/** Browsers offer the clipboard on secure origins only. */
const canCopy = (): boolean => window.isSecureContext;

/** An address of this kind is of use on the same machine only. */
const onThisMachine = (): boolean => /^(localhost|127\.|\[?::1)/.test(window.location.hostname);

/** An address that is told once, to be copied. `elsewhere`: what to do where it is to be opened on another machine. */
export function SecretAddress({
  address,
  elsewhere,
  children,
}: {
  address: string;
  elsewhere: string;
  children: ReactNode;
}) {
  return (
    <div className="lw-notice lw-notice-done" role="status">
      <p>{children}</p>
      <p className={styles['address']}>
        <code>{address}</code>
        {canCopy() && (
          <Button onClick={() => void navigator.clipboard.writeText(address)}>Copy</Button>
        )}
      </p>
      {onThisMachine() && <p>This address means “this machine”: {elsewhere}</p>}
    </div>
  );
}
