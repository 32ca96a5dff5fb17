import { Drawer } from '@mantine/core';
import { clsx } from 'clsx';
import { useEffect, useRef, useState, type SetStateAction, type Dispatch } from 'react';
import { NavLink, Outlet, ScrollRestoration, useLocation } from 'react-router';
import { OutboxProvider } from '../outbox/outbox-provider.js';
import { WaitingStrip } from '../outbox/waiting-strip.js';
import { ColourSchemeChoice } from './colour-scheme.js';
import { dailyPlaces, IN_BAR } from './navigation.js';
import { AllPlaces, SidePlaces } from './places.js';
import { Search } from './search.js';
import { useSearchKey } from './use-search-key.js';
import { LeaveDemo } from './leave-demo.js';
import { LookingStrip } from './looking-strip.js';
import { useSession } from '../session/session-context.js';
import { SignOut } from './sign-out.js';
import styles from './frame.module.css';

function SessionFoot() {
  const session = useSession();
  return (
    <div className={styles['nav-foot']}>
      <ColourSchemeChoice />
      <p>
        {session.demoOpen ? 'Demo records' : (session.person?.name ?? 'Owner')}
        {session.demoOpen && <span className="lw-quiet"> (all invented)</span>}
      </p>
      {session.demoOpen && session.role === 'OWNER' && !session.looking && <LeaveDemo />}
      {!session.looking && <SignOut />}
    </div>
  );
}

interface BottomBarProps {
  onMore: () => void;
  onSearch: () => void;
  moreOpen: boolean;
}

function BottomBar({ onMore, onSearch, moreOpen }: BottomBarProps) {
  return (
    <nav className={styles['bar']} aria-label="Main, short list">
      {dailyPlaces.slice(0, IN_BAR).map((place) => (
        <NavLink key={place.to} to={place.to}>
          {place.label}
        </NavLink>
      ))}
      <button type="button" onClick={onSearch} aria-haspopup="dialog">
        Search
      </button>
      <button type="button" onClick={onMore} aria-expanded={moreOpen} aria-haspopup="dialog">
        More
      </button>
    </nav>
  );
}

/** Navigation at the side (wide) or at the bottom (phone), and the screen. */
export function Frame() {
  const [moreOpen, setMoreOpen] = useState(false);
  const search = useSearchKey();
  const mainRef = useRef<HTMLElement>(null);
  const { pathname } = useLocation();
  useEffect(() => {
    // In a block: where scrolling answers with a promise, the effect must not return it.
    void mainRef.current?.scrollTo(0, 0);
  }, [pathname]);
  return (
    <OutboxProvider>
      <div className={styles['frame']}>
        <a className={styles['skip']} href="#content">
          Skip to the content
        </a>
        <nav className={styles['side']} aria-label="Main">
          <NavLink to="/fish" className={clsx(styles['mark'])}>
            <img src="/mark.svg" alt="" width="22" height="22" /> Linewright
          </NavLink>
          <button
            type="button"
            className={styles['search']}
            aria-haspopup="dialog"
            aria-keyshortcuts="/"
            onClick={search.open}
          >
            Search <kbd aria-hidden="true">/</kbd>
          </button>
          <SidePlaces />
          <SessionFoot />
        </nav>
        <main id="content" ref={mainRef} className={styles['main']} tabIndex={-1}>
          <LookingStrip />
          <WaitingStrip />
          <Outlet />
        </main>
        <BottomBar onMore={() => setMoreOpen(true)} onSearch={search.open} moreOpen={moreOpen} />
        <Search opened={search.opened} onClose={search.close} />
        <MoreDrawer moreOpen={moreOpen} setMoreOpen={setMoreOpen} />
        <ScrollRestoration />
      </div>
    </OutboxProvider>
  );
}

function MoreDrawer({
  moreOpen,
  setMoreOpen,
}: {
  moreOpen: boolean;
  setMoreOpen: Dispatch<SetStateAction<boolean>>;
}) {
  return (
    <Drawer
      opened={moreOpen}
      onClose={() => setMoreOpen(false)}
      position="bottom"
      size="85%"
      title="All places"
      closeButtonProps={{ 'aria-label': 'Close' }}
      transitionProps={{ duration: 0 }}
      classNames={{ body: styles['more'] }}
    >
      <nav aria-label="All places">
        <AllPlaces onGo={() => setMoreOpen(false)} />
      </nav>
      <SessionFoot />
    </Drawer>
  );
}
