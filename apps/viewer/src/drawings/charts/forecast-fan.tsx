import * as d3 from 'd3';
import { clsx } from 'clsx';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis, UprightAxis } from './axis.js';
import { widestFirst, type ChanceBand } from './bands.js';
import chartsStyles from './charts.module.css';
import { plotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import styles from './forecast-fan.module.css';

export interface FanPoint {
  /** 0: now. */
  readonly generation: number;
  readonly median: number;
  readonly bands: readonly ChanceBand[];
}

export interface ForecastFanProps {
  readonly title: string;
  readonly points: readonly FanPoint[];
  /** Another way to breed on, as its median alone. */
  readonly other?: { readonly name: string; readonly points: readonly FanPoint[] };
  /** What the fan itself is. */
  readonly name: string;
  /** A value with its unit. */
  readonly words: (value: number) => string;
}

const MARGIN = { top: 10, right: 14, bottom: 38, left: 56 };

/** From the lowest to the highest value drawn; a little room where all are the same. */
export function fanDomain({
  points,
  other,
}: Pick<ForecastFanProps, 'points' | 'other'>): [number, number] {
  const values = [
    ...points.flatMap(({ median, bands }) => [
      median,
      ...bands.flatMap(({ low, high }) => [low, high]),
    ]),
    ...(other?.points ?? []).map(({ median }) => median),
  ];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  return least === most ? [least - 0.5, most + 0.5] : [least, most];
}

/** A figure over the generations to come: nested bands of what is likely, widening, with the middle as a line. */
export function ForecastFan(props: ForecastFanProps) {
  const { title, points, other, words } = props;
  const [figure, width] = useWidth<HTMLDivElement>(460);
  const area = plotArea(width, Math.round(Math.min(280, Math.max(200, width * 0.5))), MARGIN);
  const last = points.at(-1)?.generation ?? 1;
  const x = d3.scaleLinear([0, Math.max(1, last)], [area.left, area.right]);
  const y = d3.scaleLinear(fanDomain(props), [area.bottom, area.top]).nice(4);
  const line = d3
    .line<FanPoint>()
    .x(({ generation }) => x(generation))
    .y(({ median }) => y(median));
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures={fanText(props)}
      below={
        <>
          <FanKey {...props} />
          <FanTable {...props} />
        </>
      }
    >
      <UprightAxis area={area} ticks={y.ticks(4).map((at) => ({ at: y(at), text: words(at) }))} />
      <LevelAxis
        area={area}
        ticks={points.map(({ generation }) => ({
          at: x(generation),
          text: generation === 0 ? 'now' : String(generation),
        }))}
        name="generation"
      />
      {widestFirst(points[0]?.bands ?? []).map(({ percent }) => (
        <path
          key={percent}
          className={clsx(styles['fan'], styles[`fan-${percent}`])}
          d={bandPath(points, percent, x, y)}
        />
      ))}
      {['halo', 'line'].map((layer) =>
        [points, ...(other === undefined ? [] : [other.points])].map((each, k) => (
          <path
            key={`${layer} ${k}`}
            className={
              layer === 'halo' ? styles['halo'] : k === 0 ? styles['middle'] : styles['other']
            }
            d={line(each) ?? ''}
          />
        )),
      )}
    </PlotFigure>
  );
}

type Linear = d3.ScaleLinear<number, number>;

function bandPath(points: readonly FanPoint[], percent: number, x: Linear, y: Linear): string {
  const of = ({ bands }: FanPoint): ChanceBand | undefined =>
    bands.find((band) => band.percent === percent);
  return (
    d3
      .area<FanPoint>()
      .x(({ generation }) => x(generation))
      .y0((point) => y(of(point)?.low ?? point.median))
      .y1((point) => y(of(point)?.high ?? point.median))(points) ?? ''
  );
}

/** The picture in a sentence. */
export function fanText({ points, other, name, words }: ForecastFanProps): string {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return 'Nothing to draw.';
  const wide = widestFirst(last.bands)[0];
  const range =
    wide === undefined
      ? ''
      : `, in ${wide.percent} of 100 cases ${words(wide.low)} to ${words(wide.high)}`;
  const beside = other?.points.at(-1);
  return `${name}: ${words(first.median)} now, ${words(last.median)} after ${last.generation} generations${range}.${
    beside === undefined ? '' : ` ${other?.name ?? ''}: ${words(beside.median)}.`
  } The table below has the same figures.`;
}

function FanKey({ points, name, other }: ForecastFanProps) {
  const sample = (className: string | undefined) => (
    <svg width="28" height="16" aria-hidden="true" className={chartsStyles['swatch']}>
      <path className={className} d="M0 8h28" />
    </svg>
  );
  const percents = widestFirst(points[0]?.bands ?? []).map(({ percent }) => percent);
  return (
    <ul className={chartsStyles['legend']}>
      <li>
        {sample(styles['middle'])} {name}, the middle
      </li>
      {percents.toReversed().map((percent) => (
        <li key={percent}>
          <svg width="28" height="16" aria-hidden="true" className={chartsStyles['swatch']}>
            <rect
              className={clsx(styles['fan'], styles[`fan-${percent}`])}
              x={0.5}
              y={2}
              width={27}
              height={12}
            />
          </svg>
          {percent} of 100 lines
        </li>
      ))}
      {other !== undefined && (
        <li>
          {sample(styles['other'])} {other.name}, the middle
        </li>
      )}
    </ul>
  );
}

function FanTable({ title, points, other, name, words }: ForecastFanProps) {
  const percents = widestFirst(points[0]?.bands ?? [])
    .map(({ percent }) => percent)
    .toReversed();
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Generation', numeric: true },
        { heading: name, numeric: true },
        ...percents.map((percent) => ({ heading: `${percent} of 100`, numeric: true })),
        ...(other === undefined ? [] : [{ heading: other.name, numeric: true }]),
      ]}
      rows={() =>
        points.map(({ generation, median, bands }, k) => [
          generation === 0 ? 'now' : generation,
          words(median),
          ...percents.map((percent) => {
            const band = bands.find((one) => one.percent === percent);
            return band === undefined ? '' : `${words(band.low)} to ${words(band.high)}`;
          }),
          ...(other === undefined ? [] : [words(other.points[k]?.median ?? NaN)]),
        ])
      }
    />
  );
}
