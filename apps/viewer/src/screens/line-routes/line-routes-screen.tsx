import { Link, useParams } from 'react-router';
import { LINE } from '../../api/lines.js';
import { useRead } from '../../api/use-read.js';
import { Screen } from '../../components/screen.js';
import { OwnLine } from '../lines/own-line.js';
import { ForecastSection } from './forecast-section.js';
import { PlanSection } from './plan-section.js';
import { RoutesSection } from './routes-section.js';

/** Where a line can go: routes to what it is for, and where it goes as it is bred. */
export function LineRoutesScreen() {
  const { id = '' } = useParams();
  return (
    <OwnLine lineId={id} title="Routes and forecast">
      <Routes id={id} />
    </OwnLine>
  );
}

function Routes({ id }: { id: string }) {
  const line = useRead(LINE, { id }).data?.line;
  return (
    <Screen
      title={
        line === undefined ? 'Routes and forecast' : `Routes and forecast of line ${line.code}`
      }
      lead={
        line !== undefined && (
          <Link to={`/lines/${line.id}`}>
            {line.code} · {line.name}
          </Link>
        )
      }
    >
      <p className="lw-words">
        Everything here is simulated many times over, from what is known of the fish and from what
        is not. A chance says how often it came true in these simulations: it guides, and it
        promises nothing.
      </p>
      <PlanSection lineId={id} />
      <RoutesSection lineId={id} />
      <ForecastSection lineId={id} />
    </Screen>
  );
}
