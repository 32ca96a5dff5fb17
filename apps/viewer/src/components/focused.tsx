import { useEffect, useRef, type ReactNode } from 'react';

/** Takes the focus when it comes up, in place of what it took away: keyboard and screen reader go on from here. */
export function Focused({ children }: { children: ReactNode }) {
  const part = useRef<HTMLDivElement>(null);
  useEffect(() => part.current?.focus({ preventScroll: true }), []);
  return (
    <div ref={part} tabIndex={-1} className="lw-takes-focus">
      {children}
    </div>
  );
}
