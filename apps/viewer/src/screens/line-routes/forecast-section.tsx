import { useState } from 'react';
import { LINE_FORECAST, type LineForecast } from '../../api/line-routes.js';
import { useRead } from '../../api/use-read.js';
import { Facts } from '../../components/facts.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { percent, plural } from '../../wording/figures.js';
import { sizeText } from './forecast-fans.js';
import { AllelesTable, ForecastFans, type ForecastWays } from './forecast-ways.js';
import { LeftOut } from './left-out.js';
import styles from './line-routes.module.css';
import { NumberChoice } from './number-choice.js';

/** Where the line goes under the plan, beside what was done so far. */
export function ForecastSection({ lineId }: { lineId: string }) {
  const [generations, setGenerations] = useState(8);
  const read = useRead(LINE_FORECAST, { input: { lineId, generations, fryPerBrood: 20 } });
  return (
    <Section title="Forecast of the line">
      <NumberChoice
        className={styles['generations']}
        label="Generations"
        value={generations}
        of={[5, 6, 7, 8, 9, 10]}
        onChange={setGenerations}
      />
      <Shown read={read} what="the forecast">
        {({ lineForecast }) => <Figures forecast={lineForecast} onDone={read.reload} />}
      </Shown>
    </Section>
  );
}

function Figures({ forecast, onDone }: { forecast: LineForecast; onDone: () => void }) {
  const { plan, soFar, whyNone, waiting, leftOut } = forecast;
  if (waiting !== null)
    return (
      <WaitingComputation
        key={waiting.id}
        computation={waiting}
        what="what is known of the fish"
        onDone={onDone}
      />
    );
  if (plan === null) return <Empty>{whyNone}</Empty>;
  const ways: ForecastWays = {
    way: plan,
    name: 'the plan',
    title: 'Under the plan',
    other: soFar === null ? null : { way: soFar, name: 'as so far', title: 'As so far' },
  };
  return (
    <>
      <WaysText forecast={forecast} />
      <ForecastFans ways={ways} />
      <AllelesTable ways={ways} />
      <LeftOut sentences={leftOut} />
    </>
  );
}

/** How either line is bred, and its effective size. */
function WaysText({ forecast: { plan, soFar, bred, kinshipRise } }: { forecast: LineForecast }) {
  return (
    <Facts
      facts={[
        {
          name: 'The plan',
          value: `${plural(plan?.broods ?? 0, 'brood')} a generation, most worth ${
            kinshipRise === null
              ? 'without a limit on kinship'
              : `while kinship rises by at most ${percent(kinshipRise, 1)} a generation, or as little as it can`
          }; ${plural(plan?.simulations ?? 0, 'simulated line')}`,
        },
        {
          name: 'As so far',
          value:
            bred === null || soFar === null
              ? 'no brood of the line has both parents on record'
              : `${plural(bred.sires, 'sire')} and ${plural(bred.dams, 'dam')} in ${plural(soFar.broods, 'brood')}, the best by score; ${plural(soFar.simulations, 'simulated line')}`,
        },
        { name: 'Effective size under the plan', value: sizeText(plan?.effectiveSize ?? null) },
        ...(soFar === null
          ? []
          : [{ name: 'Effective size as so far', value: sizeText(soFar.effectiveSize) }]),
      ]}
    />
  );
}
