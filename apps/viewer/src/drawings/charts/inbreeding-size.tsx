import * as d3 from 'd3';
import { coefficient } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { type FittedPoint, InbreedingPlot } from './inbreeding-plot.js';

export interface SizedBrood {
  readonly id: string;
  readonly tag: string;
  readonly inbreeding: number;
  /** Scores, or broods, behind the size. */
  readonly counted: number;
  readonly size: number;
}

export interface InbreedingSizeProps {
  readonly title: string;
  /** What is measured: "mean body length, mm". */
  readonly what: string;
  readonly whose: string;
  readonly broods: readonly SizedBrood[];
  readonly curve: readonly FittedPoint[];
  readonly words: (size: number) => string;
}

/** From the smallest to the largest of what is drawn, with some room. */
export function sizeDomain(
  broods: readonly SizedBrood[],
  curve: readonly FittedPoint[],
): [low: number, high: number] {
  const all = [
    ...broods.map(({ size }) => size),
    ...curve.flatMap(({ value, low, high }) => [value, low, high]),
  ];
  const [low, high] = [d3.min(all) ?? 0, d3.max(all) ?? 1];
  const room = 0.06 * (high - low) || 0.5;
  return [low - room, high + room];
}

/** The size of each brood, or of its fish, against its inbreeding, and the fitted change. */
export function InbreedingSize(props: InbreedingSizeProps) {
  const { title, whose, broods, curve, words } = props;
  return (
    <InbreedingPlot
      {...props}
      broods={broods.map((brood) => ({
        ...brood,
        value: brood.size,
        told: `${brood.tag}: ${words(brood.size)}`,
      }))}
      domain={sizeDomain(broods, curve)}
      effect="loss"
      left={60}
      table={
        <TableAlternative
          caption={title}
          columns={[
            { heading: 'Brood' },
            { heading: whose, numeric: true },
            { heading: 'Scores', numeric: true },
            { heading: 'Size', numeric: true },
          ]}
          rows={() =>
            d3
              .sort(broods, ({ inbreeding }) => inbreeding)
              .map(({ tag, inbreeding, counted, size }) => [
                tag,
                coefficient(inbreeding),
                counted,
                words(size),
              ])
          }
        />
      }
    />
  );
}
