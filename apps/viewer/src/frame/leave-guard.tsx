import { useContext, useEffect, type ReactNode } from 'react';
import { NavigationType, useBlocker } from 'react-router';
import { UnsavedContext } from '../components/unsaved.js';
import { UnsavedQuestion } from '../components/unsaved-question.js';

/** Asks before the browser leaves a screen on which something typed is not saved; a reload is asked about by the browser. */
export function LeaveGuard({ children }: { children: ReactNode }) {
  const forms = useContext(UnsavedContext);
  const blocker = useBlocker(
    ({ currentLocation, nextLocation, historyAction }) =>
      // A change of the address alone, such as a filter's, keeps the screen and what is typed on it.
      currentLocation.pathname !== nextLocation.pathname &&
      forms.any(historyAction === NavigationType.Pop ? 'back' : 'onward'),
  );
  useEffect(() => {
    const ask = (event: BeforeUnloadEvent) => {
      if (forms.any('reload')) event.preventDefault();
    };
    window.addEventListener('beforeunload', ask);
    return () => window.removeEventListener('beforeunload', ask);
  }, [forms]);
  return (
    <>
      {children}
      <UnsavedQuestion
        opened={blocker.state === 'blocked'}
        onStay={() => blocker.reset?.()}
        onLeave={() => blocker.proceed?.()}
      />
    </>
  );
}
