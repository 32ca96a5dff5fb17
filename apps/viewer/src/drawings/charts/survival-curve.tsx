import * as d3 from 'd3';
import type { ReactNode } from 'react';
import { percent } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis, UprightAxis } from './axis.js';
import { plotArea, ticksOf, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import styles from './survival-curve.module.css';

export interface CurveStep {
  readonly day: number;
  readonly atRisk: number;
  readonly deaths: number;
  readonly withdrawn: number;
  readonly survival: number;
  readonly low: number | null;
  readonly high: number | null;
}

export interface CurveBandPoint {
  readonly day: number;
  readonly spawns: number;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

export interface SurvivalCurveProps {
  readonly title: string;
  readonly steps: readonly CurveStep[];
  /** Last day the brood was watched. */
  readonly lastDay: number;
  readonly pooled: readonly { readonly day: number; readonly survival: number }[];
  readonly band: readonly CurveBandPoint[];
  /** Stretches in which fish went missing on no known day. */
  readonly unknown: readonly { readonly from: number; readonly to: number }[];
}

const MARGIN = { top: 10, right: 12, bottom: 38, left: 46 };

const quarters = [0, 0.25, 0.5, 0.75, 1];

type Point = readonly [day: number, share: number];
type Linear = d3.ScaleLinear<number, number, never>;

interface Scales {
  readonly x: Linear;
  readonly y: Linear;
}

/** Share of a brood alive by age, with its interval, between what the person's past spawns did. */
export function SurvivalCurve(props: SurvivalCurveProps) {
  const { title, steps, pooled, band, unknown } = props;
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const height = Math.round(Math.min(300, Math.max(210, width * 0.45)));
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={height}
      below={
        <>
          <CurveKey
            past={pooled.length > 0}
            band={bandEnd(band, daysShown(props.lastDay)) > 0}
            unknown={unknown.length > 0}
          />
          <StepTable title={title} steps={steps} />
        </>
      }
    >
      <Curves area={plotArea(width, height, MARGIN)} {...props} />
    </PlotFigure>
  );
}

/** A little beyond the last day, so that a step on it is seen; a week at least. */
const daysShown = (lastDay: number): number => Math.max(lastDay * 1.06, 7);

/** Day until which past spawns are known, within what is shown. */
const bandEnd = (band: readonly CurveBandPoint[], end: number): number =>
  Math.min(end, band.at(-1)?.day ?? 0);

/** A curve of steps from all alive on day 0, level from its last step to `until`. */
export function stepsUntil(points: readonly Point[], until: number): readonly Point[] {
  const within = points.filter(([day]) => day <= until);
  return [[0, 1], ...within, [until, within.at(-1)?.[1] ?? 1]];
}

const stepPath = (points: readonly Point[], until: number, { x, y }: Scales): string =>
  d3
    .line<Point>()
    .curve(d3.curveStepAfter)
    .x(([day]) => x(day))
    .y(([, share]) => y(share))(stepsUntil(points, until)) ?? '';

const survivalOf = ({ day, survival }: { day: number; survival: number }): Point => [day, survival];

function Curves(props: SurvivalCurveProps & { area: PlotArea }) {
  const { area, steps, lastDay, pooled, band } = props;
  const end = daysShown(lastDay);
  const x = d3.scaleLinear([0, end], [area.left, area.right]);
  const y = d3.scaleLinear([0, 1], [area.bottom, area.top]);
  const scales = { x, y };
  const days = Math.max(2, Math.floor(area.width / 90));
  return (
    <>
      <UprightAxis
        area={area}
        ticks={quarters.map((share) => ({ at: y(share), text: `${share * 100} %` }))}
      />
      <LevelAxis area={area} ticks={ticksOf(x, days, String)} name="days since the start" />
      <PastBand band={band} until={bandEnd(band, end)} scales={scales} />
      {pooled.length > 0 && (
        <path className={styles['past']} d={stepPath(pooled.map(survivalOf), end, scales)} />
      )}
      <path className={styles['interval']} d={intervalPath(steps, lastDay, x, y)} />
      <UnknownDays unknown={props.unknown} steps={steps} scales={scales} />
      <path className={styles['curve']} d={stepPath(steps.map(survivalOf), lastDay, scales)} />
      {steps
        .filter(({ withdrawn }) => withdrawn > 0)
        .map(({ day, survival }) => (
          <path key={day} className={styles['left']} d={`M${x(day)} ${y(survival) - 5}v10`} />
        ))}
    </>
  );
}

function UnknownDays({
  unknown,
  steps,
  scales: { x, y },
}: {
  unknown: SurvivalCurveProps['unknown'];
  steps: readonly CurveStep[];
  scales: Scales;
}) {
  return unknown.map(({ from, to }) => (
    <line
      key={to}
      className={styles['unknown']}
      x1={x(from)}
      x2={x(to)}
      y1={y(shareAt(steps, to - 1))}
      y2={y(shareAt(steps, to))}
    />
  ));
}

function PastBand({
  band,
  until,
  scales,
}: {
  band: readonly CurveBandPoint[];
  until: number;
  scales: Scales;
}) {
  if (until <= 0) return null;
  return (['low', 'high'] as const).map((edge) => (
    <path
      key={edge}
      className={styles['band']}
      d={stepPath(
        band.map((each): Point => [each.day, each[edge]]),
        until,
        scales,
      )}
    />
  ));
}

function StepTable({ title, steps }: { title: string; steps: readonly CurveStep[] }) {
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Day', numeric: true },
        { heading: 'Alive before', numeric: true },
        { heading: 'Lost', numeric: true },
        { heading: 'Moved out alive', numeric: true },
        { heading: 'Share alive', numeric: true },
        { heading: '95 % interval', numeric: true },
      ]}
      rows={() =>
        steps.map((step) => [
          step.day,
          step.atRisk,
          step.deaths,
          step.withdrawn,
          percent(step.survival),
          step.low === null || step.high === null
            ? '–'
            : `${percent(step.low)} to ${percent(step.high)}`,
        ])
      }
    />
  );
}

