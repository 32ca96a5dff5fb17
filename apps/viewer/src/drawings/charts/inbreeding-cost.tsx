import * as d3 from 'd3';
import { coefficient, percent } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { type FittedPoint, InbreedingPlot } from './inbreeding-plot.js';

export interface CountedBrood {
  readonly id: string;
  readonly tag: string;
  readonly inbreeding: number;
  readonly counted: number;
  readonly alive: number;
}

export interface InbreedingCostProps {
  readonly title: string;
  /** What is counted: "young that swam free of those that hatched". */
  readonly what: string;
  /** Whose inbreeding it is: "F of the young". */
  readonly whose: string;
  readonly broods: readonly CountedBrood[];
  /** Shares alive. */
  readonly curve: readonly FittedPoint[];
}

const asPercent = (share: number): string => `${Number((100 * share).toFixed(1))} %`;

/** The share of each brood that lived against its inbreeding, and the fitted cost. */
export function InbreedingCost(props: InbreedingCostProps) {
  return (
    <InbreedingPlot
      {...props}
      broods={props.broods
        .filter(({ counted }) => counted > 0)
        .map((brood) => ({
          ...brood,
          value: brood.alive / brood.counted,
          told: `${brood.tag}: ${brood.alive} of ${brood.counted}`,
        }))}
      domain={[0, 1]}
      words={asPercent}
      effect="cost"
      table={<BroodTable {...props} />}
    />
  );
}

function BroodTable({ title, whose, broods }: InbreedingCostProps) {
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Brood' },
        { heading: whose, numeric: true },
        { heading: 'Counted', numeric: true },
        { heading: 'Of these', numeric: true },
        { heading: 'Share', numeric: true },
      ]}
      rows={() =>
        d3
          .sort(broods, ({ inbreeding }) => inbreeding)
          .map(({ tag, inbreeding, counted, alive }) => [
            tag,
            coefficient(inbreeding),
            counted,
            alive,
            counted > 0 ? percent(alive / counted) : '–',
          ])
      }
    />
  );
}
