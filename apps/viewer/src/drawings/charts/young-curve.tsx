import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis } from './axis.js';
import { plotArea, ticksOf } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import chartsStyles from './charts.module.css';
import styles from './young-curve.module.css';

/** A point of a curve: a score, and how thick fish stand there. */
export interface ScoreDensity {
  readonly at: number;
  readonly density: number;
}

/** A spread of scores: its curve, its mean and its standard deviation. */
export interface ScoreSpread {
  readonly curve: readonly ScoreDensity[];
  readonly mean: number;
  readonly deviation: number;
}

export interface YoungCurveProps {
  readonly title: string;
  readonly young: ScoreSpread;
  /** Scores of the line as it is; no curve where all are alike. */
  readonly line: ScoreSpread;
  /** Scores between which a young passes. */
  readonly low: number | null;
  readonly high: number | null;
  /** What is scored, with its unit. */
  readonly scale: string;
  /** A score in words. */
  readonly words: (score: number) => string;
}

const MARGIN = { top: 10, right: 22, bottom: 38, left: 12 };

/** Where everything of the drawing lies at that width. */
function layOut({ young, line, low, high }: YoungCurveProps, width: number) {
  const area = plotArea(width, Math.round(Math.min(220, Math.max(170, width * 0.36))), MARGIN);
  const points = [...young.curve, ...line.curve];
  const limits = [low, high].filter((limit) => limit !== null);
  const x = d3
    .scaleLinear(d3.extent([...points.map(({ at }) => at), ...limits]) as [number, number], [
      area.left,
      area.right,
    ])
    .nice();
  const y = d3.scaleLinear(
    [0, d3.max(points, ({ density }) => density) ?? 1],
    [area.bottom, area.top],
  );
  const path = d3
    .line<ScoreDensity>()
    .x(({ at }) => x(at))
    .y(({ density }) => y(density));
  const filled = d3
    .area<ScoreDensity>()
    .x(({ at }) => x(at))
    .y0(area.bottom)
    .y1(({ density }) => y(density));
  const drawn = {
    area: filled(young.curve) ?? '',
    young: path(young.curve) ?? '',
    line: path(line.curve) ?? '',
  };
  return { area, limits, x, drawn };
}

/** The young that are expected, over the line as it is, with what passes. */
export function YoungCurve(props: YoungCurveProps) {
  const { title, scale } = props;
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const { area, limits, x, drawn } = layOut(props, width);
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures={youngText(props)}
      below={
        <>
          <CurveKey limits={limits.length} />
          <SpreadTable {...props} />
        </>
      }
    >
      <LevelAxis area={area} ticks={ticksOf(x, 6, String)} lines name={scale} />
      <path className={styles['young-area']} d={drawn.area} />
      <path className={styles['young']} d={drawn.young} />
      <path className={styles['line']} d={drawn.line} />
      <line
        className={styles['floor']}
        x1={area.left}
        x2={area.right}
        y1={area.bottom}
        y2={area.bottom}
      />
      {limits.map((limit) => (
        <line
          key={limit}
          className={styles['limit']}
          x1={x(limit)}
          x2={x(limit)}
          y1={area.top}
          y2={area.bottom}
        />
      ))}
    </PlotFigure>
  );
}

/** The drawing in a sentence. */
export function youngText({ young, line, low, high, words }: YoungCurveProps): string {
  const passes = [
    low === null ? '' : `from ${words(low)} on`,
    high === null ? '' : `up to ${words(high)}`,
  ].filter((part) => part !== '');
  const limit = passes.length === 0 ? '' : ` A young passes ${passes.join(', ')}.`;
  return `Young: mean ${words(young.mean)}, two in three within ${words(young.deviation)} of it. The line now: mean ${words(line.mean)}.${limit}`;
}

function CurveKey({ limits }: { limits: number }) {
  return (
    <ul className={chartsStyles['legend']}>
      <li>
        <svg width="28" height="12" aria-hidden="true">
          <rect className={styles['young-area']} width="28" height="12" />
          <path className={styles['young']} d="M0 2H28" />
        </svg>
        young of this pair
      </li>
      <li>
        <svg width="28" height="12" aria-hidden="true">
          <path className={styles['line']} d="M0 6H28" />
        </svg>
        the line as it is now
      </li>
      {limits > 0 && (
        <li>
          <svg width="28" height="12" aria-hidden="true">
            <path className={styles['limit']} d="M14 0V12" />
          </svg>
          {limits === 1 ? 'the limit that passes' : 'the limits that pass'}
        </li>
      )}
    </ul>
  );
}

function SpreadTable({ title, young, line, words }: YoungCurveProps) {
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Fish' },
        { heading: 'Mean', numeric: true },
        { heading: 'Two in three within', numeric: true },
      ]}
      rows={() =>
        [['young of this pair', young] as const, ['the line as it is now', line] as const].map(
          ([name, { mean, deviation }]) => [
            name,
            words(mean),
            `${words(mean - deviation)} to ${words(mean + deviation)}`,
          ],
        )
      }
    />
  );
}
