import './water.css';
import { Link } from 'react-router';
import { WATER_ALERTS } from '../api/water.js';
import { useRead } from '../api/use-read.js';
import { SeverityMark } from '../components/severity-mark.js';
import { Shown } from '../components/states.js';

interface WaterAlertsProps {
  /** Said when nothing asks for attention; nothing is drawn then when left out. */
  quiet?: string;
}

/** What the newest readings ask for, gravest first, each with a way to its water. Fetches by itself. */
export function WaterAlerts({ quiet }: WaterAlertsProps) {
  const read = useRead(WATER_ALERTS, {});
  return (
    <Shown read={read} what="the water alerts">
      {({ waterAlerts }) =>
        waterAlerts.length === 0 ? (
          quiet === undefined ? null : (
            <p className="lw-quiet">{quiet}</p>
          )
        ) : (
          <ul className="lw-water-alerts" aria-label="Water that asks for attention">
            {waterAlerts.map(({ kind, severity, message, place }) => (
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
                </span>
              </li>
            ))}
          </ul>
        )
      }
    </Shown>
  );
}
