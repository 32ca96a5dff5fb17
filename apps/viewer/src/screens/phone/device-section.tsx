import { Button } from '@mantine/core';
import { Section } from '../../components/section.js';
import { deviceChecks, type DeviceCheck } from './device-checks.js';
import { useDeviceFacts } from './use-device-facts.js';
import styles from './phone-screen.module.css';

const stand = (good: boolean | null): string => {
  if (good === null) return 'Looking…';
  return good ? 'Yes' : 'No';
};

/** What works on the device at hand and what does not, each with what to do about it. */
export function DeviceSection() {
  const { facts, again } = useDeviceFacts();
  return (
    <Section title="This device" act actions={<Button onClick={again}>Look again</Button>}>
      <p className="lw-words lw-quiet">
        Of the device you read this on: open this page on the phone to check the phone.
      </p>
      <ul className={styles['checks']}>
        {deviceChecks(facts).map((check) => (
          <Check key={check.key} check={check} />
        ))}
      </ul>
    </Section>
  );
}

function Check({ check: { title, good, words } }: { check: DeviceCheck }) {
  return (
    <li>
      <strong>
        {title}: {stand(good)}
      </strong>
      {good !== null && <span>{words}</span>}
    </li>
  );
}
