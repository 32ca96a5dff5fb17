import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis } from './axis.js';
import { BandKey, BandMark, type ChanceBand } from './bands.js';
import { plotArea, ticksOf, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import chartsStyles from './charts.module.css';
import styles from './heritability-curve.module.css';

/** One cell of a grid: the middle of it, and how likely it is with the scores and before them. */
export interface HeritabilityCell {
  readonly heritability: number;
  readonly probability: number;
  readonly before: number;
}

/** A point of a curve: how likely, in chances for a cell of the grid. */
export interface LikelyPoint {
  readonly heritability: number;
  readonly likely: number;
}

export interface HeritabilityCurveProps {
  readonly title: string;
  /** Equal cells; what they leave out of 0 to 1 has next to no chance. */
  readonly cells: readonly HeritabilityCell[];
  /** What was taken as likely before, over the whole of 0 to 1. */
  readonly before: readonly LikelyPoint[];
  readonly mean: number;
  readonly bands: readonly ChanceBand[];
}

const MARGIN = { top: 8, right: 22, bottom: 38, left: 12 };
/** Below the curve, for the bands. */
const BAND_ROOM = 26;

const wholePercent = (share: number): string => `${Math.round(100 * share)} %`;

export function heritabilityScales(
  curves: readonly LikelyPoint[],
  { left, right, top, bottom }: PlotArea,
): { x: d3.ScaleLinear<number, number>; y: d3.ScaleLinear<number, number> } {
  const most = d3.max(curves, ({ likely }) => likely) ?? 0;
  return {
    x: d3.scaleLinear([0, 1], [left, right]),
    y: d3.scaleLinear([0, most > 0 ? most : 1], [bottom - BAND_ROOM, top]),
  };
}

/** Through the middles of the cells: level to an end of the scale that the cells reach, else down to nothing beside the last cell. */
export function throughMiddles(cells: readonly HeritabilityCell[]): LikelyPoint[] {
  const sorted = d3.sort(cells, (cell) => cell.heritability);
  const [first, second, last] = [sorted[0], sorted[1], sorted.at(-1)];
  if (first === undefined || last === undefined) return [];
  const width =
    second === undefined ? 2 * first.heritability : second.heritability - first.heritability;
  const end = (cell: HeritabilityCell, side: -1 | 1): LikelyPoint => {
    const edge = cell.heritability + (side * width) / 2;
    const reaches = side < 0 ? edge < width / 4 : edge > 1 - width / 4;
    return reaches
      ? { heritability: side < 0 ? 0 : 1, likely: cell.probability }
      : { heritability: cell.heritability + side * width, likely: 0 };
  };
  return [
    end(first, -1),
    ...sorted.map(({ heritability, probability }) => ({ heritability, likely: probability })),
    end(last, 1),
  ];
}

/** How likely each heritability is: before a score was looked at, and with the scores. */
export function HeritabilityCurve({ title, cells, before, mean, bands }: HeritabilityCurveProps) {
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const area = plotArea(width, Math.round(Math.min(260, Math.max(200, width * 0.42))), MARGIN);
  const withScores = throughMiddles(cells);
  const { x, y } = heritabilityScales([...withScores, ...before], area);
  const across = ({ heritability }: LikelyPoint): number => x(heritability);
  const line = d3
    .line<LikelyPoint>()
    .x(across)
    .y(({ likely }) => y(likely))
    .curve(d3.curveMonotoneX);
  const floor = area.bottom - BAND_ROOM;
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures={curveText(mean, bands)}
      below={
        <>
          <CurveKey />
          <BandKey percents={bands.map(({ percent }) => percent)} middle="best single figure" />
          <CellTable title={title} cells={cells} />
        </>
      }
    >
      <LevelAxis
        area={area}
        ticks={ticksOf(x, 5, wholePercent)}
        lines
        name="part of the differences between fish that is inherited"
      />
      <path
        className={styles['with-scores-area']}
        d={
          d3
            .area<LikelyPoint>()
            .x(across)
            .y0(floor)
            .y1(({ likely }) => y(likely))
            .curve(d3.curveMonotoneX)(withScores) ?? ''
        }
      />
      <path className={styles['with-scores']} d={line(withScores) ?? ''} />
      <path className={styles['before-scores']} d={line(before) ?? ''} />
      <line className={styles['floor']} x1={x(0)} x2={x(1)} y1={floor} y2={floor} />
      <BandMark bands={bands} middle={mean} x={x} y={area.bottom - BAND_ROOM / 2} />
    </PlotFigure>
  );
}

function CurveKey() {
  return (
    <ul className={chartsStyles['legend']}>
      <li>
        <svg width="28" height="12" aria-hidden="true">
          <rect className={styles['with-scores-area']} width="28" height="12" />
          <path className={styles['with-scores']} d="M0 2H28" />
        </svg>
        with your scores: the higher, the more likely
      </li>
      <li>
        <svg width="28" height="12" aria-hidden="true">
          <path className={styles['before-scores']} d="M0 6H28" />
        </svg>
        assumed before any score
      </li>
    </ul>
  );
}

/** The curve in a sentence. */
export function curveText(mean: number, bands: readonly ChanceBand[]): string {
  const parts = [...bands]
    .sort((a, b) => a.percent - b.percent)
    .map(
      ({ percent, low, high }) =>
        `between ${wholePercent(low)} and ${wholePercent(high)} in ${percent} of 100 cases`,
    );
  return `Best single figure ${wholePercent(mean)}; ${parts.join(', ')}. The table below has the same figures.`;
}

function CellTable({ title, cells }: Pick<HeritabilityCurveProps, 'title' | 'cells'>) {
  const share = (value: number) => `${(100 * value).toFixed(1)} %`;
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Part inherited, about', numeric: true },
        { heading: 'Chance with your scores', numeric: true },
        { heading: 'Chance assumed before', numeric: true },
      ]}
      rows={() =>
        d3
          .sort(cells, (cell) => cell.heritability)
          .map((cell) => [
            `${Number((100 * cell.heritability).toFixed(1))} %`,
            share(cell.probability),
            share(cell.before),
          ])
      }
    />
  );
}
