import { clsx } from 'clsx';
import { useMemo } from 'react';
import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
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

export function ScorerKey({ scorers }: { scorers: readonly string[] }) {
  return (
    <ul className={chartsStyles['legend']}>
      {scorers.map((scorer, k) => (
        <li key={scorer}>
          <svg width="18" height="18" viewBox="-9 -9 18 18" aria-hidden="true">
            <path
              className={clsx(styles['scorer'], styles[`scorer-${k % 4}`])}
              d={scorerShape(scorers, scorer)}
            />
          </svg>
          {scorer}
        </li>
      ))}
    </ul>
  );
}

/** A row a fish, a mark a score: how far the marks of a row lie apart is how far repeats disagree. */
export function RepeatDots({ dots, scorers, words, title }: RepeatDotsProps) {
  const [ref, width] = useWidth<HTMLDivElement>(560);
  const rows = useMemo(
    () =>
      d3
        .groups(dots, (dot) => dot.fishId)
        .map(([id, group]) => ({
          id,
          tag: group[0]?.tag ?? '',
          dots: group,
          mean: d3.mean(group, (dot) => dot.value) ?? 0,
        }))
        .sort((a, b) => b.mean - a.mean),
    [dots],
  );
  const [least = 0, most = 1] = d3.extent(dots, (dot) => dot.value) as [number, number];
  const pad = least === most ? 1 : (most - least) * 0.04;
  const x = d3.scaleLinear([least - pad, most + pad], [MARGIN.left, width - MARGIN.right]).nice(5);
  const height = MARGIN.top + MARGIN.bottom + rows.length * ROW;
  const bottom = height - MARGIN.bottom;
  return (
    <figure className={clsx(chartsStyles['plot'], 'lw-drawing')} ref={ref}>
      <figcaption>{title}</figcaption>
      <ScorerKey scorers={scorers} />
      <svg
        width={width}
        height={height}
        role="img"
        aria-label={`${title}. The table below has the same figures.`}
      >
        {x.ticks(5).map((tick) => (
          <g key={tick} transform={`translate(${x(tick)} 0)`}>
            <line className={chartsStyles['gridline']} y1={MARGIN.top} y2={bottom} />
            <text className={chartsStyles['axis']} y={bottom + 16} textAnchor="middle">
              {tick}
            </text>
          </g>
        ))}
        {rows.map((row, k) => {
          const y = MARGIN.top + (k + 0.5) * ROW;
          const values = row.dots.map((dot) => dot.value);
          return (
            <DotRow
              key={row.id}
              y={y}
              row={row}
              x={x}
              values={values}
              scorers={scorers}
              words={words}
            />
          );
        })}
      </svg>
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
    </figure>
  );
}

function DotRow({
  y,
  row,
  x,
  values,
  scorers,
  words,
}: {
  y: number;
  row: { id: string; tag: string; dots: RepeatedDot[]; mean: number };
  x: d3.ScaleLinear<number, number, never>;
  values: number[];
  scorers: readonly string[];
  words: (value: number) => string;
}) {
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
      <line
        className={styles['repeat-span']}
        x1={x(d3.min(values) ?? 0)}
        x2={x(d3.max(values) ?? 0)}
      />
      {row.dots.map((dot, j) => (
        <path
          key={j}
          className={clsx(
            styles['scorer'],
            styles[`scorer-${Math.max(0, scorers.indexOf(dot.scorer)) % 4}`],
          )}
          transform={`translate(${x(dot.value)} 0)`}
          d={scorerShape(scorers, dot.scorer)}
        >
          <title>{`${dot.tag}, ${dot.scorer}, ${dot.on}: ${words(dot.value)}`}</title>
        </path>
      ))}
    </g>
  );
}
