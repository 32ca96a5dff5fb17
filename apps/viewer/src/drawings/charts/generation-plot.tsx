import { clsx } from 'clsx';
import { useMemo } from 'react';
import * as d3 from 'd3';
import { coefficient, markedF } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import chartsStyles from './charts.module.css';
import styles from './generation-plot.module.css';

export interface GenerationPoint {
  readonly id: string;
  readonly tag: string;
  readonly generation: number;
  readonly inbreeding: number;
  /** What the F rests on; known where it is left blank. */
  readonly basis?: 'known' | 'at-least' | 'unknown';
}

export interface GenerationPlotProps {
  readonly points: readonly GenerationPoint[];
  /** Levels to compare with, such as 0.25, shown in percent. They are guides, not limits. */
  readonly guides?: readonly { readonly at: number; readonly label: string }[];
  readonly onOpenFish?: (id: string) => void;
  readonly title?: string;
  readonly width?: number;
  readonly height?: number;
}

interface GenerationRow {
  readonly count: number;
  readonly mean: number;
  readonly least: number;
  readonly most: number;
  /** Whether fish of unknown origin are behind some of these F. */
  readonly open: boolean;
  readonly fish: GenerationPoint[];
}

interface PlacedPoint extends GenerationPoint {
  readonly x: number;
  readonly y: number;
}

// The name of the upright axis stands in a line of its own above the topmost figure.
const MARGIN = { top: 30, right: 14, bottom: 40, left: 46 };

const isOpen = ({ basis }: GenerationPoint): boolean => basis !== undefined && basis !== 'known';

/** Without a decimal where there is none: "25 %", "12.5 %". */
const wholePercent = (share: number): string => `${Number((100 * share).toFixed(1))} %`;

/** Points of one generation with nearly the same F stand side by side, so that a brood shows as a row. */
function placePoints(
  points: readonly GenerationPoint[],
  x: d3.ScaleBand<number>,
  y: d3.ScaleLinear<number, number>,
): PlacedPoint[] {
  const groups = d3.group(
    points,
    (point) => point.generation,
    (point) => Math.round(y(point.inbreeding) / 5),
  );
  const placed: PlacedPoint[] = [];
  for (const [generation, levels] of groups) {
    const middle = x(generation)! + x.bandwidth() / 2;
    for (const level of levels.values()) {
      const step = Math.min(7, x.bandwidth() / level.length);
      level.forEach((point, i) => {
        const shift = (i - (level.length - 1) / 2) * step;
        placed.push({ ...point, x: middle + shift, y: y(point.inbreeding) });
      });
    }
  }
  return placed;
}

