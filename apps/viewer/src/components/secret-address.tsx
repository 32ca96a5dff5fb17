import type { ReactNode } from 'react';
import { ShownOnce } from './shown-once.js';

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
    <ShownOnce
      secrets={[address]}
      after={onThisMachine() && <p>This address means “this machine”: {elsewhere}</p>}
    >
      {children}
    </ShownOnce>
  );
}
