import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis, UprightAxis } from './axis.js';
import chartsStyles from './charts.module.css';
import { ExpectedAndCame } from './expected-and-came.js';
import { plotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import styles from './trait-trend.module.css';

/** A mean, and half the width of its band. */
export interface MeanWithBand {
  readonly mean: number;
  readonly half: number | null;
}

export interface TrendGeneration {
  readonly generation: number;
  readonly fish: number;
  readonly scored: number;
  readonly score: MeanWithBand | null;
  readonly value: MeanWithBand | null;
  /** What it was expected to gain on the one before, and what its mean score did gain. */
  readonly expected: number | null;
  readonly came: number | null;
}

export interface TraitTrendProps {
  readonly title: string;
  readonly generations: readonly TrendGeneration[];
  /** A difference with its sign and unit. */
  readonly change: (value: number) => string;
  /** A mean score with its unit. */
  readonly words: (value: number) => string;
  /** "95 of 100": in how many cases the bands hold. */
  readonly bandPercent: number;
  /** Unit of the upright axis, empty where there is none. */
  readonly unit: string;
}

const MARGIN = { top: 10, right: 14, bottom: 38, left: 46 };

export interface ChangePoint {
  readonly generation: number;
  readonly at: number;
  readonly half: number | null;
}

/** Each mean as its change since the first generation that has one, so that scores and what is passed on stand on one scale. */
export function sinceFirst(
  generations: readonly TrendGeneration[],
  of: (generation: TrendGeneration) => MeanWithBand | null,
): ChangePoint[] {
  const known = generations.flatMap((each) => {
    const mean = of(each);
    return mean === null ? [] : [{ generation: each.generation, ...mean }];
  });
  const [first] = known;
  return known.map(({ generation, mean, half }) => ({
    generation,
    at: mean - (first?.mean ?? 0),
    half,
  }));
}

/** From the lowest to the highest end of a band, 0 in any case. */
export function changeDomain(points: readonly ChangePoint[]): [number, number] {
  const ends = points.flatMap(({ at, half }) => [at - (half ?? 0), at + (half ?? 0)]);
  const [least, most] = [Math.min(0, ...ends), Math.max(0, ...ends)];
  return least === most ? [-1, 1] : [least, most];
}

/** Means of scores and of what the fish pass on, generation by generation; below, what was expected and what came. */
export function TraitTrend(props: TraitTrendProps) {
  const { title, generations, unit } = props;
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const area = plotArea(width, Math.round(Math.min(300, Math.max(210, width * 0.45))), MARGIN);
  const scores = sinceFirst(generations, ({ score }) => score);
  const values = sinceFirst(generations, ({ value }) => value);
  const x = d3
    .scalePoint(
      generations.map(({ generation }) => generation),
      [area.left, area.right],
    )
    .padding(0.5);
  const y = d3.scaleLinear(changeDomain([...scores, ...values]), [area.bottom, area.top]).nice(5);
  const first = generations[0]?.generation ?? 0;
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures={trendText(props)}
      above={
        <p className="lw-quiet-text">
          {`Change since generation ${first}${unit === '' ? '' : `, ${unit}`}`}
        </p>
      }
      below={
        <>
          <TrendKey percent={props.bandPercent} />
          <ExpectedAndCame steps={generations} change={props.change} />
          <TrendTable {...props} />
        </>
      }
    >
      <UprightAxis
        area={area}
        ticks={y.ticks(5).map((tick) => ({
          at: y(tick),
          text: tick > 0 ? `+${tick}` : String(tick),
          line: tick === 0 ? styles['no-change'] : undefined,
        }))}
      />
      <LevelAxis
        area={area}
        ticks={generations.map(({ generation }) => ({
          at: x(generation) ?? 0,
          text: String(generation),
        }))}
        name="generation"
      />
      <Series kind="scores" points={scores} x={x} y={y} />
      <Series kind="values" points={values} x={x} y={y} />
    </PlotFigure>
  );
}

