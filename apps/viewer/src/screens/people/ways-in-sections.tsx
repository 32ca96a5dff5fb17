import { WAYS_IN } from '../../api/ways-in.js';
import { useRead } from '../../api/use-read.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { useSession } from '../../session/session-context.js';
import { PasskeysSection } from './passkeys-section.js';
import { SecondStepSection } from './second-step-section.js';
import { TokensSection } from './tokens-section.js';

/** What opens these records beside the password; nothing can be added before there is one. */
export function WaysInSections() {
  const { hasPassword } = useSession();
  const read = useRead(WAYS_IN, {});
  if (!hasPassword)
    return (
      <Section title="A second step, passkeys and tokens">
        <p>Set a password first: these stand beside it.</p>
      </Section>
    );
  return (
    <Shown read={read} what="the ways in">
      {({ waysIn }) => (
        <>
          <SecondStepSection secondStep={waysIn.secondStep} />
          <PasskeysSection passkeys={waysIn.passkeys} />
          <TokensSection tokens={waysIn.tokens} />
        </>
      )}
    </Shown>
  );
}
