import { useEffect, useMemo, useState, type ReactNode } from 'react';
import { useQuery } from 'urql';
import { whileReading } from '../api/asking-again.js';
import { onSignedOut } from '../api/client.js';
import { problemFrom } from '../api/problem.js';
import { SESSION, type Session } from '../api/session.js';
import { useAskingAgain } from '../api/use-asking-again.js';
import { ProblemNotice } from '../components/notice.js';
import { Sheet } from '../components/sheet.js';
import { Loading } from '../components/states.js';
import { FirstStartScreen } from '../screens/session/first-start-screen.js';
import { OpenDemoButton, SignInForm, SignInScreen } from '../screens/session/sign-in-screen.js';
import { SessionContext } from '../session/session-context.js';
import { rememberedSession, rememberSession } from '../session/session-memory.js';

/**
 * Lets nobody past without a session. A session that ends later is renewed in a sheet over the screen, so that a
 * half-filled form is not lost.
 */
export function SessionGate({ children }: { children: ReactNode }) {
  const [{ data, error }, ask] = useQuery({ query: SESSION, requestPolicy: 'cache-and-network' });
  const [lastOpen, setLastOpen] = useState<Session | null>(null);
  const answered = data?.session;
  // Read once: a session is known by its identity below.
  const [remembered] = useState(rememberedSession);
  const [waitedLong, setWaitedLong] = useState(false);
  const unreachable = error?.networkError !== undefined || waitedLong;
  // Without a connection whoever was signed in last goes on: what they enter waits on the device.
  const session = answered ?? (unreachable ? (remembered ?? undefined) : undefined);

  useEffect(() => {
    if (answered?.signedIn === true) rememberSession(answered);
    else if (answered?.setUpNeeded === true) rememberSession(null);
  }, [answered]);
  useEffect(() => {
    const timer = setTimeout(() => setWaitedLong(true), 3_000);
    const back = () => ask({ requestPolicy: 'network-only' });
    window.addEventListener('online', back);
    return () => {
      clearTimeout(timer);
      window.removeEventListener('online', back);
    };
  }, [ask]);

  useEffect(() => onSignedOut(() => ask({ requestPolicy: 'network-only' })), [ask]);

  // Remember the last open session: what was on screen stays mounted when the session ends by itself.
  if (session?.signedIn === true && session !== lastOpen) setLastOpen(session);

  const askAgain = () => ask({ requestPolicy: 'network-only' });
  const problem = useMemo(
    () => (error === undefined ? null : whileReading(problemFrom(error))),
    [error],
  );
  useAskingAgain(problem, askAgain);
  if (session === undefined) {
    return (
      <main className="lw-alone">
        {problem === null ? (
          <Loading what="the session" />
        ) : (
          <ProblemNotice problem={problem} onRetry={askAgain} />
        )}
      </main>
    );
  }
  const leave = () => {
    setLastOpen(null);
    askAgain();
  };
  if (lastOpen !== null) {
    return (
      <SessionContext value={session.signedIn ? session : lastOpen}>
        {children}
        <Sheet title="Sign in to go on" opened={!session.signedIn} onClose={leave} leavesScreen>
          <p>Your session has ended. What you typed is still on the page behind this one.</p>
          {session.demoOffered ? (
            <OpenDemoButton onOpened={askAgain} />
          ) : (
            <SignInForm onSignedIn={askAgain} />
          )}
        </Sheet>
      </SessionContext>
    );
  }
  if (session.setUpNeeded) return <FirstStartScreen session={session} onReady={askAgain} />;
  return <SignInScreen session={session} onReady={askAgain} />;
}