/** F of every fish by generation, with each generation's mean. */
export function GenerationPlot(props: GenerationPlotProps) {
  const { points, onOpenFish } = props;
  const guides = props.guides ?? [];
  const title = props.title ?? 'Inbreeding coefficient by generation';
  const [ref, measured] = useWidth<HTMLDivElement>(640);
  const width = props.width ?? measured;
  const height = props.height ?? Math.round(Math.min(340, Math.max(220, width * 0.5)));
  const rows = useMemo(
    () =>
      d3
        .rollups(
          points,
          (group) => ({
            count: group.length,
            mean: d3.mean(group, (point) => point.inbreeding) ?? 0,
            least: d3.min(group, (point) => point.inbreeding) ?? 0,
            most: d3.max(group, (point) => point.inbreeding) ?? 0,
            open: group.some(isOpen),
            fish: d3.sort(group, (a, b) => b.inbreeding - a.inbreeding),
          }),
          (point) => point.generation,
        )
        .sort((a, b) => a[0] - b[0]),
    [points],
  );
  const highest = d3.max([...points.map((point) => point.inbreeding), 0.1]) ?? 0.1;
  const top = d3.max([
    highest,
    ...guides.filter((one) => one.at < highest * 1.5).map((one) => one.at),
  ]);
  const x = d3
    .scaleBand(
      rows.map(([generation]) => generation),
      [MARGIN.left, width - MARGIN.right],
    )
    .paddingInner(0.12);
  const y = d3.scaleLinear([0, top ?? 0.1], [height - MARGIN.bottom, MARGIN.top]).nice(5);
  const placed = placePoints(points, x, y);
  const middle = (generation: number): number => x(generation)! + x.bandwidth() / 2;
  const mean = d3
    .line<(typeof rows)[number]>()
    .x(([generation]) => middle(generation))
    .y(([, row]) => y(row.mean));
  const bottom = height - MARGIN.bottom;
  const shownGuides = guides.filter((one) => one.at <= y.domain()[1]!);
  return (
    <figure className={clsx(chartsStyles['plot'], 'lw-drawing')} ref={ref}>
      <figcaption>{title}</figcaption>
      <svg
        width={width}
        height={height}
        role="img"
        aria-label={`${title}. The table below has the same figures.`}
      >
        {y.ticks(5).map((tick) => (
          <g key={tick} transform={`translate(0 ${y(tick)})`}>
            <line className={chartsStyles['gridline']} x1={MARGIN.left} x2={width - MARGIN.right} />
            <text className={chartsStyles['axis']} x={MARGIN.left - 8} y={4} textAnchor="end">
              {wholePercent(tick)}
            </text>
          </g>
        ))}
        {shownGuides.map((guide) => (
          <line
            key={guide.label}
            className={chartsStyles['guide']}
            x1={MARGIN.left}
            x2={width - MARGIN.right}
            y1={y(guide.at)}
            y2={y(guide.at)}
          />
        ))}
        <FishPoints placed={placed} onOpenFish={onOpenFish} />
        <path className={styles['mean-line']} d={mean(rows) ?? ''} />
        <GenerationMeans rows={rows} middle={middle} y={y} bottom={bottom} />
        {shownGuides.map((guide) => (
          <text
            key={guide.label}
            className={clsx(chartsStyles['axis'], chartsStyles['guide-label'])}
            x={MARGIN.left + 6}
            y={y(guide.at) - 5}
          >
            {wholePercent(guide.at)} {guide.label}
          </text>
        ))}
        <text
          className={chartsStyles['axis']}
          x={(MARGIN.left + width - MARGIN.right) / 2}
          y={height - 6}
          textAnchor="middle"
        >
          Generation
        </text>
        <text
          className={chartsStyles['axis']}
          x={MARGIN.left - 8}
          y={MARGIN.top - 17}
          textAnchor="end"
        >
          F
        </text>
      </svg>
      <p className="lw-quiet-text">
        Each dot is a fish. Bars joined by the line: mean of the generation. Dashed: guides, not
        limits.
        {points.some(isOpen) &&
          ' Broken dots, and ≥ in the table: fish of unknown origin are behind these F, so they are this or more.'}
      </p>
      <GenerationTable title={title} rows={rows} onOpenFish={onOpenFish} />
    </figure>
  );
}

function FishPoints({
  placed,
  onOpenFish,
}: {
  placed: PlacedPoint[];
  onOpenFish: ((id: string) => void) | undefined;
}) {
  return placed.map((point) => (
    <circle
      key={point.id}
      className={clsx(
        styles['point'],
        isOpen(point) && styles['point-least'],
        onOpenFish !== undefined && styles['point-open'],
      )}
      cx={point.x}
      cy={point.y}
      r={3.4}
      onClick={() => onOpenFish?.(point.id)}
    >
      <title>{`${point.tag}: ${markedF(point.inbreeding, point.basis)}`}</title>
    </circle>
  ));
}

function GenerationMeans({
  rows,
  middle,
  y,
  bottom,
}: {
  rows: [number, GenerationRow][];
  middle: (generation: number) => number;
  y: d3.ScaleLinear<number, number, never>;
  bottom: number;
}) {
  return rows.map(([generation, row]) => (
    <g key={generation}>
      <path className={styles['mean-mark']} d={`M${middle(generation) - 11} ${y(row.mean)}h22`} />
      <text
        className={chartsStyles['axis']}
        x={middle(generation)}
        y={bottom + 16}
        textAnchor="middle"
      >
        {generation}
      </text>
    </g>
  ));
}

const ofRow = ({ open }: GenerationRow, value: number): string =>
  `${open ? '≥ ' : ''}${coefficient(value)}`;

function GenerationTable({
  title,
  rows,
  onOpenFish,
}: {
  title: string;
  rows: [number, GenerationRow][];
  onOpenFish: ((id: string) => void) | undefined;
}) {
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Generation', numeric: true },
        { heading: 'Fish', numeric: true },
        { heading: 'Mean F', numeric: true },
        { heading: 'Lowest', numeric: true },
        { heading: 'Highest', numeric: true },
        { heading: 'Most inbred (3 at most)' },
      ]}
      rows={() =>
        rows.map(([generation, row]) => [
          generation,
          row.count,
          ofRow(row, row.mean),
          ofRow(row, row.least),
          ofRow(row, row.most),
          row.fish.slice(0, 3).map((one, i) => (
            <span key={one.id}>
              {i > 0 && ', '}
              {onOpenFish === undefined ? (
                one.tag
              ) : (
                <button type="button" className="lw-text-button" onClick={() => onOpenFish(one.id)}>
                  {one.tag}
                </button>
              )}
            </span>
          )),
        ])
      }
    />
  );
}
