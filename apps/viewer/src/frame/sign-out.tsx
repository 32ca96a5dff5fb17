import { Button } from '@mantine/core';
import { useState } from 'react';
import { SIGN_OUT } from '../api/session.js';
import { useSave } from '../api/use-save.js';
import { ProblemNotice } from '../components/notice.js';
import { Sheet } from '../components/sheet.js';
import { useOutbox } from '../outbox/use-outbox.js';
import { useLeaveDevice } from '../screens/session/use-leave-device.js';
import { plural } from '../wording/figures.js';

/** Ends the session; asks first while entries wait on this device. */
export function SignOut() {
  const leaveDevice = useLeaveDevice();
  const { open, state } = useOutbox();
  const { save, saving, problem } = useSave(SIGN_OUT);
  const [asked, setAsked] = useState(false);
  const waiting = state.entries.length;
  const signOut = async () => {
    if ((await save({})) === null) return;
    await leaveDevice();
  };
  return (
    <>
      <Button
        size="xs"
        loading={saving}
        onClick={() => (waiting > 0 ? setAsked(true) : void signOut())}
      >
        Sign out
      </Button>
      <Sheet title="Entries wait on this device" opened={asked} onClose={() => setAsked(false)}>
        <p>
          {plural(waiting, 'entry has', 'entries have')} not reached the server. They stay on this
          device and are sent when you sign in here again; nobody else can send them. Until then
          they exist only here.
        </p>
        <ProblemNotice problem={problem} />
        <div className="lw-form-buttons">
          <Button
            className="lw-primary"
            onClick={() => {
              setAsked(false);
              void open?.outbox.send();
            }}
          >
            Stay and send them
          </Button>
          <Button loading={saving} onClick={() => void signOut()}>
            Sign out anyway
          </Button>
        </div>
      </Sheet>
    </>
  );
}
