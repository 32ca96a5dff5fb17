import * as d3 from 'd3';
import { linesOf } from '../figures.js';
import { useWidth } from '../use-width.js';
import { LevelAxis } from './axis.js';
import { plotArea, ticksOf } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import styles from './route-chances.module.css';

export interface RouteChance {
  readonly key: string;
  readonly name: string;
  /** Chance, and the interval that holds it in 95 of 100 searches; 0 to 1. */
  readonly chance: number;
  readonly low: number;
  readonly high: number;
}

export interface RouteChancesProps {
  readonly title: string;
  readonly routes: readonly RouteChance[];
  /** Where the same figures can be read. */
  readonly sameFigures: string;
}

const LINE = 17;
const BAR = 24;
/** Width of a letter on average, in pixels. */
const LETTER = 6.6;
const MARGIN = { top: 4, right: 16, bottom: 38, left: 10 };

/** Chances of routes beside each other: a bar each, and a line over where the chance may lie. */
export function RouteChances({ title, routes, sameFigures }: RouteChancesProps) {
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const names = routes.map(({ name }) => linesOf(name, (width - 26) / LETTER));
  const heights = names.map((lines) => lines.length * LINE + BAR);
  const tops = heights.map((_, k) => heights.slice(0, k).reduce((sum, one) => sum + one, 0));
  const all = heights.reduce((sum, one) => sum + one, 0);
  const area = plotArea(width, MARGIN.top + MARGIN.bottom + all, MARGIN);
  const x = d3.scaleLinear([0, 1], [area.left, area.right]);
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures={`${routesText(routes)} ${sameFigures}`}
    >
      <LevelAxis
        area={area}
        ticks={ticksOf(x, width < 420 ? 3 : 5, (share) => `${Math.round(share * 100)} %`)}
        name="chance that the target is reached"
        lines
      />
      {routes.map(({ key, chance, low, high }, k) => (
        <g key={key} transform={`translate(0 ${area.top + tops[k]!})`}>
          {names[k]!.map((line, n) => (
            <text key={line} className={styles['name']} x={area.left + 2} y={15 + n * LINE}>
              {line}
            </text>
          ))}
          <g transform={`translate(0 ${names[k]!.length * LINE + 3})`}>
            <rect
              className={styles['bar']}
              x={x(0)}
              width={Math.max(1, x(chance) - x(0))}
              height={12}
            />
            <path className={styles['interval']} d={`M${x(low)} 2v8m0-4H${x(high)}m0-4v8`} />
          </g>
        </g>
      ))}
    </PlotFigure>
  );
}

/** The first of them in a sentence. */
export function routesText(routes: readonly RouteChance[]): string {
  const [best] = routes;
  if (best === undefined) return 'No route yet.';
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  return `The best of ${routes.length}: ${best.name}, ${percent(best.chance)}, between ${percent(best.low)} and ${percent(best.high)}.`;
}
