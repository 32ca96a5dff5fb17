import { startAuthentication, startRegistration } from '@simplewebauthn/browser';
import { useCallback, useState } from 'react';
import type { Problem } from '../api/problem.js';
import { ADD_PASSKEY, ASK_PASSKEY, OFFER_PASSKEY, SIGN_IN_WITH_PASSKEY } from '../api/ways-in.js';
import { useSave } from '../api/use-save.js';
import { refusalWords } from './passkeys.js';

type Asked = Parameters<typeof startRegistration>[0]['optionsJSON'];
type AskedToSign = Parameters<typeof startAuthentication>[0]['optionsJSON'];

/** Lets the device answer; `null` where it does not, and `problem` says why. */
function useDevice() {
  const [problem, setProblem] = useState<Problem | null>(null);
  const answerOf = useCallback(async (ask: () => Promise<object>): Promise<string | null> => {
    setProblem(null);
    try {
      return JSON.stringify(await ask());
    } catch (error) {
      const message = refusalWords(error);
      setProblem({ code: 'PASSKEY_REFUSED', message, fields: [], reference: null });
      return null;
    }
  }, []);
  return { answerOf, problem };
}

/** Makes a passkey on this device; `add` says whether it was kept. */
export function useAddedPasskey() {
  const offering = useSave(OFFER_PASSKEY);
  const keeping = useSave(ADD_PASSKEY);
  const { answerOf, problem } = useDevice();
  const add = async ({ name, password }: { name: string; password: string }): Promise<boolean> => {
    const offered = await offering.save({ password });
    if (offered === null) return false;
    const { id, options } = offered.offerPasskey;
    const answer = await answerOf(() =>
      startRegistration({ optionsJSON: JSON.parse(options) as Asked }),
    );
    return answer !== null && (await keeping.save({ name, input: { id, answer } })) !== null;
  };
  return {
    add,
    adding: offering.saving || keeping.saving,
    problem: offering.problem ?? keeping.problem ?? problem,
  };
}

/** Signs in by a passkey of this device; `signIn` says whether it did. */
export function usePasskeySignIn() {
  const asking = useSave(ASK_PASSKEY);
  const signing = useSave(SIGN_IN_WITH_PASSKEY);
  const { answerOf, problem } = useDevice();
  const signIn = async (): Promise<boolean> => {
    const asked = await asking.save({});
    if (asked === null) return false;
    const { id, options } = asked.askPasskey;
    const answer = await answerOf(() =>
      startAuthentication({ optionsJSON: JSON.parse(options) as AskedToSign }),
    );
    return answer !== null && (await signing.save({ input: { id, answer } })) !== null;
  };
  return {
    signIn,
    signingIn: asking.saving || signing.saving,
    problem: asking.problem ?? signing.problem ?? problem,
  };
}
