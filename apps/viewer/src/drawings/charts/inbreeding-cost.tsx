import * as d3 from 'd3';
import { coefficient, percent } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis, UprightAxis } from './axis.js';
import chartsStyles from './charts.module.css';
import { plotArea, ticksOf, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import styles from './inbreeding-cost.module.css';

export interface CountedBrood {
  readonly id: string;
  readonly tag: string;
  readonly inbreeding: number;
  readonly counted: number;
  readonly alive: number;
}

/** Share alive at an inbreeding, as fitted and with the cost at both ends of its interval. */
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

const MARGIN = { top: 10, right: 24, bottom: 38, left: 46 };

/** Area of a dot goes with how many were counted. */
export function dotRadius(counted: number, most: number): number {
  return most <= 0 ? 2.5 : 2.5 + 6.5 * Math.sqrt(counted / most);
}

export function costScales(
  broods: readonly CountedBrood[],
  { left, right, top, bottom }: PlotArea,
): { x: d3.ScaleLinear<number, number>; y: d3.ScaleLinear<number, number> } {
  const most = d3.max(broods, ({ inbreeding }) => inbreeding) ?? 0;
  return {
    x: d3.scaleLinear([0, Math.max(most * 1.06, 0.05)], [left + 8, right]).nice(5),
    y: d3.scaleLinear([0, 1], [bottom, top]),
  };
}

const asPercent = (share: number): string => `${Number((100 * share).toFixed(1))} %`;

/** Broods as dots against their inbreeding, the fitted cost with its interval, and the least that could have been seen. */
export function InbreedingCost(props: InbreedingCostProps) {
  const { title, what, whose, broods, curve } = props;
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const area = plotArea(width, Math.round(Math.min(320, Math.max(230, width * 0.5))), MARGIN);
  const { x, y } = costScales(broods, area);
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures={`${broods.length} broods by ${whose}. The table below has the same figures.`}
      above={<p className="lw-quiet-text">{what}</p>}
      below={
        <>
          <CostKey
            smallest={curve.some((point) => point.smallest !== null)}
            fitted={curve.length > 0}
          />
          <BroodTable {...props} />
        </>
      }
    >
      <UprightAxis area={area} ticks={ticksOf(y, 5, asPercent)} />
      <LevelAxis area={area} ticks={ticksOf(x, 5, asPercent)} name={whose} />
      <Curve curve={curve} x={x} y={y} />
      <Broods broods={broods} x={x} y={y} />
    </PlotFigure>
  );
}

interface Scales {
  x: d3.ScaleLinear<number, number>;
  y: d3.ScaleLinear<number, number>;
}

/** The largest first, so that none hides a smaller one. */
function Broods({ broods, x, y }: Scales & { broods: readonly CountedBrood[] }) {
  const most = d3.max(broods, ({ counted }) => counted) ?? 0;
  return d3
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
    ));
}

function Curve({ curve, x, y }: Scales & { curve: readonly CostPoint[] }) {
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
          fitted; shaded: as flat or as steep as it may be in 95 of 100 cases
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
