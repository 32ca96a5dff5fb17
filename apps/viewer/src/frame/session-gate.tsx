import { useCallback, useEffect, useMemo, useState, type ReactNode } from 'react';
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

const WAITED_LONG_MS = 3_000;

/** What the API says of the session, asked again when the connection is back and when a request finds it ended. */
function useAskedSession() {
  const [{ data, error }, ask] = useQuery({ query: SESSION, requestPolicy: 'cache-and-network' });
  const [waitedLong, setWaitedLong] = useState(false);
  const askAgain = useCallback(() => ask({ requestPolicy: 'network-only' }), [ask]);
  useEffect(() => {
    const timer = setTimeout(() => setWaitedLong(true), WAITED_LONG_MS);
    window.addEventListener('online', askAgain);
    return () => {
      clearTimeout(timer);
      window.removeEventListener('online', askAgain);
    };
  }, [askAgain]);
  useEffect(() => onSignedOut(askAgain), [askAgain]);
  const problem = useMemo(
    () => (error === undefined ? null : whileReading(problemFrom(error))),
    [error],
  );
  useAskingAgain(problem, askAgain);
  const unreachable = error?.networkError !== undefined || waitedLong;
  return { answered: data?.session, unreachable, problem, askAgain };
}

/** The session that is: as answered, or, without a connection, of whoever was signed in last. */
function useKnownSession() {
  const { answered, unreachable, problem, askAgain } = useAskedSession();
  const [lastOpen, setLastOpen] = useState<Session | null>(null);
  // Read once: a session is known by its identity below.
  const [remembered] = useState(rememberedSession);
  useEffect(() => {
    if (answered?.signedIn === true) rememberSession(answered);
    else if (answered?.setUpNeeded === true) rememberSession(null);
  }, [answered]);
  // Without a connection whoever was signed in last goes on: what they enter waits on the device.
  const session = answered ?? (unreachable ? (remembered ?? undefined) : undefined);
  // Remember the last open session: what was on screen stays mounted when the session ends by itself.
  if (session?.signedIn === true && session !== lastOpen) setLastOpen(session);
  const leave = () => {
    setLastOpen(null);
    askAgain();
  };
  return { session, lastOpen, problem, askAgain, leave };
}

/**
 * Lets nobody past without a session. A session that ends later is renewed in a sheet over the screen, so that a
 * half-filled form is not lost.
 */
export function SessionGate({ children }: { children: ReactNode }) {
  const { session, lastOpen, problem, askAgain, leave } = useKnownSession();
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
  if (lastOpen !== null) {
    return (
      <SessionContext value={session.signedIn ? session : lastOpen}>
        {children}
        <SignInAgain session={session} onLeave={leave} onSignedIn={askAgain} />
      </SessionContext>
    );
  }
  if (session.setUpNeeded) return <FirstStartScreen session={session} onReady={askAgain} />;
  return <SignInScreen session={session} onReady={askAgain} />;
}

interface SignInAgainProps {
  session: Session;
  onLeave: () => void;
  onSignedIn: () => void;
}

function SignInAgain({ session, onLeave, onSignedIn }: SignInAgainProps) {
  return (
    <Sheet title="Sign in to go on" opened={!session.signedIn} onClose={onLeave} leavesScreen>
      <p>Your session has ended. What you typed is still on the page behind this one.</p>
      {session.demoOffered ? (
        <OpenDemoButton onOpened={onSignedIn} />
      ) : (
        <SignInForm onSignedIn={onSignedIn} />
      )}
    </Sheet>
  );
}
