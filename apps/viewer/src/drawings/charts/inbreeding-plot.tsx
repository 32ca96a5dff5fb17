import * as d3 from 'd3';
import type { ReactNode } from 'react';
import { useWidth } from '../use-width.js';
import { LevelAxis, UprightAxis } from './axis.js';
import chartsStyles from './charts.module.css';
import styles from './inbreeding-plot.module.css';
import { plotArea, ticksOf, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';

/** A brood as a dot: the more were counted, the larger. */
export interface BroodDot {
  readonly id: string;
  readonly inbreeding: number;
  readonly counted: number;
  readonly value: number;
  /** What is told where a pointer rests on it. */
  readonly told: string;
}

/** What is expected at an inbreeding, as fitted and at both ends of the interval. */
export interface FittedPoint {
  readonly inbreeding: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** With the smallest effect that these broods would have shown; null when they could show none. */
  readonly smallest: number | null;
}

export interface InbreedingPlotProps {
  readonly title: string;
  /** What goes upwards: "share of the eggs that hatched". */
  readonly what: string;
  /** Whose inbreeding it is: "F of the young". */
  readonly whose: string;
  readonly broods: readonly BroodDot[];
  readonly curve: readonly FittedPoint[];
  /** Lowest and highest value with room. */
  readonly domain: readonly [low: number, high: number];
  readonly words: (value: number) => string;
  /** What the least that could have been seen is called: "cost", "loss". */
  readonly effect: string;
  /** Room to the left for the words of the values, in pixels. */
  readonly left?: number;
  readonly table: ReactNode;
}

/** Area of a dot goes with how many were counted. */
export function dotRadius(counted: number, most: number): number {
  return most <= 0 ? 2.5 : 2.5 + 6.5 * Math.sqrt(counted / most);
}

interface Scales {
  readonly x: d3.ScaleLinear<number, number>;
  readonly y: d3.ScaleLinear<number, number>;
}

export function inbreedingScales(
  broods: readonly { readonly inbreeding: number }[],
  domain: InbreedingPlotProps['domain'],
  { left, right, top, bottom }: PlotArea,
): Scales {
  const most = d3.max(broods, ({ inbreeding }) => inbreeding) ?? 0;
  return {
    x: d3.scaleLinear([0, Math.max(most * 1.06, 0.05)], [left + 8, right]).nice(5),
    y: d3.scaleLinear(domain, [bottom, top]),
  };
}

const asPercent = (share: number): string => `${Number((100 * share).toFixed(1))} %`;

/** Broods as dots against their inbreeding, what is fitted with its interval, and the least that could have been seen. */
export function InbreedingPlot(props: InbreedingPlotProps) {
  const { title, what, whose, broods, curve, domain, words, effect, left = 46, table } = props;
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const height = Math.round(Math.min(320, Math.max(230, width * 0.5)));
  const area = plotArea(width, height, { top: 10, right: 24, bottom: 38, left });
  const scales = inbreedingScales(broods, domain, area);
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
          <PlotKey
            effect={effect}
            smallest={curve.some((point) => point.smallest !== null)}
            fitted={curve.length > 0}
          />
          {table}
        </>
      }
    >
      <UprightAxis area={area} ticks={ticksOf(scales.y, 5, words)} />
      <LevelAxis area={area} ticks={ticksOf(scales.x, 5, asPercent)} name={whose} />
      <Curve curve={curve} {...scales} />
      <Broods broods={broods} {...scales} />
    </PlotFigure>
  );
}

/** The largest first, so that none hides a smaller one. */
function Broods({ broods, x, y }: Scales & { broods: readonly BroodDot[] }) {
  const most = d3.max(broods, ({ counted }) => counted) ?? 0;
  return d3
    .sort(broods, ({ counted }) => -counted)
    .map(({ id, inbreeding, counted, value, told }) => (
      <circle
        key={id}
        className={styles['brood']}
        cx={x(inbreeding)}
        cy={y(value)}
        r={dotRadius(counted, most)}
      >
        <title>{told}</title>
      </circle>
    ));
}

function Curve({ curve, x, y }: Scales & { curve: readonly FittedPoint[] }) {
  const [least = 0, most = 1] = y.domain();
  const across = ({ inbreeding }: FittedPoint): number => x(inbreeding);
  const within = (value: number): number => y(Math.min(most, Math.max(least, value)));
  const area = d3
    .area<FittedPoint>()
    .x(across)
    .y0(({ low }) => within(low))
    .y1(({ high }) => within(high));
  const line = d3
    .line<FittedPoint>()
    .x(across)
    .y(({ value }) => within(value));
  const smallest = d3
    .line<FittedPoint>()
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

function PlotKey({
  effect,
  smallest,
  fitted,
}: {
  effect: string;
  smallest: boolean;
  fitted: boolean;
}) {
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
          the smallest {effect} these broods could have shown
        </li>
      )}
    </ul>
  );
}
