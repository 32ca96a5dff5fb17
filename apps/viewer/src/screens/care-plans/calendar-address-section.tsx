import { Button } from '@mantine/core';
import { useState } from 'react';
import {
  CALENDAR_ADDRESS,
  RENEW_CALENDAR_ADDRESS,
  TURN_OFF_CALENDAR_ADDRESS,
} from '../../api/care.js';
import { useRead } from '../../api/use-read.js';
import { useSave, type SaveOf } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';
import { SecretAddress } from '../../components/secret-address.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { showTime } from '../../wording/figures.js';

/** The secret address under which a calendar program reads the tasks: off until wanted, told once, renewed at will. */
export function CalendarAddressSection() {
  const read = useRead(CALENDAR_ADDRESS, {});
  const renewing = useSave(RENEW_CALENDAR_ADDRESS);
  const turningOff = useSave(TURN_OFF_CALENDAR_ADDRESS);
  const [address, setAddress] = useState<string | null>(null);
  const renew = async () => {
    const saved = await renewing.save({});
    const path = saved?.renewCalendarAddress.path ?? null;
    if (path !== null) setAddress(`${window.location.origin}${path}`);
  };
  const turnOff = async () => {
    if ((await turningOff.save({})) !== null) setAddress(null);
  };
  return (
    <Section title="In your calendar program">
      <p className="lw-words">
        A calendar program can show the tasks by subscribing to an address (an iCalendar feed). It
        needs no sign-in: anyone who knows the address can read the tasks, so keep it to yourself.
        Nothing can be changed through it.
      </p>
      <Shown read={read} what="the address">
        {({ calendarAddress }) => (
          <>
            <p>
              {calendarAddress.on && calendarAddress.since !== null
                ? `On since ${showTime(calendarAddress.since)}.`
                : address === null
                  ? 'Off: there is no address.'
                  : 'On.'}
            </p>
            {address !== null && (
              <SecretAddress
                address={address}
                elsewhere="a phone cannot open it. Open Linewright by the address your phone reaches it under, and make the address there."
              >
                Your address, shown this once (only a fingerprint of it is kept). Copy it into the
                calendar program now; if it is lost, make a new one.
              </SecretAddress>
            )}
            <AddressButtons
              renewing={renewing}
              renew={renew}
              calendarAddress={calendarAddress}
              turningOff={turningOff}
              turnOff={turnOff}
            />
            {calendarAddress.on && <p className="lw-quiet">A new address ends the one before.</p>}
          </>
        )}
      </Shown>
      <ProblemNotice problem={renewing.problem ?? turningOff.problem} />
    </Section>
  );
}

function AddressButtons({
  renewing,
  renew,
  calendarAddress,
  turningOff,
  turnOff,
}: {
  renewing: SaveOf<typeof RENEW_CALENDAR_ADDRESS>;
  renew: () => Promise<void>;
  calendarAddress: { on: boolean; since: string | null };
  turningOff: SaveOf<typeof TURN_OFF_CALENDAR_ADDRESS>;
  turnOff: () => Promise<void>;
}) {
  return (
    <div className="lw-form-buttons">
      <Button loading={renewing.saving} onClick={() => void renew()}>
        {calendarAddress.on ? 'Make a new address' : 'Turn on'}
      </Button>
      {calendarAddress.on && (
        <Button loading={turningOff.saving} onClick={() => void turnOff()}>
          Turn off
        </Button>
      )}
    </div>
  );
}
