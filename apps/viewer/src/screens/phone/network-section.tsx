import { Button } from '@mantine/core';
import { Link } from 'react-router';
import { CHOOSE_HOME_NETWORK, HOME_NETWORK, type HomeNetwork } from '../../api/home-network.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { useSession } from '../../session/session-context.js';
import { PhoneSteps } from './phone-steps.js';

/** The switch for phones at home, and while it is on the way of a phone to the records. */
export function NetworkSection() {
  const read = useRead(HOME_NETWORK, {});
  return (
    <Shown read={read} what="the network">
      {({ homeNetwork }) => (
        <>
          <Switch network={homeNetwork} onChosen={read.reload} />
          {homeNetwork.open !== null && <PhoneSteps open={homeNetwork.open} />}
        </>
      )}
    </Shown>
  );
}

function Switch({ network, onChosen }: { network: HomeNetwork; onChosen: () => void }) {
  const { role, loopback } = useSession();
  const { save, saving, problem } = useSave(CHOOSE_HOME_NETWORK);
  const { chosen, barred } = network;
  const choose = async (open: boolean) => {
    if ((await save({ open })) !== null) onChosen();
  };
  return (
    <Section title="Phones at home" aside={chosen ? 'open' : 'closed'}>
      <p className="lw-words">
        {chosen
          ? 'Devices in the network of this house reach Linewright, and ask for a password. Devices outside of it do not.'
          : 'Only browsers on the machine itself reach Linewright. Open it to use it on a phone in the fish room.'}
      </p>
      {barred !== null && (
        <p className="lw-words">
          {barred} {!chosen && <Link to="/people">Go to People</Link>}
        </p>
      )}
      {network.problem !== null && (
        <div className="lw-notice lw-notice-problem" role="alert">
          <p>{network.problem}</p>
        </div>
      )}
      <ProblemNotice problem={problem} />
      {role === 'OWNER' && (chosen || barred === null) && (
        <div className="lw-form-buttons">
          <Button
            className={chosen ? '' : 'lw-primary'}
            loading={saving}
            onClick={() => void choose(!chosen)}
          >
            {chosen ? 'Close it to phones' : 'Open it to phones at home'}
          </Button>
          {chosen && !loopback && (
            <span className="lw-quiet">This device is shut out as well, at once.</span>
          )}
        </div>
      )}
      {role !== 'OWNER' && <p className="lw-quiet">The owner opens and closes it.</p>}
    </Section>
  );
}
