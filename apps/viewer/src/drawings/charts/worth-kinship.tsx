import * as d3 from 'd3';
import { percent } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis, UprightAxis } from './axis.js';
import chartsStyles from './charts.module.css';
import { plotArea, ticksOf, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import styles from './worth-kinship.module.css';

/** A set of pairs: what it is worth, and how related its parents are. */
export interface WorthAndKinship {
  readonly worth: number;
  readonly kinship: number;
}

export interface WorthAgainstKinshipProps {
  readonly title: string;
  /** The best sets within a limit each, the least related first. */
  readonly points: readonly WorthAndKinship[];
  /** The set that is shown. */
  readonly now: WorthAndKinship;
}

const MARGIN = { top: 30, right: 24, bottom: 38, left: 54 };

export function frontierScales(
  points: readonly WorthAndKinship[],
  { left, right, top, bottom }: PlotArea,
): { x: d3.ScaleLinear<number, number>; y: d3.ScaleLinear<number, number> } {
  const span = (of: (point: WorthAndKinship) => number): [number, number] => {
    const [low, high] = [d3.min(points, of) ?? 0, d3.max(points, of) ?? 1];
    const room = (high - low || 1) * 0.06;
    return [low - room, high + room];
  };
  return {
    x: d3.scaleLinear(
      span(({ kinship }) => kinship),
      [left + 8, right],
    ),
    y: d3.scaleLinear(
      span(({ worth }) => worth),
      [bottom, top],
    ),
  };
}

const asPercent = (share: number): string => `${Number((100 * share).toFixed(1))} %`;
const asPoints = (worth: number): string => String(Number(worth.toFixed(2)));

/** What sets of pairs are worth against how related their parents are, and where the one shown stands. */
export function WorthAgainstKinship({ title, points, now }: WorthAgainstKinshipProps) {
  const [figure, width] = useWidth<HTMLDivElement>(520);
  const area = plotArea(width, Math.round(Math.min(280, Math.max(200, width * 0.45))), MARGIN);
  const { x, y } = frontierScales([...points, now], area);
  const line = d3
    .line<WorthAndKinship>()
    .x(({ kinship }) => x(kinship))
    .y(({ worth }) => y(worth));
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      below={
        <>
          <Key />
          <TableAlternative
            caption={title}
            columns={[
              { heading: 'Kinship of the parents', numeric: true },
              { heading: 'Worth, mean of the pairs', numeric: true },
            ]}
            rows={() => points.map(({ kinship, worth }) => [percent(kinship), asPoints(worth)])}
          />
        </>
      }
    >
      <UprightAxis area={area} ticks={ticksOf(y, 4, asPoints)} name="points" />
      <LevelAxis area={area} ticks={ticksOf(x, 4, asPercent)} name="kinship of the parents" />
      <path className={styles['frontier']} d={line(points) ?? ''} />
      {points.map((point) => (
        <circle
          key={point.kinship}
          className={styles['point']}
          cx={x(point.kinship)}
          cy={y(point.worth)}
          r={4}
        >
          <title>{`${percent(point.kinship)}: ${asPoints(point.worth)} points`}</title>
        </circle>
      ))}
      <circle className={styles['now']} cx={x(now.kinship)} cy={y(now.worth)} r={7} />
    </PlotFigure>
  );
}

function Key() {
  return (
    <ul className={chartsStyles['legend']}>
      <li>
        <svg width="20" height="20" viewBox="-10 -10 20 20" aria-hidden="true">
          <circle className={styles['now']} r={7} />
        </svg>
        the pairs shown
      </li>
      <li>
        <svg width="28" height="14" aria-hidden="true">
          <path className={styles['frontier']} d="M0 7H28" />
        </svg>
        the best pairs for each kinship
      </li>
    </ul>
  );
}