/** The picture in a sentence. */
export function trendText({
  generations,
  change,
}: Pick<TraitTrendProps, 'generations' | 'change'>): string {
  const say = (what: string, points: readonly ChangePoint[]): string[] => {
    const [first, last] = [points[0], points.at(-1)];
    return first === undefined || last === undefined || first === last
      ? []
      : [`${what} ${change(last.at)} from generation ${first.generation} to ${last.generation}`];
  };
  const parts = [
    ...say(
      'mean score',
      sinceFirst(generations, ({ score }) => score),
    ),
    ...say(
      'what they pass on',
      sinceFirst(generations, ({ value }) => value),
    ),
  ];
  return `${parts.length === 0 ? 'One generation only' : capital(parts.join(', '))}. The table below has the same figures.`;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Beside each other, so that no band hides the other's. */
const SHIFT = { scores: -6, values: 6 } as const;

function Mark({ kind }: { kind: keyof typeof SHIFT }) {
  return kind === 'scores' ? (
    <rect className={styles['trend-scores']} x={-4.5} y={-4.5} width={9} height={9} />
  ) : (
    <circle className={styles['trend-values']} r={5} />
  );
}

interface SeriesProps {
  kind: keyof typeof SHIFT;
  points: readonly ChangePoint[];
  x: d3.ScalePoint<number>;
  y: d3.ScaleLinear<number, number>;
}

function Series({ kind, points, x, y }: SeriesProps) {
  const across = ({ generation }: ChangePoint): number => (x(generation) ?? 0) + SHIFT[kind];
  const line = d3
    .line<ChangePoint>()
    .x(across)
    .y(({ at }) => y(at));
  return (
    <g>
      <path className={styles[`line-${kind}`]} d={line(points) ?? ''} />
      {points.map((point) => (
        <g key={point.generation} transform={`translate(${across(point)} 0)`}>
          {point.half !== null && (
            <path
              className={styles[`span-${kind}`]}
              d={`M-4 ${y(point.at - point.half)}h8m-4 0V${y(point.at + point.half)}m-4 0h8`}
            />
          )}
          <g transform={`translate(0 ${y(point.at)})`}>
            <Mark kind={kind} />
          </g>
        </g>
      ))}
    </g>
  );
}

function TrendKey({ percent }: { percent: number }) {
  const sample = (kind: keyof typeof SHIFT) => (
    <svg width="26" height="20" viewBox="-13 -10 26 20" aria-hidden="true">
      <path className={styles[`span-${kind}`]} d="M-4 9h8m-4 0V-9m-4 0h8" />
      <Mark kind={kind} />
    </svg>
  );
  return (
    <ul className={chartsStyles['legend']}>
      <li>{sample('scores')} mean score</li>
      <li>{sample('values')} what they pass on</li>
      <li>
        <span>upright line: right in {percent} of 100 cases</span>
      </li>
    </ul>
  );
}

function TrendTable({ title, generations, change, words }: TraitTrendProps) {
  const plusMinus = (mean: MeanWithBand | null, say: (value: number) => string): string =>
    mean === null
      ? '–'
      : mean.half === null
        ? say(mean.mean)
        : `${say(mean.mean)} (${say(mean.mean - mean.half)} to ${say(mean.mean + mean.half)})`;
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Generation', numeric: true },
        { heading: 'Fish', numeric: true },
        { heading: 'Scored', numeric: true },
        { heading: 'Mean score', numeric: true },
        { heading: 'What they pass on', numeric: true },
        { heading: 'Expected', numeric: true },
        { heading: 'Came', numeric: true },
      ]}
      rows={() =>
        generations.map((each) => [
          each.generation,
          each.fish,
          each.scored,
          plusMinus(each.score, words),
          plusMinus(each.value, change),
          each.expected === null ? '–' : change(each.expected),
          each.came === null ? '–' : change(each.came),
        ])
      }
    />
  );
}
