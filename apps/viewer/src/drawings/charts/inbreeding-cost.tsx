import { clsx } from 'clsx';
import * as d3 from 'd3';
import { coefficient, percent } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import chartsStyles from './charts.module.css';
import styles from './inbreeding-cost.module.css';

export interface CountedBrood {
  readonly id: string;
  readonly tag: string;
  readonly inbreeding: number;
  readonly counted: number;
  readonly alive: number;
}

/** Share alive at an inbreeding, as fitted and at both ends of its interval. */
export interface CostPoint {
  readonly inbreeding: number;
  readonly share: number;
  readonly low: number;
  readonly high: number;
  /** With the smallest effect that these broods would have shown; null when they could show none. */
  readonly smallest: number | null;
}

export interface InbreedingCostProps {
  readonly title: string;
  /** What is counted: "young that swam free of those that hatched". */
  readonly what: string;
  /** Whose inbreeding it is: "F of the young". */
  readonly whose: string;
  readonly broods: readonly CountedBrood[];
  readonly curve: readonly CostPoint[];
}

const MARGIN = { top: 28, right: 14, bottom: 38, left: 46 };

/** Area of a dot goes with how many were counted. */
export function dotRadius(counted: number, most: number): number {
  return most <= 0 ? 2.5 : 2.5 + 6.5 * Math.sqrt(counted / most);
}

export function costScales(
  broods: readonly CountedBrood[],
  width: number,
  height: number,
): { x: d3.ScaleLinear<number, number>; y: d3.ScaleLinear<number, number> } {
  const most = d3.max(broods, ({ inbreeding }) => inbreeding) ?? 0;
  return {
    x: d3
      .scaleLinear([0, Math.max(most * 1.06, 0.05)], [MARGIN.left + 8, width - MARGIN.right])
      .nice(5),
    y: d3.scaleLinear([0, 1], [height - MARGIN.bottom, MARGIN.top]),
  };
}

/** Broods as dots against their inbreeding, the fitted cost with its interval, and the least that could have been seen. */
export function InbreedingCost(props: InbreedingCostProps) {
  const { title, what, whose, broods, curve } = props;
  const [ref, width] = useWidth<HTMLDivElement>(560);
  const height = Math.round(Math.min(320, Math.max(230, width * 0.5)));
  const { x, y } = costScales(broods, width, height);
  const most = d3.max(broods, ({ counted }) => counted) ?? 0;
  return (
    <figure className={clsx(chartsStyles['plot'], 'lw-drawing')} ref={ref}>
      <figcaption>{title}</figcaption>
      <svg
        width={width}
        height={height}
        role="img"
        aria-label={`${title}: ${what} against ${whose}, ${broods.length} broods. The table below has the same figures.`}
      >
        {[0, 0.25, 0.5, 0.75, 1].map((tick) => (
          <g key={tick} transform={`translate(0 ${y(tick)})`}>
            <line className={chartsStyles['gridline']} x1={MARGIN.left} x2={width - MARGIN.right} />
            <text className={chartsStyles['axis']} x={MARGIN.left - 6} y={4} textAnchor="end">
              {100 * tick} %
            </text>
          </g>
        ))}
        {x.ticks(5).map((tick) => (
          <text
            key={tick}
            className={chartsStyles['axis']}
            x={x(tick)}
            y={height - MARGIN.bottom + 16}
            textAnchor="middle"
          >
            {`${Number((100 * tick).toFixed(1))} %`}
          </text>
        ))}
        <text className={chartsStyles['axis']} x={2} y={14}>
          {what}
        </text>
        <text
          className={chartsStyles['axis']}
          x={(MARGIN.left + width - MARGIN.right) / 2}
          y={height - 4}
          textAnchor="middle"
        >
          {whose}
        </text>
        <Curve curve={curve} x={x} y={y} />
        {d3
          .sort(broods, ({ counted }) => -counted)
          .filter(({ counted }) => counted > 0)
          .map(({ id, tag, inbreeding, counted, alive }) => (
            <circle
              key={id}
              className={styles['brood']}
              cx={x(inbreeding)}
              cy={y(alive / counted)}
              r={dotRadius(counted, most)}
            >
              <title>{`${tag}: ${alive} of ${counted}`}</title>
            </circle>
          ))}
      </svg>
      <CostKey
        smallest={curve.some((point) => point.smallest !== null)}
        fitted={curve.length > 0}
      />
      <BroodTable {...props} />
    </figure>
  );
}

function Curve({
  curve,
  x,
  y,
}: {
  curve: readonly CostPoint[];
  x: d3.ScaleLinear<number, number>;
  y: d3.ScaleLinear<number, number>;
}) {
  const across = ({ inbreeding }: CostPoint): number => x(inbreeding);
  const within = (share: number): number => y(Math.min(1, Math.max(0, share)));
  const area = d3
    .area<CostPoint>()
    .x(across)
    .y0(({ low }) => within(low))
    .y1(({ high }) => within(high));
  const line = d3
    .line<CostPoint>()
    .x(across)
    .y(({ share }) => within(share));
  const smallest = d3
    .line<CostPoint>()
    .defined((point) => point.smallest !== null)
    .x(across)
    .y((point) => within(point.smallest ?? 0));
  return (
    <>
      <path className={styles['cost-interval']} d={area(curve) ?? ''} />
      <path className={styles['cost-line']} d={line(curve) ?? ''} />
      <path className={styles['smallest']} d={smallest(curve) ?? ''} />
    </>
  );
}

function CostKey({ smallest, fitted }: { smallest: boolean; fitted: boolean }) {
  return (
    <ul className={chartsStyles['legend']}>
      <li>
        <svg width="20" height="20" viewBox="-10 -10 20 20" aria-hidden="true">
          <circle className={styles['brood']} r={6} />
        </svg>
        a brood; the larger, the more were counted
      </li>
      {fitted && (
        <li>
          <svg width="28" height="14" aria-hidden="true">
            <rect className={styles['cost-interval']} width="28" height="14" />
            <path className={styles['cost-line']} d="M0 7H28" />
          </svg>
          fitted, right in 95 of 100 cases
        </li>
      )}
      {smallest && (
        <li>
          <svg width="28" height="14" aria-hidden="true">
            <path className={styles['smallest']} d="M0 3L28 11" />
          </svg>
          the smallest cost these broods could have shown
        </li>
      )}
    </ul>
  );
}

function BroodTable({ title, whose, broods }: InbreedingCostProps) {
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Brood' },
        { heading: whose, numeric: true },
        { heading: 'Counted', numeric: true },
        { heading: 'Of these', numeric: true },
        { heading: 'Share', numeric: true },
      ]}
      rows={() =>
        d3
          .sort(broods, ({ inbreeding }) => inbreeding)
          .map(({ tag, inbreeding, counted, alive }) => [
            tag,
            coefficient(inbreeding),
            counted,
            alive,
            counted > 0 ? percent(alive / counted) : '–',
          ])
      }
    />
  );
}
