import { Link } from 'react-router';
import { WATER_ALERTS, type WaterAlert } from '../api/water.js';
import { useRead } from '../api/use-read.js';
import { SeverityMark } from '../components/severity-mark.js';
import { Shown } from '../components/states.js';
import { plural } from '../wording/figures.js';
import styles from './water-alerts.module.css';

interface WaterAlertsProps {
  /** Said when nothing asks for attention; nothing is drawn then when left out. */
  quiet?: string;
  /** Shows only what harms fish now; the rest is counted, and opens on a tap. */
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
              alerts={waterAlerts.filter(({ severity }) => !brief || severity === 'stop')}
            />
            {brief && (
              <TheRest alerts={waterAlerts.filter(({ severity }) => severity !== 'stop')} />
            )}
          </>
        )
      }
    </Shown>
  );
}

function TheRest({ alerts }: { alerts: readonly WaterAlert[] }) {
  if (alerts.length === 0) return null;
  const of = (wanted: string) => alerts.filter(({ severity }) => severity === wanted).length;
  const counts = [
    of('caution') > 0 ? plural(of('caution'), 'caution') : '',
    of('note') > 0 ? plural(of('note'), 'note') : '',
  ].filter((text) => text !== '');
  return (
    <details className={styles['rest']}>
      <summary>Water: {counts.join(', ')}</summary>
      <AlertList alerts={alerts} />
    </details>
  );
}

function AlertList({ alerts }: { alerts: readonly WaterAlert[] }) {
  if (alerts.length === 0) return null;
  return (
    <ul className={styles['alerts']} aria-label="Water that asks for attention">
      {alerts.map(({ kind, severity, message, cautions, place }) => (
        <li key={`${kind} ${place.latest.id}`}>
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
            {cautions.length > 0 && (
              <ul className={styles['alert-cautions']} aria-label={`Caution: ${place.name}`}>
                {cautions.map((caution) => (
                  <li key={caution}>{caution}</li>
                ))}
              </ul>
            )}
          </span>
        </li>
      ))}
    </ul>
  );
}
