import { clsx } from 'clsx';
import { useMemo } from 'react';
import * as d3 from 'd3';
import { coefficient, markedF } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { Guide, GuideName, LevelAxis, UprightAxis } from './axis.js';
import { plotArea, ticksOf, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import styles from './generation-plot.module.css';

export interface GenerationPoint {
  readonly id: string;
  readonly tag: string;
  readonly generation: number;
  readonly inbreeding: number;
  /** What the F rests on; known where it is left blank. */
  readonly basis?: 'known' | 'at-least' | 'unknown';
}

export interface PlotGuide {
  readonly at: number;
  readonly label: string;
}

export interface GenerationPlotProps {
  readonly points: readonly GenerationPoint[];
  /** Levels to compare with, such as 0.25, shown in percent. They are guides, not limits. */
  readonly guides?: readonly PlotGuide[];
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

/** Each generation's fish with their mean and ends, the oldest generation first; its fish the most inbred first. */
export function generationRows(points: readonly GenerationPoint[]): [number, GenerationRow][] {
  const rowOf = (group: readonly GenerationPoint[]): GenerationRow => ({
    count: group.length,
    mean: d3.mean(group, (point) => point.inbreeding) ?? 0,
    least: d3.min(group, (point) => point.inbreeding) ?? 0,
    most: d3.max(group, (point) => point.inbreeding) ?? 0,
    open: group.some(isOpen),
    fish: d3.sort(group, (a, b) => b.inbreeding - a.inbreeding),
  });
  return d3.rollups(points, rowOf, (point) => point.generation).sort((a, b) => a[0] - b[0]);
}

/** The highest F to make room for: a guide far above every fish would press them flat, and is left out. */
export function highestShown(
  points: readonly GenerationPoint[],
  guides: readonly PlotGuide[],
): number {
  const highest = Math.max(0.1, ...points.map((point) => point.inbreeding));
  return Math.max(highest, ...guides.map(({ at }) => at).filter((at) => at < highest * 1.5));
}

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

function scalesOf(rows: readonly [number, GenerationRow][], top: number, area: PlotArea) {
  const x = d3
    .scaleBand(
      rows.map(([generation]) => generation),
      [area.left, area.right],
    )
    .paddingInner(0.12);
  return { x, y: d3.scaleLinear([0, top], [area.bottom, area.top]).nice(5) };
}

/** F of every fish by generation, with each generation's mean. */
export function GenerationPlot(props: GenerationPlotProps) {
  const { points, guides = [], onOpenFish } = props;
  const title = props.title ?? 'Inbreeding coefficient by generation';
  const [figure, measured] = useWidth<HTMLDivElement>(640);
  const width = props.width ?? measured;
  const height = props.height ?? Math.round(Math.min(340, Math.max(220, width * 0.5)));
  const rows = useMemo(() => generationRows(points), [points]);
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={height}
      below={
        <>
          <p className="lw-quiet-text">
            Each dot is a fish. Bars joined by the line: mean of the generation. Dashed: guides, not
            limits.
            {points.some(isOpen) &&
              ' Broken dots, and ≥ in the table: fish of unknown origin are behind these F, so they are this or more.'}
          </p>
          <GenerationTable title={title} rows={rows} onOpenFish={onOpenFish} />
        </>
      }
    >
      <Generations
        area={plotArea(width, height, MARGIN)}
        points={points}
        rows={rows}
        guides={guides}
        onOpenFish={onOpenFish}
      />
    </PlotFigure>
  );
}

interface GenerationsProps {
  area: PlotArea;
  points: readonly GenerationPoint[];
  rows: [number, GenerationRow][];
  guides: readonly PlotGuide[];
  onOpenFish: ((id: string) => void) | undefined;
}

function Generations({ area, points, rows, guides, onOpenFish }: GenerationsProps) {
  const { x, y } = scalesOf(rows, highestShown(points, guides), area);
  const middle = (generation: number): number => x(generation)! + x.bandwidth() / 2;
  const shownGuides = guides.filter((one) => one.at <= y.domain()[1]!);
  return (
    <>
      <UprightAxis area={area} ticks={ticksOf(y, 5, wholePercent)} name="F" />
      <LevelAxis
        area={area}
        ticks={rows.map(([generation]) => ({ at: middle(generation), text: String(generation) }))}
        name="Generation"
      />
      {shownGuides.map((guide) => (
        <Guide key={guide.label} area={area} at={y(guide.at)} />
      ))}
      <FishPoints placed={placePoints(points, x, y)} onOpenFish={onOpenFish} />
      <GenerationMeans rows={rows} middle={middle} y={y} />
      {shownGuides.map(({ at, label }) => (
        <GuideName key={label} area={area} at={y(at)} text={`${wholePercent(at)} ${label}`} />
      ))}
    </>
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
}: {
  rows: [number, GenerationRow][];
  middle: (generation: number) => number;
  y: d3.ScaleLinear<number, number, never>;
}) {
  const line = d3
    .line<[number, GenerationRow]>()
    .x(([generation]) => middle(generation))
    .y(([, row]) => y(row.mean));
  return (
    <>
      <path className={styles['mean-line']} d={line(rows) ?? ''} />
      {rows.map(([generation, row]) => (
        <path
          key={generation}
          className={styles['mean-mark']}
          d={`M${middle(generation) - 11} ${y(row.mean)}h22`}
        />
      ))}
    </>
  );
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
          <Tags key="tags" fish={row.fish.slice(0, 3)} onOpenFish={onOpenFish} />,
        ])
      }
    />
  );
}

function Tags({
  fish,
  onOpenFish,
}: {
  fish: readonly GenerationPoint[];
  onOpenFish: ((id: string) => void) | undefined;
}) {
  return fish.map((one, i) => (
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
  ));
}
