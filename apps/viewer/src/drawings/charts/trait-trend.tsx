import { clsx } from 'clsx';
import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import chartsStyles from './charts.module.css';
import { ExpectedAndCame } from './expected-and-came.js';
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

const MARGIN = { top: 26, right: 14, bottom: 38, left: 46 };

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
  const [ref, width] = useWidth<HTMLDivElement>(560);
  const height = Math.round(Math.min(300, Math.max(210, width * 0.45)));
  const scores = sinceFirst(generations, ({ score }) => score);
  const values = sinceFirst(generations, ({ value }) => value);
  const x = d3
    .scalePoint(
      generations.map(({ generation }) => generation),
      [MARGIN.left, width - MARGIN.right],
    )
    .padding(0.5);
  const y = d3
    .scaleLinear(changeDomain([...scores, ...values]), [height - MARGIN.bottom, MARGIN.top])
    .nice(5);
  const first = generations[0]?.generation ?? 0;
  return (
    <figure className={clsx(chartsStyles['plot'], 'lw-drawing')} ref={ref}>
      <figcaption>{title}</figcaption>
      <svg width={width} height={height} role="img" aria-label={trendText(props)}>
        {y.ticks(5).map((tick) => (
          <g key={tick} transform={`translate(0 ${y(tick)})`}>
            <line
              className={tick === 0 ? styles['no-change'] : chartsStyles['gridline']}
              x1={MARGIN.left}
              x2={width - MARGIN.right}
            />
            <text className={chartsStyles['axis']} x={MARGIN.left - 8} y={4} textAnchor="end">
              {tick > 0 ? `+${tick}` : tick}
            </text>
          </g>
        ))}
        {generations.map(({ generation }) => (
          <text
            key={generation}
            className={chartsStyles['axis']}
            x={x(generation)}
            y={height - MARGIN.bottom + 16}
            textAnchor="middle"
          >
            {generation}
          </text>
        ))}
        <text className={chartsStyles['axis']} x={2} y={14}>
          {`change since generation ${first}${unit === '' ? '' : `, ${unit}`}`}
        </text>
        <text
          className={chartsStyles['axis']}
          x={(MARGIN.left + width - MARGIN.right) / 2}
          y={height - 4}
          textAnchor="middle"
        >
          generation
        </text>
        <Series kind="scores" points={scores} x={x} y={y} />
        <Series kind="values" points={values} x={x} y={y} />
      </svg>
      <TrendKey percent={props.bandPercent} />
      <ExpectedAndCame steps={generations} change={props.change} />
      <TrendTable {...props} />
    </figure>
  );
}

/** The picture in a sentence. */
export function trendText({ title, generations, change }: TraitTrendProps): string {
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
  return `${title}: ${parts.length === 0 ? 'one generation only' : parts.join(', ')}. The table below has the same figures.`;
}

/** Beside each other, so that no band hides the other's. */
const SHIFT = { scores: -6, values: 6 } as const;

function Mark({ kind }: { kind: keyof typeof SHIFT }) {
  return kind === 'scores' ? (
    <rect className={styles['trend-scores']} x={-4.5} y={-4.5} width={9} height={9} />
  ) : (
    <circle className={styles['trend-values']} r={5} />
  );
}

function Series({
  kind,
  points,
  x,
  y,
}: {
  kind: keyof typeof SHIFT;
  points: readonly ChangePoint[];
  x: d3.ScalePoint<number>;
  y: d3.ScaleLinear<number, number>;
}) {
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
