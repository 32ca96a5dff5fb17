import { clsx } from 'clsx';
import * as d3 from 'd3';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { LevelAxis } from './axis.js';
import { BandKey, BandMark, type ChanceBand } from './bands.js';
import { plotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import chartsStyles from './charts.module.css';
import styles from './value-among-kin.module.css';

export interface KinValue {
  readonly id: string;
  readonly tag: string;
  readonly value: number;
}

export interface ValueAmongKinProps {
  readonly title: string;
  readonly fish: KinValue & { readonly bands: readonly ChanceBand[] };
  readonly sibs: readonly KinValue[];
  /** Fish of the line, this one and its sibs among them or not. */
  readonly line: readonly KinValue[];
  /** A value with its unit and its sign: "+6 degrees". */
  readonly words: (value: number) => string;
  /** What the scale shows, with its unit. */
  readonly scale: string;
}

const MARGIN = { top: 6, right: 16, bottom: 40, left: 16 };
/** Room for the name of a row, and for the fish with its bands. */
const HEAD = 20;
const OWN = HEAD + 24;
const DOT = 4;
/** Dots that would lie on one another are stacked; beyond so many the rest share the top place. */
const HIGHEST = 7;

/** Around 0, where the line's mean is, and no wider than what is drawn. */
export function kinScale(
  props: Pick<ValueAmongKinProps, 'fish' | 'sibs' | 'line'>,
  width: number,
): d3.ScaleLinear<number, number> {
  const ends = [
    0,
    ...props.fish.bands.flatMap(({ low, high }) => [low, high]),
    ...[props.fish, ...props.sibs, ...props.line].map(({ value }) => value),
  ];
  const [least = -1, most = 1] = d3.extent(ends);
  const pad = least === most ? 1 : (most - least) * 0.03;
  return d3.scaleLinear([least - pad, most + pad], [MARGIN.left, width - MARGIN.right]).nice(5);
}

/** How high each dot lies above its row's floor, so that none hides another: 0 at the floor. Same order as given. */
export function stacked(places: readonly number[], size: number): number[] {
  const filled = new Map<number, number>();
  return places.map((place) => {
    const column = Math.round(place / size);
    const height = filled.get(column) ?? 0;
    filled.set(column, height + 1);
    return Math.min(height, HIGHEST - 1);
  });
}

/** A fish's value with its bands, above those of its sibs and of its line. */
export function ValueAmongKin(props: ValueAmongKinProps) {
  const { title, fish, sibs, line, words, scale } = props;
  const [figure, width] = useWidth<HTMLDivElement>(520);
  const x = kinScale(props, width);
  const rows = [
    { name: `Its sibs (${sibs.length})`, kin: sibs },
    { name: `The line (${line.length})`, kin: line },
  ].filter(({ kin }) => kin.length > 0);
  const heights = rows.map(({ kin }) => HEAD + rowHeight(kin, x));
  const area = plotArea(width, MARGIN.top + OWN + d3.sum(heights) + MARGIN.bottom, MARGIN);
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={area.height}
      sameFigures={`${words(fish.value)}. The table below has the same figures.`}
      below={
        <>
          <BandKey percents={fish.bands.map(({ percent }) => percent)} middle={fish.tag} />
          <KinTable {...props} />
        </>
      }
    >
      <LevelAxis
        area={area}
        ticks={x.ticks(5).map((tick) => ({
          at: x(tick),
          text: tick > 0 ? `+${tick}` : String(tick),
          line: tick === 0 ? styles['line-mean'] : undefined,
        }))}
        lines
        name={scale}
      />
      <RowName y={MARGIN.top + 12}>{fish.tag}</RowName>
      <BandMark bands={fish.bands} middle={fish.value} x={x} y={MARGIN.top + HEAD + 10} />
      {rows.map(({ name, kin }, k) => {
        const top = MARGIN.top + OWN + d3.sum(heights.slice(0, k));
        return (
          <g key={name}>
            <RowName y={top + 14}>{name}</RowName>
            <Dots kin={kin} fishId={fish.id} x={x} floor={top + (heights[k] ?? 0)} />
          </g>
        );
      })}
    </PlotFigure>
  );
}

const rowHeight = (kin: readonly KinValue[], x: (value: number) => number): number => {
  const places = kin.map(({ value }) => x(value));
  return 10 + 2 * DOT * (d3.max(stacked(places, 2 * DOT)) ?? 0);
};

function RowName({ y, children }: { y: number; children: string }) {
  return (
    <text className={clsx(chartsStyles['axis'], styles['kin-name'])} x={2} y={y}>
      {children}
    </text>
  );
}

function Dots({
  kin,
  fishId,
  x,
  floor,
}: {
  kin: readonly KinValue[];
  fishId: string;
  x: (value: number) => number;
  floor: number;
}) {
  const heights = stacked(
    kin.map(({ value }) => x(value)),
    2 * DOT,
  );
  const placed = kin.map((one, k) => ({ ...one, high: heights[k] ?? 0 }));
  // The fish itself comes last, so that no dot lies on it.
  return d3
    .sort(placed, ({ id }) => Number(id === fishId))
    .map(({ id, tag, value, high }) => (
      <circle
        key={id}
        className={clsx(styles['kin-dot'], id === fishId && styles['kin-self'])}
        cx={x(value)}
        cy={floor - DOT - 1 - high * 2 * DOT}
        r={DOT - 0.5}
      >
        <title>{tag}</title>
      </circle>
    ));
}

function KinTable({ title, fish, sibs, line, words }: ValueAmongKinProps) {
  const all = new Map([fish, ...sibs, ...line].map((one) => [one.id, one]));
  const who = ({ id }: KinValue): string =>
    id === fish.id ? 'this fish' : sibs.some((sib) => sib.id === id) ? 'sib' : 'line';
  const bands = [...fish.bands].sort((a, b) => a.percent - b.percent);
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Fish' },
        { heading: 'Who' },
        { heading: 'Its young are expected', numeric: true },
        ...bands.map(({ percent }) => ({ heading: `${percent} of 100`, numeric: true })),
      ]}
      rows={() =>
        d3
          .sort(all.values(), (one) => -one.value)
          .map((one) => [
            one.tag,
            who(one),
            words(one.value),
            ...bands.map(({ low, high }) =>
              one.id === fish.id ? `${words(low)} to ${words(high)}` : '',
            ),
          ])
      }
    />
  );
}
