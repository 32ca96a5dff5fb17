import { Button } from '@mantine/core';
import type { LineRoute } from '../../api/line-routes.js';
import { DataTable } from '../../components/data-table.js';
import { Facts } from '../../components/facts.js';
import { percent, plainNumber, plural } from '../../wording/figures.js';
import {
  triesText,
  fryText,
  routeName,
  stepTexts,
  sureChanceText,
} from '../../wording/route-words.js';

interface RouteDetailsProps {
  route: LineRoute;
  /** Null while its figures only hold for now. */
  onAdopt: (() => void) | null;
}

/** One route: its figures in a line, its generations when it is opened. */
export function RouteDetails({ route, onAdopt }: RouteDetailsProps) {
  return (
    <details>
      <summary>
        <strong>{routeName(route)}</strong>
        <span>{summaryText(route)}</span>
        {route.droppedAfter !== null && (
          <span className="lw-quiet">
            Dropped after {plural(route.droppedAfter, 'simulation')}, being behind the others.
          </span>
        )}
      </summary>
      <RouteFacts route={route} />
      <RouteSteps route={route} />
      {onAdopt !== null && (
        <div className="lw-form-buttons">
          <Button onClick={onAdopt}>Adopt as the line’s plan</Button>
        </div>
      )}
    </details>
  );
}

const summaryText = ({ chance, simulations, meanMonths, fry, inbreeding }: LineRoute): string =>
  [
    triesText(chance, simulations),
    ...(meanMonths === null ? [] : [`about ${Math.round(meanMonths)} months`]),
    `${Math.round(fry).toLocaleString('en')} young`,
    `F ${percent(inbreeding.mean, 0)}`,
  ].join(' · ');

function RouteFacts({ route }: { route: LineRoute }) {
  const { simulations, meanGenerations, meanMonths } = route;
  return (
    <Facts
      facts={[
        {
          name: 'Chance that the target is reached',
          value: sureChanceText(route),
        },
        { name: 'Simulations', value: simulations.toLocaleString('en') },
        {
          name: 'Generations until then',
          value:
            meanGenerations === null
              ? 'it was never reached'
              : `${plainNumber(meanGenerations, 1)} on average, about ${Math.round(meanMonths ?? 0)} months`,
        },
        {
          name: 'Young to raise',
          value: fryText(route.fry),
        },
        {
          name: 'F of the last brood',
          value: `${percent(route.inbreeding.mean, 1)} on average; 8 of 10 between ${percent(route.inbreeding.low, 1)} and ${percent(route.inbreeding.high, 1)}`,
        },
        { name: 'Young of the last brood that pass', value: percent(route.passing, 0) },
        ...(route.endedByCeiling === 0
          ? []
          : [
              {
                name: 'Ended by the ceiling on F',
                value: `${percent(route.endedByCeiling, 0)} of the simulations`,
              },
            ]),
      ]}
    />
  );
}

function RouteSteps({ route }: { route: LineRoute }) {
  const texts = stepTexts(route);
  const rows = route.broods.map(({ generation }, k) => ({ generation, text: texts[k] ?? '', k }));
  return (
    <DataTable
      caption="Generations of the route"
      rows={rows}
      rowKey={({ k }) => String(k)}
      columns={[
        {
          key: 'generation',
          title: 'Generation',
          number: true,
          cell: ({ generation }) => generation,
        },
        { key: 'pair', title: 'Pair', cell: ({ text }) => text },
        {
          key: 'chance',
          title: 'Reached by then',
          number: true,
          cell: ({ generation }) => percent(route.byGeneration[generation - 1] ?? 0, 0),
        },
      ]}
    />
  );
}
