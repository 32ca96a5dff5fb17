import { clsx } from 'clsx';
import { DAY } from '@linewright/care';
import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import chartsStyles from './charts.module.css';
import styles from './water-plot.module.css';

export interface WaterPoint {
  readonly id: string;
  readonly at: Date;
  /** Un-ionised ammonia, mg/L as NH3. */
  readonly unionised: number;
}

export interface WaterPlotProps {
  readonly title: string;
  readonly points: readonly WaterPoint[];
  /** The limit that is set, mg/L as NH3. */
  readonly limit: number;
}

const MARGIN = { top: 16, right: 14, bottom: 24, left: 52 };
const time = d3.timeFormat('%Y-%m-%d %H:%M');

/** Un-ionised ammonia of one water over time, with the limit. Readings over it are solid squares. */
export function WaterPlot({ title, points, limit }: WaterPlotProps) {
  const [ref, width] = useWidth<HTMLDivElement>(520);
  const height = 190;
  const ordered = d3.sort(points, ({ at }) => at);
  const [first, last] = d3.extent(ordered, ({ at }) => at.getTime());
  if (first === undefined || last === undefined) return null;
  const margin = Math.max(DAY / 2, (last - first) * 0.04);
  const x = d3.scaleTime(
    [new Date(first - margin), new Date(last + margin)],
    [MARGIN.left, width - MARGIN.right],
  );
  const most = d3.max(ordered, ({ unionised }) => unionised) ?? 0;
  const y = d3
    .scaleLinear([0, Math.max(most, limit) * 1.15], [height - MARGIN.bottom, MARGIN.top])
    .nice(4);
  const line = d3
    .line<WaterPoint>()
    .x(({ at }) => x(at))
    .y(({ unionised }) => y(unionised));
  return (
    <figure className={clsx(chartsStyles['plot'], 'lw-drawing')} ref={ref}>
      <figcaption>{title}</figcaption>
      <svg
        width={width}
        height={height}
        role="img"
        aria-label={`${title}. The table below has the same figures.`}
      >
        {y.ticks(4).map((tick) => (
          <g key={tick} transform={`translate(0 ${y(tick)})`}>
            <line className={chartsStyles['gridline']} x1={MARGIN.left} x2={width - MARGIN.right} />
            <text className={chartsStyles['axis']} x={MARGIN.left - 6} y={4} textAnchor="end">
              {y.tickFormat(4)(tick)}
            </text>
          </g>
        ))}
        {x.ticks(Math.max(2, Math.floor(width / 130))).map((tick) => (
          <text
            key={tick.getTime()}
            className={chartsStyles['axis']}
            x={x(tick)}
            y={height - 6}
            textAnchor="middle"
          >
            {d3.timeFormat(last - first > 2 * DAY ? '%d %b' : '%d %b %H:%M')(tick)}
          </text>
        ))}
        <line
          className={chartsStyles['guide']}
          x1={MARGIN.left}
          x2={width - MARGIN.right}
          y1={y(limit)}
          y2={y(limit)}
        />
        <path className={styles['line']} d={line(ordered) ?? ''} />
        <Readings ordered={ordered} limit={limit} x={x} y={y} />
        <text
          className={clsx(chartsStyles['axis'], chartsStyles['guide-label'])}
          x={MARGIN.left + 4}
          y={y(limit) - 5}
        >
          your limit
        </text>
      </svg>
      <p className="lw-quiet-text">
        mg/L of un-ionised ammonia as NH3. Squares: over the limit. Rings: not over it.
      </p>
      <TableAlternative
        caption={title}
        columns={[{ heading: 'Taken' }, { heading: 'mg/L as NH3', numeric: true }]}
        rows={() => ordered.map(({ at, unionised }) => [time(at), unionised.toPrecision(2)])}
      />
    </figure>
  );
}

function Readings({
  ordered,
  limit,
  x,
  y,
}: {
  ordered: WaterPoint[];
  limit: number;
  x: d3.ScaleTime<number, number, never>;
  y: d3.ScaleLinear<number, number, never>;
}) {
  return ordered.map((point) =>
    point.unionised > limit ? (
      <rect
        key={point.id}
        className={styles['over']}
        x={x(point.at) - 5}
        y={y(point.unionised) - 5}
        width={10}
        height={10}
      />
    ) : (
      <circle
        key={point.id}
        className={styles['point']}
        cx={x(point.at)}
        cy={y(point.unionised)}
        r={4.5}
      />
    ),
  );
}
