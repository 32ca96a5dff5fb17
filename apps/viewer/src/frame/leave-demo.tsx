import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { CLEAR_DEMO } from '../api/session.js';
import { useSave } from '../api/use-save.js';
import { ProblemNotice } from '../components/notice.js';
import { Sheet } from '../components/sheet.js';
import { useOutbox } from '../outbox/use-outbox.js';
import { useLeaveDevice } from '../screens/session/use-leave-device.js';
import { plural } from '../wording/figures.js';

/** From the demo to an empty book: says what goes before it goes. */
export function LeaveDemo() {
  const [asked, setAsked] = useState(false);
  const close = () => setAsked(false);
  return (
    <>
      <Button size="xs" onClick={() => setAsked(true)}>
        Begin my own book
      </Button>
      <Sheet title="Leave the demo" opened={asked} onClose={close}>
        <WhatGoes onStay={close} />
      </Sheet>
    </>
  );
}

function WhatGoes({ onStay }: { onStay: () => void }) {
  const { save, saving, problem } = useSave(CLEAR_DEMO);
  const leaveDevice = useLeaveDevice();
  const waiting = useOutbox().state.entries.length;
  return (
    <>
      <p className="lw-words">
        All records of the demo are cleared, and with them everything that was added or changed in
        it, by you too: fish, scores, photos, people. It cannot be undone. Then you set a name and a
        password, and begin with an empty book.
      </p>
      {waiting > 0 && (
        <p className="lw-words">
          {plural(waiting, 'entry', 'entries')} of this device, not sent yet, will find no record to
          go to.
        </p>
      )}
      <p className="lw-words">
        Is there anything in it to keep? Make a backup first, under{' '}
        <Link to="/export-and-backup" onClick={onStay}>
          Export and backup
        </Link>
        .
      </p>
      <ProblemNotice problem={problem} />
      <div className="lw-form-buttons">
        <Button
          className="lw-danger"
          variant="filled"
          loading={saving}
          onClick={async () => {
            if ((await save({ confirm: 'clear the demo' })) !== null) await leaveDevice();
          }}
        >
          Clear the demo
        </Button>
        <Button onClick={onStay}>Stay in the demo</Button>
      </div>
    </>
  );
}
