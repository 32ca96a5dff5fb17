import styles from './care-timeline.module.css';
import { DAY } from '@linewright/care';
import type { ReactNode } from 'react';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';

export interface TimelineRow {
  readonly id: string;
  readonly label: string;
  /** When it was recorded; milliseconds since 1970, as all times here. */
  readonly happened: number | null;
  readonly expected: {
    readonly from: number;
    readonly about: number;
    readonly to: number;
  } | null;
  /** True while what it follows has not happened, so that the window may still move. */
  readonly loose: boolean;
  readonly published: readonly { readonly from: number; readonly to: number }[];
}

export interface CareTimelineProps {
  readonly rows: readonly TimelineRow[];
  /** Time of day 0. */
  readonly zero: number;
  readonly zeroLabel: string;
  readonly now: number;
  /** What is drawn: from and to. */
  readonly range: readonly [number, number];
  readonly timeText: (time: number) => string;
  readonly title?: string;
}

const ROW = 34;
const TOP = 26;
/** Letters of a label that fit beside the drawing. */
const LONGEST = 40;

/** Days between marks on the axis, so that they keep apart. */
function dayStep(days: number, width: number): number {
  const fits = Math.max(2, Math.floor(width / 44));
  return [1, 2, 7, 14, 28, 56].find((step) => days / step <= fits) ?? 112;
}

/** What happened against what was expected, with published figures beneath each step. */
export function CareTimeline(props: CareTimelineProps) {
  const { rows, zero, zeroLabel, now, range, title } = props;
  const [ref, width] = useWidth<HTMLDivElement>(640);
  const [start, end] = range;
  const gutter = width < 640 ? 0 : 256;
  const rowHeight = gutter === 0 ? ROW + 14 : ROW;
  const span = Math.max(end - start, DAY);
  const x = (time: number): number =>
    gutter + ((Math.min(Math.max(time, start), end) - start) / span) * (width - gutter - 12) + 4;
  const height = TOP + rows.length * rowHeight + 8;
  const step = dayStep(span / DAY, width - gutter);
  const firstDay = Math.ceil((start - zero) / DAY / step) * step;
  const days: number[] = [];
  for (let day = firstDay; zero + day * DAY <= end; day += step) days.push(day);
  return (
    <figure className="lw-drawing">
      <figcaption>{title ?? 'What happened, and what was expected'}</figcaption>
      <div ref={ref}>
        <svg
          width={width}
          height={height}
          role="img"
          aria-label={`Timeline of ${rows.length} steps in days from ${zeroLabel}; the table beneath has the same.`}
        >
          {days.map((day) => (
            <DayLine key={day} x={x} zero={zero} day={day} height={height} />
          ))}
          {rows.map((row, i) => (
            <g key={row.id} transform={`translate(0 ${TOP + i * rowHeight})`}>
              <RowDrawing row={row} x={x} gutter={gutter} inRange={(t) => t >= start && t <= end} />
            </g>
          ))}
          <NowLine now={now} start={start} end={end} x={x} height={height} />
        </svg>
      </div>
      <p className="lw-quiet-text">
        Days from {zeroLabel}. Bar: the expected window; its line: the most likely time (dashed
        while it may still change). Filled diamond: recorded. Hollow bracket: published, under its
        own conditions.
      </p>
      <TableAlternative
        caption="Steps in time"
        columns={[{ heading: 'Step' }, { heading: 'Expected' }, { heading: 'Recorded' }]}
        rows={() => rows.map((row) => tableRow(row, props.timeText))}
      />
    </figure>
  );
}

function NowLine({
  now,
  start,
  end,
  x,
  height,
}: {
  now: number;
  start: number;
  end: number;
  x: (time: number) => number;
  height: number;
}) {
  return (
    now >= start &&
    now <= end && (
      <g>
        <line
          x1={x(now)}
          x2={x(now)}
          y1={TOP - 8}
          y2={height}
          stroke="var(--d-focus)"
          strokeWidth={2}
          strokeDasharray="5 3"
        />
        <text x={x(now) + 4} y={TOP - 2} fontSize={11} className={styles['now']}>
          now
        </text>
      </g>
    )
  );
}