function shareAt(steps: readonly CurveStep[], day: number): number {
  return steps.findLast((step) => step.day <= day)?.survival ?? 1;
}

function intervalPath(
  steps: readonly CurveStep[],
  lastDay: number,
  x: d3.ScaleLinear<number, number>,
  y: d3.ScaleLinear<number, number>,
): string {
  const known = steps.filter(({ low }) => low !== null);
  const last = known.at(-1);
  if (last === undefined) return '';
  const area = d3
    .area<CurveStep>()
    .curve(d3.curveStepAfter)
    .x(({ day }) => x(day))
    .y0(({ low }) => y(low ?? 0))
    .y1(({ high }) => y(high ?? 0));
  return area([...known, { ...last, day: Math.max(lastDay, last.day) }]) ?? '';
}

function CurveKey({ past, band, unknown }: { past: boolean; band: boolean; unknown: boolean }) {
  return (
    <ul className={styles['chart-key']}>
      <Sample of="this spawn, 95 % interval">
        <rect className={styles['interval']} width="28" height="12" />
        <path className={styles['curve']} d="M0 6H28" />
      </Sample>
      <Sample of="fish moved out alive">
        <path className={styles['left']} d="M14 1v10" />
      </Sample>
      {past && (
        <Sample of="past spawns, all fish as one">
          <path className={styles['past']} d="M0 6H28" />
        </Sample>
      )}
      {band && (
        <Sample of="past spawns, 10th to 90th percentile">
          <path className={styles['band']} d="M0 2H28M0 10H28" />
        </Sample>
      )}
      {unknown && (
        <Sample of="missing at a count: lost on some day between">
          <line className={styles['unknown']} x1="0" y1="2" x2="28" y2="10" />
        </Sample>
      )}
    </ul>
  );
}

function Sample({ of, children }: { of: string; children: ReactNode }) {
  return (
    <li>
      <svg width="28" height="12" aria-hidden="true">
        {children}
      </svg>
      {of}
    </li>
  );
}
