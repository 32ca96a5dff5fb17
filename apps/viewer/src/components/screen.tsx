import { clsx } from 'clsx';
import { useEffect, useRef, type ReactNode } from 'react';
import { NavigationType, useLocation, useNavigationType } from 'react-router';
import { useMayChange } from '../session/may.js';
import styles from './screen.module.css';

interface ScreenProps {
  title: string;
  /** Shown in place of the plain title when a heading needs marks or links beside the words. */
  heading?: ReactNode;
  /** A short line under the heading. */
  lead?: ReactNode;
  /** What changes records: shown to whoever may. */
  actions?: ReactNode;
  /** Where one can go from here: shown to everybody. */
  links?: ReactNode;
  /** The content scrolls by itself and takes the whole height (long lists). */
  fill?: boolean;
  children: ReactNode;
}

/** One screen: document title, heading (focused after a move between screens), actions and content. */
export function Screen({
  title,
  heading,
  lead,
  actions,
  links,
  fill = false,
  children,
}: ScreenProps) {
  const mayChange = useMayChange();
  const headingRef = useRef<HTMLHeadingElement>(null);
  const shownPath = useRef<string | null>(null);
  const { pathname } = useLocation();
  const moved = useNavigationType() !== NavigationType.Pop;
  useEffect(() => {
    // A change of the search alone, such as a filter, is no move: the focus stays where it is.
    if (moved && shownPath.current !== pathname) headingRef.current?.focus({ preventScroll: true });
    shownPath.current = pathname;
  }, [pathname, moved]);
  return (
    <div className={fill ? clsx(styles['screen'], styles['fill']) : styles['screen']}>
      <title>{`${title} · Linewright`}</title>
      <header className={styles['head']}>
        <div>
          <h1 ref={headingRef} tabIndex={-1}>
            {heading ?? title}
          </h1>
          {lead !== undefined && <div className={styles['lead']}>{lead}</div>}
        </div>
        {(links !== undefined || (actions !== undefined && mayChange)) && (
          <div className="lw-actions">
            {links}
            {mayChange && actions}
          </div>
        )}
      </header>
      {children}
    </div>
  );
}
