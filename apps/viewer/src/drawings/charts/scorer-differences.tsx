import { clsx } from 'clsx';
import * as d3 from 'd3';
import { useWidth } from '../use-width.js';
import chartsStyles from './charts.module.css';
import repeatDotsStyles from './repeat-dots.module.css';

export interface ScorerPair {
  readonly first: string;
  readonly second: string;
  readonly fish: number;
  readonly difference: number;
  readonly interval: { readonly low: number; readonly high: number } | null;
}

export interface ScorerDifferencesProps {
  readonly pairs: readonly ScorerPair[];
  readonly unit: string;
  readonly title: string;
}

const MARGIN = { top: 6, right: 16, bottom: 36, left: 16 };
const ROW = 44;

/** Mean difference of each pair of scorers with its interval, against no difference. */
export function ScorerDifferences({ pairs, unit, title }: ScorerDifferencesProps) {
  const [ref, width] = useWidth<HTMLDivElement>(560);
  const ends = pairs.flatMap(({ difference, interval }) => [
    difference,
    ...(interval === null ? [] : [interval.low, interval.high]),
  ]);
  const reach = d3.max(ends, Math.abs) ?? 1;
  const x = d3.scaleLinear([-reach || -1, reach || 1], [MARGIN.left, width - MARGIN.right]).nice(5);
  const height = MARGIN.top + MARGIN.bottom + pairs.length * ROW;
  const bottom = height - MARGIN.bottom;
  return (
    <figure className={clsx(chartsStyles['plot'], 'lw-drawing')} ref={ref}>
      <figcaption>{title}</figcaption>
      <svg
        width={width}
        height={height}
        role="img"
        aria-label={`${title}. The table has the same figures.`}
      >
        {x.ticks(5).map((tick) => (
          <g key={tick} transform={`translate(${x(tick)} 0)`}>
            <line
              className={tick === 0 ? repeatDotsStyles['no-difference'] : chartsStyles['gridline']}
              y1={MARGIN.top}
              y2={bottom}
            />
            <text className={chartsStyles['axis']} y={bottom + 16} textAnchor="middle">
              {tick > 0 ? `+${tick}` : tick}
            </text>
          </g>
        ))}
        {pairs.map(({ first, second, fish, difference, interval }, k) => {
          const y = MARGIN.top + k * ROW;
          return (
            <PairRow
              key={`${first} ${second}`}
              y={y}
              first={first}
              second={second}
              fish={fish}
              interval={interval}
              x={x}
              difference={difference}
            />
          );
        })}
        <text className={chartsStyles['axis']} x={width / 2} y={height - 4} textAnchor="middle">
          {`difference${unit === '' ? '' : `, ${unit}`}`}
        </text>
      </svg>
    </figure>
  );
}

function PairRow({
  y,
  first,
  second,
  fish,
  interval,
  x,
  difference,
}: {
  y: number;
  first: string;
  second: string;
  fish: number;
  interval: { readonly low: number; readonly high: number } | null;
  x: d3.ScaleLinear<number, number, never>;
  difference: number;
}) {
  return (
    <g transform={`translate(0 ${y})`}>
      <text
        className={clsx(chartsStyles['axis'], repeatDotsStyles['row-tag'])}
        x={MARGIN.left}
        y={14}
      >
        {`${first} minus ${second}, ${fish} fish`}
      </text>
      {interval !== null && (
        <path
          className={repeatDotsStyles['difference-span']}
          d={`M${x(interval.low)} 24v8m0 -4H${x(interval.high)}m0 -4v8`}
          fill="none"
        />
      )}
      <circle className={repeatDotsStyles['difference-mean']} cx={x(difference)} cy={28} r={4.5} />
    </g>
  );
}
