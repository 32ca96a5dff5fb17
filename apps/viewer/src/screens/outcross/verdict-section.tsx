import { Link } from 'react-router';
import type { LineOutcross, OutcrossForecast, OutcrossPoint } from '../../api/outcross.js';
import { Section } from '../../components/section.js';
import { Empty } from '../../components/states.js';
import { percent, plural } from '../../wording/figures.js';
import { pointText, verdictWords } from '../../wording/outcross-words.js';
import { AllelesTable, ForecastFans, type ForecastWays } from '../line-routes/forecast-ways.js';

/** Whether to outcross at all, by the line's forecast without and with it. */
export function VerdictSection({ lineId, outcross }: { lineId: string; outcross: LineOutcross }) {
  const { forecast, whyNoForecast, purposeVersion } = outcross;
  return (
    <Section title="Outcross, or not?">
      {purposeVersion === 0 && (
        <p>
          Nobody has said yet what this line is for, so that only F is looked at.{' '}
          <Link to={`/lines/${lineId}/purpose`}>Say what it is for</Link>.
        </p>
      )}
      {whyNoForecast !== null && (
        <Empty>
          {whyNoForecast} Without new fish the line ends, so that there is nothing to compare an
          outcross with.
        </Empty>
      )}
      {forecast !== null && <Verdict forecast={forecast} ceiling={outcross.ceiling} />}
      {forecast === null && whyNoForecast === null && (
        <p className="lw-quiet">The line is not simulated yet.</p>
      )}
    </Section>
  );
}

function Verdict({ forecast, ceiling }: { forecast: OutcrossForecast; ceiling: number }) {
  const { verdict, needs, gains, costs, without, withIt } = forecast;
  const { title, text } = verdictWords(verdict);
  const generations = without.generations.length - 1;
  const ways: ForecastWays = {
    ...{ way: withIt, name: 'with the outcross', title: 'With the outcross' },
    other: { way: without, name: 'without it', title: 'Without it' },
  };
  return (
    <>
      <p>
        <strong>{title}.</strong> {text}
      </p>
      <Points
        title="What the line is heading for without it"
        points={needs}
        none="Nothing that it should not: F stays under the ceiling, and no wanted allele is at risk."
      />
      <Points
        title="What the outcross makes better"
        points={gains}
        none="Nothing by more than chance."
      />
      <Points title="What it makes worse" points={costs} none="Nothing by more than chance." />
      <p className="lw-quiet lw-words">
        After {plural(generations, 'generation')} under the plan of the line, in{' '}
        {plural(without.simulations, 'simulated line')} each; with it, one brood of the first
        generation is the outcross. The line needs new blood when F passes the ceiling of{' '}
        {percent(ceiling, 0)}, or a wanted allele is left in fewer than 80 of 100 lines. This rule
        is our own and has no source. That outbred young may be stronger is not counted: nobody has
        measured it in bettas.
      </p>
      <ForecastFans ways={ways} />
      <AllelesTable ways={ways} />
    </>
  );
}

interface PointsProps {
  title: string;
  points: readonly OutcrossPoint[];
  none: string;
}

function Points({ title, points, none }: PointsProps) {
  return (
    <>
      <h3>{title}</h3>
      {points.length === 0 ? (
        <p className="lw-quiet">{none}</p>
      ) : (
        <ul>
          {points.map((point) => (
            <li key={`${point.figure} ${point.name}`}>{pointText(point)}</li>
          ))}
        </ul>
      )}
    </>
  );
}
