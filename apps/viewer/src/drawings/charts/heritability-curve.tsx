import { clsx } from 'clsx';
import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { BandKey, BandMark, type ChanceBand } from './bands.js';
import chartsStyles from './charts.module.css';
import styles from './heritability-curve.module.css';

/** One cell of the grid: the middle of it, and how likely it is with the scores and before them. */
export interface HeritabilityCell {
  readonly heritability: number;
  readonly probability: number;
  readonly before: number;
}

export interface HeritabilityCurveProps {
  readonly title: string;
  readonly cells: readonly HeritabilityCell[];
  readonly mean: number;
  readonly bands: readonly ChanceBand[];
}

const MARGIN = { top: 8, right: 12, bottom: 62, left: 12 };

const wholePercent = (share: number): string => `${Math.round(100 * share)} %`;

export function heritabilityScales(
  cells: readonly HeritabilityCell[],
  width: number,
  height: number,
): { x: d3.ScaleLinear<number, number>; y: d3.ScaleLinear<number, number> } {
  const most = d3.max(cells, (cell) => Math.max(cell.probability, cell.before)) ?? 0;
  return {
    x: d3.scaleLinear([0, 1], [MARGIN.left, width - MARGIN.right]),
    y: d3.scaleLinear([0, most > 0 ? most : 1], [height - MARGIN.bottom, MARGIN.top]),
  };
}

/** Through the middles of the cells, level to both ends of the scale. */
export function throughMiddles(
  cells: readonly HeritabilityCell[],
  of: (cell: HeritabilityCell) => number,
): (readonly [number, number])[] {
  const sorted = d3.sort(cells, (cell) => cell.heritability);
  const [first, last] = [sorted[0], sorted.at(-1)];
  if (first === undefined || last === undefined) return [];
  return [
    [0, of(first)],
    ...sorted.map((cell): [number, number] => [cell.heritability, of(cell)]),
    [1, of(last)],
  ];
}

/** How likely each heritability is: before a score was looked at, and with the scores. */
export function HeritabilityCurve({ title, cells, mean, bands }: HeritabilityCurveProps) {
  const [ref, width] = useWidth<HTMLDivElement>(560);
  const height = Math.round(Math.min(260, Math.max(200, width * 0.42)));
  const { x, y } = heritabilityScales(cells, width, height);
  const bottom = height - MARGIN.bottom;
  const place = ([heritability, likely]: readonly [number, number]): [number, number] => [
    x(heritability),
    y(likely),
  ];
  const withScores = throughMiddles(cells, (cell) => cell.probability).map(place);
  const before = throughMiddles(cells, (cell) => cell.before).map(place);
  const line = d3.line().curve(d3.curveMonotoneX);
  const area = d3.area().y0(bottom).curve(d3.curveMonotoneX);
  return (
    <figure className={clsx(chartsStyles['plot'], 'lw-drawing')} ref={ref}>
      <figcaption>{title}</figcaption>
      <svg width={width} height={height} role="img" aria-label={curveText(title, mean, bands)}>
        {x.ticks(5).map((tick) => (
          <g key={tick} transform={`translate(${x(tick)} 0)`}>
            <line className={chartsStyles['gridline']} y1={MARGIN.top} y2={bottom} />
            <text className={chartsStyles['axis']} y={bottom + 40} textAnchor="middle">
              {wholePercent(tick)}
            </text>
          </g>
        ))}
        <path className={styles['with-scores-area']} d={area(withScores) ?? ''} />
        <path className={styles['with-scores']} d={line(withScores) ?? ''} />
        <path className={styles['before-scores']} d={line(before) ?? ''} />
        <line className={styles['floor']} x1={x(0)} x2={x(1)} y1={bottom} y2={bottom} />
        <BandMark bands={bands} middle={mean} x={x} y={bottom + 14} />
        <text
          className={chartsStyles['axis']}
          x={(MARGIN.left + width - MARGIN.right) / 2}
          y={height - 4}
          textAnchor="middle"
        >
          part of the differences between fish that is inherited
        </text>
      </svg>
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
      <BandKey percents={bands.map(({ percent }) => percent)} middle="best single figure" />
      <CellTable title={title} cells={cells} />
    </figure>
  );
}

/** The curve in a sentence. */
export function curveText(title: string, mean: number, bands: readonly ChanceBand[]): string {
  const parts = [...bands]
    .sort((a, b) => a.percent - b.percent)
    .map(
      ({ percent, low, high }) =>
        `between ${wholePercent(low)} and ${wholePercent(high)} in ${percent} of 100 cases`,
    );
  return `${title}: best single figure ${wholePercent(mean)}; ${parts.join(', ')}. The table below has the same figures.`;
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
