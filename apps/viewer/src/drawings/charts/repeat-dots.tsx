import { clsx } from 'clsx';
import { useMemo } from 'react';
import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis } from './axis.js';
import { plotArea, ticksOf, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import chartsStyles from './charts.module.css';
import styles from './repeat-dots.module.css';

export interface RepeatedDot {
  readonly fishId: string;
  readonly tag: string;
  readonly scorer: string;
  readonly value: number;
  readonly on: string;
}

export interface RepeatDotsProps {
  readonly dots: readonly RepeatedDot[];
  /** Whose marks are which; scorers in order. */
  readonly scorers: readonly string[];
  /** A value with its unit. */
  readonly words: (value: number) => string;
  readonly title: string;
}

const MARGIN = { top: 8, right: 16, bottom: 36, left: 86 };
const ROW = 22;

/** Shapes, so that no scorer is told by colour alone. */
const shapes = [
  d3.symbolCircle,
  d3.symbolSquare,
  d3.symbolTriangle,
  d3.symbolDiamond,
  d3.symbolCross,
  d3.symbolStar,
  d3.symbolWye,
];

export function scorerShape(scorers: readonly string[], scorer: string): string {
  const k = Math.max(0, scorers.indexOf(scorer));
  return d3.symbol(shapes[k % shapes.length] ?? d3.symbolCircle, 64)() ?? '';
}

const markClass = (scorers: readonly string[], scorer: string): string =>
  clsx(styles['scorer'], styles[`scorer-${Math.max(0, scorers.indexOf(scorer)) % 4}`]);

export function ScorerKey({ scorers }: { scorers: readonly string[] }) {
  return (
    <ul className={chartsStyles['legend']}>
      {scorers.map((scorer) => (
        <li key={scorer}>
          <svg width="18" height="18" viewBox="-9 -9 18 18" aria-hidden="true">
            <path className={markClass(scorers, scorer)} d={scorerShape(scorers, scorer)} />
          </svg>
          {scorer}
        </li>
      ))}
    </ul>
  );
}

interface FishRow {
  readonly id: string;
  readonly tag: string;
  readonly dots: readonly RepeatedDot[];
}

/** The scores by fish, the highest mean first. */
export function rowsOf(dots: readonly RepeatedDot[]): FishRow[] {
  const rows = d3
    .groups(dots, (dot) => dot.fishId)
    .map(([id, group]) => ({
      id,
      tag: group[0]?.tag ?? '',
      dots: group,
      mean: d3.mean(group, (dot) => dot.value) ?? 0,
    }));
  return rows.sort((a, b) => b.mean - a.mean);
}

/** From the least to the most with a little room; a whole step to either side where all are the same. */
function scaleOf(dots: readonly RepeatedDot[], { left, right }: PlotArea) {
  const [least = 0, most = 1] = d3.extent(dots, (dot) => dot.value) as [number, number];
  const pad = least === most ? 1 : (most - least) * 0.04;
  return d3.scaleLinear([least - pad, most + pad], [left, right]).nice(5);
}

/** A row a fish, a mark a score: how far the marks of a row lie apart is how far repeats disagree. */
export function RepeatDots({ dots, scorers, words, title }: RepeatDotsProps) {
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const rows = useMemo(() => rowsOf(dots), [dots]);
  const area = plotArea(width, MARGIN.top + MARGIN.bottom + rows.length * ROW, MARGIN);
  const x = scaleOf(dots, area);
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      above={<ScorerKey scorers={scorers} />}
      below={<ScoreTable title={title} rows={rows} words={words} />}
    >
      <LevelAxis area={area} ticks={ticksOf(x, 5, String)} lines />
      {rows.map((row, k) => (
        <DotRow
          key={row.id}
          y={MARGIN.top + (k + 0.5) * ROW}
          row={row}
          x={x}
          scorers={scorers}
          words={words}
        />
      ))}
    </PlotFigure>
  );
}

interface ScoreTableProps {
  title: string;
  rows: readonly FishRow[];
  words: (value: number) => string;
}

function ScoreTable({ title, rows, words }: ScoreTableProps) {
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Fish' },
        { heading: 'Scorer' },
        { heading: 'Date' },
        { heading: 'Score', numeric: true },
      ]}
      rows={() =>
        rows.flatMap((row) =>
          row.dots.map((dot) => [dot.tag, dot.scorer, dot.on, words(dot.value)]),
        )
      }
    />
  );
}

interface DotRowProps {
  y: number;
  row: FishRow;
  x: d3.ScaleLinear<number, number, never>;
  scorers: readonly string[];
  words: (value: number) => string;
}

function DotRow({ y, row, x, scorers, words }: DotRowProps) {
  const [least = 0, most = 0] = d3.extent(row.dots, (dot) => dot.value);
  return (
    <g transform={`translate(0 ${y})`}>
      <text
        className={clsx(chartsStyles['axis'], styles['row-tag'])}
        x={MARGIN.left - 10}
        y={4}
        textAnchor="end"
      >
        {row.tag}
      </text>
      <line className={styles['repeat-span']} x1={x(least)} x2={x(most)} />
      {row.dots.map((dot, j) => (
        <path
          key={j}
          className={markClass(scorers, dot.scorer)}
          transform={`translate(${x(dot.value)} 0)`}
          d={scorerShape(scorers, dot.scorer)}
        >
          <title>{`${dot.tag}, ${dot.scorer}, ${dot.on}: ${words(dot.value)}`}</title>
        </path>
      ))}
    </g>
  );
}