function DayLine({
  x,
  zero,
  day,
  height,
}: {
  x: (time: number) => number;
  zero: number;
  day: number;
  height: number;
}) {
  return (
    <g>
      <line
        x1={x(zero + day * DAY)}
        x2={x(zero + day * DAY)}
        y1={TOP - 6}
        y2={height}
        stroke={day === 0 ? 'var(--d-edge)' : 'var(--d-line)'}
        strokeWidth={day === 0 ? 1.5 : 1}
      />
      <text x={x(zero + day * DAY)} y={14} fontSize={12} textAnchor="middle">
        {day}
      </text>
    </g>
  );
}

function tableRow(row: TimelineRow, timeText: (time: number) => string): readonly ReactNode[] {
  const window =
    row.expected === null
      ? '–'
      : `${timeText(row.expected.about)} (${timeText(row.expected.from)} to ${timeText(row.expected.to)})`;
  return [row.label, window, row.happened === null ? '–' : timeText(row.happened)];
}

interface RowDrawingProps {
  row: TimelineRow;
  x: (time: number) => number;
  gutter: number;
  inRange: (time: number) => boolean;
}

function RowDrawing({ row, x, gutter, inRange }: RowDrawingProps) {
  const { expected, happened } = row;
  const labelled = gutter > 0;
  const top = labelled ? 6 : 18;
  const shown = expected !== null && (inRange(expected.to) || inRange(expected.from));
  return (
    <>
      <text x={labelled ? 0 : 4} y={labelled ? top + 12 : 12} fontSize={13}>
        {row.label.length > LONGEST ? `${row.label.slice(0, LONGEST - 1)}…` : row.label}
        {row.label.length > LONGEST && <title>{row.label}</title>}
      </text>
      {shown && <ExpectedWindow x={x} expected={expected} top={top} row={row} />}
      <PublishedBands
        bands={row.published.filter(({ from }) => inRange(from))}
        x={x}
        y={top + 20}
      />
      {happened !== null && inRange(happened) && (
        <path
          d={`M ${x(happened)} ${top - 1} l 8 8 l -8 8 l -8 -8 z`}
          fill="var(--d-accent)"
          stroke="var(--d-paper)"
          strokeWidth={1}
        />
      )}
    </>
  );
}

interface PublishedBandsProps {
  bands: TimelineRow['published'];
  x: (time: number) => number;
  y: number;
}

function PublishedBands({ bands, x, y }: PublishedBandsProps) {
  return bands.map((band, i) => (
    <path
      key={i}
      d={bracket(x(band.from), Math.max(x(band.to), x(band.from) + 2), y)}
      fill="none"
      stroke="var(--d-accent-2)"
      strokeWidth={1.6}
    />
  ));
}

const bracket = (from: number, to: number, y: number): string =>
  `M ${from} ${y - 3} V ${y + 3} H ${to} V ${y - 3}`;

interface ExpectedWindowProps {
  x: (time: number) => number;
  expected: NonNullable<TimelineRow['expected']>;
  top: number;
  row: TimelineRow;
}

function ExpectedWindow({ x, expected, top, row }: ExpectedWindowProps) {
  return (
    <>
      <rect
        x={x(expected.from)}
        y={top}
        width={Math.max(3, x(expected.to) - x(expected.from))}
        height={14}
        fill="var(--d-tint)"
        stroke="var(--d-edge)"
        strokeDasharray={row.loose ? '4 3' : undefined}
      />
      <line
        x1={x(expected.about)}
        x2={x(expected.about)}
        y1={top - 2}
        y2={top + 16}
        stroke="var(--d-ink)"
        strokeWidth={1.5}
        strokeDasharray={row.loose ? '3 2' : undefined}
      />
    </>
  );
}
