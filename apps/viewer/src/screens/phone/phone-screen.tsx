import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { DeviceSection } from './device-section.js';
import { NetworkSection } from './network-section.js';

/** Everything between this machine and a phone: the switch, the way there, what it means, and a check. */
export function PhoneScreen() {
  return (
    <Screen title="Phone" lead="Linewright on a phone in the fish room, in about three minutes.">
      <NetworkSection />
      <DeviceSection />
      <TroubleSection />
      <SafetySection />
    </Screen>
  );
}

function TroubleSection() {
  return (
    <Section title="When the phone shows nothing">
      <ul className="lw-words">
        <li>
          Wrong network: the phone must be in the same one as the machine. Turn mobile data off for
          a moment, and leave a network for guests.
        </li>
        <li>
          The machine’s firewall: it may ask whether Linewright (Node) may be reached in private
          networks. Allow those, not public ones.
        </li>
        <li>
          Some routers keep wireless devices apart (“isolation”): switch that off for your own
          network.
        </li>
        <li>The machine sleeps: phones reach it while it is awake and Linewright runs.</li>
      </ul>
    </Section>
  );
}

function SafetySection() {
  return (
    <Section title="What it means for safety">
      <ul className="lw-words">
        <li>Closed: nobody reaches your records but from this machine. Safest, and no phone.</li>
        <li>
          Open at home: whoever is in your network finds the sign-in page. The password stands
          between them and the records, so choose a good one, and a network for your guests. Callers
          from the internet are hung up on.
        </li>
        <li>
          The certificate: it lets the phone know this machine and keeps others from listening. It
          was made here, its key never leaves the data folder and goes into no backup, and it
          vouches only for names and addresses at home: it cannot pass for a shop or a bank. Still,
          teach it to your own phones alone.
        </li>
        <li>
          A warning passed by without the certificate: works for a look, but the phone keeps no
          pages, and you cannot tell this machine from another that answers in its place.
        </li>
        <li>From outside of the house: not by this switch. See “Settings” in the README.</li>
      </ul>
    </Section>
  );
}
