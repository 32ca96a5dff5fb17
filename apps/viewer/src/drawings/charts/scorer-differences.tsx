import { clsx } from 'clsx';
import * as d3 from 'd3';
import { useWidth } from '../use-width.js';
import { LevelAxis } from './axis.js';
import { plotArea, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import chartsStyles from './charts.module.css';
import styles from './repeat-dots.module.css';

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

/** As far to one side as to the other, so that no difference stands in the middle. */
function scaleOf(pairs: readonly ScorerPair[], { left, right }: PlotArea) {
  const ends = pairs.flatMap(({ difference, interval }) => [
    difference,
    ...(interval === null ? [] : [interval.low, interval.high]),
  ]);
  const reach = d3.max(ends, Math.abs) || 1;
  return d3.scaleLinear([-reach, reach], [left, right]).nice(5);
}

/** Mean difference of each pair of scorers with its interval, against no difference. */
export function ScorerDifferences({ pairs, unit, title }: ScorerDifferencesProps) {
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const area = plotArea(width, MARGIN.top + MARGIN.bottom + pairs.length * ROW, MARGIN);
  const x = scaleOf(pairs, area);
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures="The table has the same figures."
    >
      <LevelAxis
        area={area}
        ticks={x.ticks(5).map((tick) => ({
          at: x(tick),
          text: tick > 0 ? `+${tick}` : String(tick),
          line: tick === 0 ? styles['no-difference'] : undefined,
        }))}
        lines
        name={`difference${unit === '' ? '' : `, ${unit}`}`}
      />
      {pairs.map((pair, k) => (
        <PairRow key={`${pair.first} ${pair.second}`} y={MARGIN.top + k * ROW} pair={pair} x={x} />
      ))}
    </PlotFigure>
  );
}

interface PairRowProps {
  y: number;
  pair: ScorerPair;
  x: d3.ScaleLinear<number, number, never>;
}

function PairRow({ y, pair: { first, second, fish, difference, interval }, x }: PairRowProps) {
  return (
    <g transform={`translate(0 ${y})`}>
      <text className={clsx(chartsStyles['axis'], styles['row-tag'])} x={MARGIN.left} y={14}>
        {`${first} minus ${second}, ${fish} fish`}
      </text>
      {interval !== null && (
        <path
          className={styles['difference-span']}
          d={`M${x(interval.low)} 24v8m0 -4H${x(interval.high)}m0 -4v8`}
          fill="none"
        />
      )}
      <circle className={styles['difference-mean']} cx={x(difference)} cy={28} r={4.5} />
    </g>
  );
}
