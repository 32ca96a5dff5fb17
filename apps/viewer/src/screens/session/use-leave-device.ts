import { leaveBehind } from '../../outbox/taken-along.js';
import { useOutbox } from '../../outbox/use-outbox.js';
import { useSession } from '../../session/session-context.js';
import { rememberSession } from '../../session/session-memory.js';
import { keepChoice } from '../fish-list/choice-memory.js';
import { rememberLine } from '../next-pairing/last-line.js';

/** Once nobody is signed in any more: takes what this device kept of the records away, and begins on a fresh page. */
export function useLeaveDevice(): () => Promise<void> {
  const session = useSession();
  const { open } = useOutbox();
  return async () => {
    rememberSession(null);
    rememberLine([]);
    await open?.outbox.forgetSent();
    if (session.person !== null) {
      keepChoice(session.person.id, []);
      await leaveBehind(session.person.id);
    }
    // A fresh page leaves nothing of the records in memory.
    window.location.assign('/');
  };
}
