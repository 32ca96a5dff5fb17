import { clsx } from 'clsx';
import * as d3 from 'd3';
import { percent } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import chartsStyles from './charts.module.css';
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

type Point = readonly [day: number, share: number];

const stepPath = d3.line<Point>().curve(d3.curveStepAfter);

/** Share of a brood alive by age, with its interval, between what the person's past spawns did. */
export function SurvivalCurve(props: SurvivalCurveProps) {
  const { title, steps, lastDay, pooled, band } = props;
  const [ref, width] = useWidth<HTMLDivElement>(560);
  const height = Math.round(Math.min(300, Math.max(210, width * 0.45)));
  // A little beyond the last day, so that a step on it is seen.
  const end = Math.max(lastDay * 1.06, 7);
  const x = d3.scaleLinear([0, end], [MARGIN.left, width - MARGIN.right]);
  const y = d3.scaleLinear([0, 1], [height - MARGIN.bottom, MARGIN.top]);
  const line = (points: readonly Point[], until: number): string => {
    const within = points.filter(([day]) => day <= until);
    const last = within.at(-1)?.[1] ?? 1;
    const whole: Point[] = [[0, 1], ...within, [until, last]];
    return stepPath(whole.map(([day, share]): Point => [x(day), y(share)])) ?? '';
  };
  const of = (points: readonly { readonly day: number; readonly survival: number }[]) =>
    points.map(({ day, survival }): Point => [day, survival]);
  const bandUntil = Math.min(end, band.at(-1)?.day ?? 0);
  return (
    <figure className={clsx(chartsStyles['plot'], 'lw-drawing')} ref={ref}>
      <figcaption>{title}</figcaption>
      <svg
        width={width}
        height={height}
        role="img"
        aria-label={`${title}. The table below has the same figures.`}
      >
        <Axes x={x} y={y} width={width} height={height} />
        <PastBand bandUntil={bandUntil} line={line} band={band} />
        {pooled.length > 0 && <path className={styles['past']} d={line(of(pooled), end)} />}
        <path className={styles['interval']} d={intervalPath(steps, lastDay, x, y)} />
        {props.unknown.map(({ from, to }) => (
          <line
            key={to}
            className={styles['unknown']}
            x1={x(from)}
            x2={x(to)}
            y1={y(shareAt(steps, to - 1))}
            y2={y(shareAt(steps, to))}
          />
        ))}
        <path className={styles['curve']} d={line(of(steps), lastDay)} />
        {steps
          .filter(({ withdrawn }) => withdrawn > 0)
          .map(({ day, survival }) => (
            <path key={day} className={styles['left']} d={`M${x(day)} ${y(survival) - 5}v10`} />
          ))}
      </svg>
      <CurveKey past={pooled.length > 0} band={bandUntil > 0} unknown={props.unknown.length > 0} />
      <StepTable title={title} steps={steps} />
    </figure>
  );
}

function PastBand({
  bandUntil,
  line,
  band,
}: {
  bandUntil: number;
  line: (points: readonly Point[], until: number) => string;
  band: readonly CurveBandPoint[];
}) {
  return (
    bandUntil > 0 && (
      <>
        <path
          className={styles['band']}
          d={line(
            band.map(({ day, low }): Point => [day, low]),
            bandUntil,
          )}
        />
        <path
          className={styles['band']}
          d={line(
            band.map(({ day, high }): Point => [day, high]),
            bandUntil,
          )}
        />
      </>
    )
  );
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

function Axes({
  x,
  y,
  width,
  height,
}: {
  x: d3.ScaleLinear<number, number>;
  y: d3.ScaleLinear<number, number>;
  width: number;
  height: number;
}) {
  return (
    <>
      {[0, 0.25, 0.5, 0.75, 1].map((tick) => (
        <g key={tick} transform={`translate(0 ${y(tick)})`}>
          <line className={chartsStyles['gridline']} x1={MARGIN.left} x2={width - MARGIN.right} />
          <text className={chartsStyles['axis']} x={MARGIN.left - 6} y={4} textAnchor="end">
            {tick * 100} %
          </text>
        </g>
      ))}
      {x.ticks(Math.max(2, Math.floor(width / 90))).map((tick) => (
        <text
          key={tick}
          className={chartsStyles['axis']}
          x={x(tick)}
          y={height - MARGIN.bottom + 16}
          textAnchor="middle"
        >
          {tick}
        </text>
      ))}
      <text
        className={chartsStyles['axis']}
        x={(MARGIN.left + width - MARGIN.right) / 2}
        y={height - 4}
        textAnchor="middle"
      >
        days since the start
      </text>
    </>
  );
}

function CurveKey({ past, band, unknown }: { past: boolean; band: boolean; unknown: boolean }) {
  const sample = (content: React.ReactNode) => (
    <svg width="28" height="12" aria-hidden="true">
      {content}
    </svg>
  );
  return (
    <ul className={styles['chart-key']}>
      <li>
        {sample(
          <>
            <rect className={styles['interval']} width="28" height="12" />
            <path className={styles['curve']} d="M0 6H28" />
          </>,
        )}
        this spawn, 95 % interval
      </li>
      <li>
        {sample(<path className={styles['left']} d="M14 1v10" />)}
        fish moved out alive
      </li>
      {past && (
        <li>
          {sample(<path className={styles['past']} d="M0 6H28" />)}
          past spawns, all fish as one
        </li>
      )}
      {band && (
        <li>
          {sample(<path className={styles['band']} d="M0 2H28M0 10H28" />)}
          past spawns, 10th to 90th percentile
        </li>
      )}
      {unknown && (
        <li>
          {sample(<line className={styles['unknown']} x1="0" y1="2" x2="28" y2="10" />)}
          missing at a count: lost on some day between
        </li>
      )}
    </ul>
  );
}
