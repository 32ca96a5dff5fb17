import type { OpenHomeNetwork } from '../../api/home-network.js';
import { QrCode } from '../../components/qr-code.js';
import { Section } from '../../components/section.js';
import { showTime } from '../../wording/figures.js';
import styles from './phone-screen.module.css';

/** What to do on the phone, from the camera to the bench. */
export function PhoneSteps({ open }: { open: OpenHomeNetwork }) {
  const [first, ...others] = open.addresses;
  if (first === undefined)
    return (
      <Section title="On the phone">
        <p className="lw-words">
          This machine is in no network now: connect it to the router of the house, by cable or
          wireless. The address appears here within seconds.
        </p>
      </Section>
    );
  return (
    <Section title="On the phone">
      <ol className={styles['steps']}>
        <li>
          Put the phone in the wireless network of the house; not mobile data, not the guests’.
        </li>
        <li>
          Point its camera at this picture and open what it offers.
          <PhoneAddress address={first} />
        </li>
        <li>
          The page that opens says how this phone is taught to trust this machine, for the two kinds
          of phone. It shows these letters; if they differ, stop:
          <div className={styles['fingerprint']}>
            <code>{open.fingerprint}</code>
          </div>
        </li>
        <li>
          Open Linewright from that page, sign in, and look at “This device” on this page there.
        </li>
        <li>Add it to the home screen from the browser’s menu, so that it is at hand.</li>
      </ol>
      <OtherAddresses others={others} nameTaken={open.nameTaken} />
      <p className="lw-words lw-quiet">
        The phone is taught once, until {showTime(open.authorityUntil).slice(0, 10)}.
      </p>
    </Section>
  );
}

function PhoneAddress({ address }: { address: OpenHomeNetwork['addresses'][number] }) {
  return (
    <>
      <QrCode qr={address.setUpQr} label={`QR code of ${address.setUpAddress}`} />
      <div className={styles['address']}>{address.setUpAddress}</div>
    </>
  );
}

interface OtherProps {
  others: OpenHomeNetwork['addresses'];
  nameTaken: boolean;
}

/** Numbers change when the router gives out others; what is kept on a phone belongs to the address it was opened at. */
function OtherAddresses({ others, nameTaken }: OtherProps) {
  return (
    <>
      {nameTaken && (
        <p className="lw-words">
          Another machine in this network goes by the name linewright.local, so only numbers are
          offered here.
        </p>
      )}
      {others.length > 0 && (
        <details>
          <summary>The phone does not find the name</summary>
          <p className="lw-words">
            Older phones and some routers know no names at home. These numbers lead to the same
            place, until the router gives the machine others. Stay with one of them: what waits on
            the phone belongs to the address at which it was entered.
          </p>
          {others.map((address) => (
            <PhoneAddress key={address.address} address={address} />
          ))}
        </details>
      )}
    </>
  );
}
