import { clsx } from 'clsx';
import * as d3 from 'd3';
import { useWidth } from '../use-width.js';
import { LevelAxis } from './axis.js';
import { BandKey, BandMark, type ChanceBand } from './bands.js';
import { plotArea, ticksOf } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import chartsStyles from './charts.module.css';
import styles from './young-worths.module.css';

export interface YoungWorth {
  readonly id: string;
  readonly tag: string;
  readonly worth: number;
  readonly bands: readonly ChanceBand[];
  /** Said beside its tag: "keep", "last carrier". */
  readonly note: string | null;
}

/** Young of one sex in their order. */
export interface YoungWorthGroup {
  readonly name: string;
  readonly young: readonly YoungWorth[];
  /** How many of them are to keep: a line is drawn below these. */
  readonly keep: number;
}

export interface YoungWorthsProps {
  readonly title: string;
  readonly groups: readonly YoungWorthGroup[];
  /** The fish in hand. */
  readonly fishId?: string;
  /** Where the same figures can be read. */
  readonly sameFigures: string;
}

const ROW = 38;
const HEAD = 26;
const MARGIN = { top: 4, right: 18, bottom: 40, left: 18 };

/** All bands and worths, with some room. */
export function worthDomain(groups: readonly YoungWorthGroup[]): [number, number] {
  const all = groups.flatMap(({ young }) =>
    young.flatMap(({ worth, bands }) => [worth, ...bands.flatMap(({ low, high }) => [low, high])]),
  );
  const [least = 0, most = 0] = d3.extent(all);
  return least === most ? [least - 1, most + 1] : [least, most];
}

/** Each young's worth with its bands, best first, males and females apart, and a line where the number to keep ends. */
export function YoungWorths({ title, groups, fishId, sameFigures }: YoungWorthsProps) {
  const [figure, width] = useWidth<HTMLDivElement>(560);
  const shown = groups.filter(({ young }) => young.length > 0);
  const heights = shown.map(({ young }) => HEAD + young.length * ROW);
  const area = plotArea(width, MARGIN.top + MARGIN.bottom + d3.sum(heights), MARGIN);
  const x = d3.scaleLinear(worthDomain(shown), [area.left, area.right]).nice(5);
  const percents = shown[0]?.young[0]?.bands.map(({ percent }) => percent) ?? [];
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures={sameFigures}
      below={<BandKey percents={percents} middle="one young" />}
    >
      <LevelAxis
        area={area}
        ticks={ticksOf(x, width < 420 ? 4 : 6, (points) => plainSigned(points))}
        name="worth as a parent, points"
        lines
      />
      {shown.map((group, k) => (
        <Group
          key={group.name}
          group={group}
          top={area.top + d3.sum(heights.slice(0, k))}
          x={x}
          fishId={fishId}
        />
      ))}
    </PlotFigure>
  );
}

const plainSigned = (points: number): string =>
  points === 0 ? '0' : `${points > 0 ? '+' : '−'}${Math.abs(points)}`;

interface GroupProps {
  group: YoungWorthGroup;
  top: number;
  x: d3.ScaleLinear<number, number>;
  fishId: string | undefined;
}

function Group({ group: { name, young, keep }, top, x, fishId }: GroupProps) {
  const [left = 0, right = 0] = x.range();
  return (
    <g transform={`translate(0 ${top})`}>
      <text className={clsx(chartsStyles['axis'], styles['group'])} x={4} y={17}>
        {name}
      </text>
      {young.map((one, k) => (
        <g key={one.id} transform={`translate(0 ${HEAD + k * ROW})`}>
          <text
            className={clsx(
              chartsStyles['axis'],
              styles['tag'],
              one.id === fishId && styles['in-hand'],
            )}
            x={4}
            y={15}
          >
            {one.id === fishId ? `► ${one.tag}` : one.tag}
            {one.note !== null && ` · ${one.note}`}
          </text>
          <BandMark bands={one.bands} middle={one.worth} x={x} y={27} />
        </g>
      ))}
      {keep > 0 && keep < young.length && (
        <line
          className={styles['cut']}
          x1={left}
          x2={right}
          y1={HEAD + keep * ROW}
          y2={HEAD + keep * ROW}
        />
      )}
    </g>
  );
}
