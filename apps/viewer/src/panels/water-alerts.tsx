import { Link } from 'react-router';
import { WATER_ALERTS, type WaterAlert } from '../api/water.js';
import { useRead } from '../api/use-read.js';
import { SeverityMark } from '../components/severity-mark.js';
import { Shown } from '../components/states.js';
import { type SaidOnce, saidOnce } from '../wording/said-once.js';
import { plural } from '../wording/figures.js';
import styles from './water-alerts.module.css';

interface WaterAlertsProps {
  /** Said when nothing asks for attention; nothing is drawn then when left out. */
  quiet?: string;
  /** Shows what harms fish or may; notes are counted, and open on a tap. */
  brief?: boolean;
}

/** What the newest readings ask for, gravest first, each with a way to its water. Fetches by itself. */
export function WaterAlerts({ quiet, brief = false }: WaterAlertsProps) {
  const read = useRead(WATER_ALERTS, {});
  return (
    <Shown read={read} what="the water alerts">
      {({ waterAlerts }) =>
        waterAlerts.length === 0 ? (
          quiet === undefined ? null : (
            <p className="lw-quiet">{quiet}</p>
          )
        ) : (
          <>
            <AlertList
              alerts={waterAlerts.filter(({ severity }) => !brief || severity !== 'note')}
            />
            {brief && <Notes alerts={waterAlerts.filter(({ severity }) => severity === 'note')} />}
          </>
        )
      }
    </Shown>
  );
}

function Notes({ alerts }: { alerts: readonly WaterAlert[] }) {
  if (alerts.length === 0) return null;
  return (
    <details className={styles['rest']}>
      <summary>Water: {plural(alerts.length, 'note')}</summary>
      <AlertList alerts={alerts} />
    </details>
  );
}

function AlertList({ alerts }: { alerts: readonly WaterAlert[] }) {
  if (alerts.length === 0) return null;
  const said = saidOnce(alerts.map((alert) => ({ key: keyOf(alert), texts: alert.cautions })));
  return (
    <ul className={styles['alerts']} aria-label="Water that asks for attention">
      {alerts.map((alert) => {
        const { severity, message, place } = alert;
        return (
          <li key={keyOf(alert)}>
            <SeverityMark severity={severity} />
            <span>
              <Link
                to={
                  place.spawn === null
                    ? `/water?vessel=${encodeURIComponent(place.name)}`
                    : `/water?spawn=${place.spawn.id}`
                }
              >
                {place.spawn === null ? place.name : `Spawn ${place.name}`}
              </Link>{' '}
              {message}
              <AlertCautions of={place.name} said={said.get(keyOf(alert))} />
            </span>
          </li>
        );
      })}
    </ul>
  );
}

const keyOf = ({ kind, place }: WaterAlert): string => `${kind} ${place.latest.id}`;

/** Those that no alert above has said. */
function AlertCautions({ of, said }: { of: string; said: SaidOnce | undefined }) {
  if (said === undefined || (said.texts.length === 0 && said.before === null)) return null;
  return (
    <ul className={styles['alert-cautions']} aria-label={`Caution: ${of}`}>
      {said.texts.map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
      {said.before !== null && <li>The cautions above hold here too.</li>}
    </ul>
  );
}
