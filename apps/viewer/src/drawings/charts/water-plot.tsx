import { DAY } from '@linewright/care';
import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { Guide, GuideName, LevelAxis, UprightAxis } from './axis.js';
import { plotArea, ticksOf, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
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
const HEIGHT = 190;
const time = d3.timeFormat('%Y-%m-%d %H:%M');

/** Un-ionised ammonia of one water over time, with the limit. Readings over it are solid squares. */
export function WaterPlot({ title, points, limit }: WaterPlotProps) {
  const [figure, width] = useWidth<HTMLDivElement>(520);
  const ordered = d3.sort(points, ({ at }) => at);
  if (ordered.length === 0) return null;
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={HEIGHT}
      below={
        <>
          <p className="lw-quiet-text">
            mg/L of un-ionised ammonia as NH3. Squares: over the limit. Rings: not over it.
          </p>
          <TableAlternative
            caption={title}
            columns={[{ heading: 'Taken' }, { heading: 'mg/L as NH3', numeric: true }]}
            rows={() => ordered.map(({ at, unionised }) => [time(at), unionised.toPrecision(2)])}
          />
        </>
      }
    >
      <WaterOverTime area={plotArea(width, HEIGHT, MARGIN)} ordered={ordered} limit={limit} />
    </PlotFigure>
  );
}

/** First to last reading with a little room on either side, so that one alone stands in the middle of a day. */
export function timeShown(ordered: readonly WaterPoint[]): readonly [from: number, to: number] {
  const [first = 0, last = 0] = d3.extent(ordered, ({ at }) => at.getTime());
  const room = Math.max(DAY / 2, (last - first) * 0.04);
  return [first - room, last + room];
}

function scalesOf(ordered: readonly WaterPoint[], limit: number, area: PlotArea) {
  const [from, to] = timeShown(ordered);
  const most = d3.max(ordered, ({ unionised }) => unionised) ?? 0;
  return {
    x: d3.scaleTime([new Date(from), new Date(to)], [area.left, area.right]),
    y: d3.scaleLinear([0, Math.max(most, limit) * 1.15], [area.bottom, area.top]).nice(4),
  };
}

/** Over more than two days the days alone, else the hours too. */
const timeOf = (ordered: readonly WaterPoint[]): ((at: Date) => string) =>
  d3.timeFormat(+ordered.at(-1)!.at - +ordered[0]!.at > 2 * DAY ? '%d %b' : '%d %b %H:%M');

interface WaterOverTimeProps {
  area: PlotArea;
  ordered: readonly WaterPoint[];
  limit: number;
}

function WaterOverTime({ area, ordered, limit }: WaterOverTimeProps) {
  const { x, y } = scalesOf(ordered, limit, area);
  const line = d3
    .line<WaterPoint>()
    .x(({ at }) => x(at))
    .y(({ unionised }) => y(unionised));
  const days = Math.max(2, Math.floor(area.width / 130));
  return (
    <>
      <UprightAxis area={area} ticks={ticksOf(y, 4, y.tickFormat(4))} />
      <LevelAxis area={area} ticks={ticksOf(x, days, timeOf(ordered))} />
      <Guide area={area} at={y(limit)} />
      <path className={styles['line']} d={line(ordered) ?? ''} />
      <Readings ordered={ordered} limit={limit} x={x} y={y} />
      <GuideName area={area} at={y(limit)} text="your limit" />
    </>
  );
}

function Readings({
  ordered,
  limit,
  x,
  y,
}: {
  ordered: readonly WaterPoint[];
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
