import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis } from './axis.js';
import chartsStyles from './charts.module.css';
import styles from './correlation-scale.module.css';
import { plotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';

/** How two traits go together in one part: -1 to 1, with the ends of its band where they are known. */
export interface DrawnCorrelation {
  readonly part: string;
  readonly correlation: number;
  readonly low: number | null;
  readonly high: number | null;
}

export interface CorrelationScaleProps {
  readonly title: string;
  readonly correlations: readonly DrawnCorrelation[];
  /** A correlation as written. */
  readonly words: (correlation: number) => string;
}

const MARGIN = { top: 8, right: 24, bottom: 40, left: 24 };
const ROW = 44;

const TICKS = [
  { of: -1, text: 'against' },
  { of: 0, text: 'nothing' },
  { of: 1, text: 'together' },
];

/** Each part as a dot with its band between "against each other" and "together". */
export function CorrelationScale({ title, correlations, words }: CorrelationScaleProps) {
  const [figure, width] = useWidth<HTMLDivElement>(520);
  const area = plotArea(width, MARGIN.top + MARGIN.bottom + ROW * correlations.length, MARGIN);
  const x = d3.scaleLinear([-1, 1], [area.left + 20, area.right - 20]);
  const end = (value: number | null): string => (value === null ? '–' : words(value));
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      below={
        <TableAlternative
          caption={title}
          columns={[
            { heading: 'Part' },
            { heading: 'Correlation', numeric: true },
            { heading: 'From', numeric: true },
            { heading: 'To', numeric: true },
          ]}
          rows={() =>
            correlations.map(({ part, correlation, low, high }) => [
              part,
              words(correlation),
              end(low),
              end(high),
            ])
          }
        />
      }
    >
      <LevelAxis area={area} lines ticks={TICKS.map(({ of, text }) => ({ at: x(of), text }))} />
      {correlations.map(({ part, correlation, low, high }, k) => (
        <g key={part} transform={`translate(0 ${MARGIN.top + k * ROW})`}>
          <text className={chartsStyles['axis']} x={area.left} y={14}>
            {part}
          </text>
          {low !== null && high !== null && (
            <path className={styles['band']} d={`M${x(low)} 24v8m0 -4H${x(high)}m0 -4v8`} />
          )}
          <circle className={styles['dot']} cx={x(correlation)} cy={28} r={5}>
            <title>{`${part}: ${words(correlation)}`}</title>
          </circle>
        </g>
      ))}
    </PlotFigure>
  );
}
