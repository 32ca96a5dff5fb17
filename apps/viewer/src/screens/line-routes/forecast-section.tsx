import { NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { LINE_FORECAST, type LineForecast, type StrategyForecast } from '../../api/routes.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Facts } from '../../components/facts.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { ForecastFan } from '../../drawings/index.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { percent, plainNumber, plural } from '../../wording/figures.js';
import { fanPoints, sizeText } from './forecast-fans.js';
import { LeftOut } from './left-out.js';
import styles from './line-routes.module.css';

/** Where the line goes under the plan, beside what was done so far. */
export function ForecastSection({ lineId }: { lineId: string }) {
  const [generations, setGenerations] = useState(8);
  const read = useRead(LINE_FORECAST, { input: { lineId, generations, fryPerBrood: 20 } });
  return (
    <Section title="Forecast of the line">
      <NativeSelect
        className={styles['generations'] ?? ''}
        label="Generations"
        value={String(generations)}
        data={['5', '6', '7', '8', '9', '10']}
        onChange={(event) => setGenerations(Number(event.currentTarget.value))}
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
  return (
    <>
      <WaysText forecast={forecast} />
      <div className={styles['fans']}>
        <Fans plan={plan} soFar={soFar} />
      </div>
      <AllelesTable plan={plan} soFar={soFar} />
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

interface BothWays {
  plan: StrategyForecast;
  soFar: StrategyForecast | null;
}

const asPercent = (value: number): string => percent(value, 0);

function Fans({ plan, soFar }: BothWays) {
  const other = (of: Parameters<typeof fanPoints>[1]) =>
    soFar === null ? {} : { other: { name: 'as so far', points: fanPoints(soFar, of) } };
  const traits = plan.generations[0]?.traits ?? [];
  return (
    <>
      <ForecastFan
        title="Mean F"
        name="the plan"
        points={fanPoints(plan, ({ inbreeding }) => inbreeding)}
        words={asPercent}
        {...other(({ inbreeding }) => inbreeding)}
      />
      <ForecastFan
        title="Mean kinship"
        name="the plan"
        points={fanPoints(plan, ({ kinship }) => kinship)}
        words={asPercent}
        {...other(({ kinship }) => kinship)}
      />
      {traits.map(({ traitId, name }, k) => (
        <ForecastFan
          key={traitId}
          title={`${name}, mean of what is inherited`}
          name="the plan"
          points={fanPoints(plan, (each) => each.traits[k]?.mean)}
          words={(value) => plainNumber(value, 1)}
          {...other((each) => each.traits[k]?.mean)}
        />
      ))}
    </>
  );
}

/** The chance that each wanted allele is still there, generation by generation. */
function AllelesTable({ plan, soFar }: BothWays) {
  const alleles = plan.generations[0]?.alleles ?? [];
  if (alleles.length === 0) return null;
  const last = (way: StrategyForecast | null, k: number): string => {
    const found = way?.generations.at(-1)?.alleles[k];
    return found === undefined
      ? ''
      : `${percent(found.stillThere, 0)} (${percent(found.low, 0)} to ${percent(found.high, 0)})`;
  };
  return (
    <DataTable
      caption={`Chance that each wanted allele is still there after ${plan.generations.length - 1} generations`}
      rows={alleles.map((allele, k) => ({ ...allele, k }))}
      rowKey={({ locusId, symbol }) => `${locusId} ${symbol}`}
      columns={[
        {
          key: 'allele',
          title: 'Wanted allele',
          cell: ({ locusName, symbol }) => `${symbol}, ${locusName}`,
        },
        {
          key: 'now',
          title: 'There now',
          number: true,
          cell: ({ stillThere }) => percent(stillThere, 0),
        },
        { key: 'plan', title: 'Under the plan', number: true, cell: ({ k }) => last(plan, k) },
        { key: 'so-far', title: 'As so far', number: true, cell: ({ k }) => last(soFar, k) },
      ]}
    />
  );
}
