import { clsx } from 'clsx';
import { useId, useMemo } from 'react';
import * as d3 from 'd3';
import { percent, shorten } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { Swatch } from './class-bars.js';
import { FILL_COUNT, FillDefinitions, fillId } from './fills.js';
import { plotArea, type PlotArea } from './plot-area.js';
import { PlotFigure } from './plot-figure.js';
import chartsStyles from './charts.module.css';
import styles from './founder-shares.module.css';

export interface FounderSharesProps {
  readonly founders: readonly { readonly id: string; readonly tag: string }[];
  readonly generations: readonly {
    readonly label: string;
    readonly fishCount?: number;
    /** One a founder, in the founders' order; what is missing to 1 is of unknown origin. */
    readonly shares: readonly number[];
  }[];
  /** How many founders are drawn by name; the rest are pooled. */
  readonly largest?: number;
  readonly title?: string;
}

export interface Band {
  readonly key: string;
  readonly label: string;
  readonly fill: number | 'rest' | 'unknown';
  readonly shares: readonly number[];
}

function bandsOf(props: FounderSharesProps): Band[] {
  const { founders, generations } = props;
  const size = founders.map((_, f) => d3.sum(generations, (one) => one.shares[f] ?? 0));
  const order = d3.sort(d3.range(founders.length), (f) => -size[f]!);
  const named = order.slice(0, Math.min(props.largest ?? FILL_COUNT, FILL_COUNT));
  const rest = order.slice(named.length);
  const bands: Band[] = named.map((f, i) => ({
    key: founders[f]!.id,
    label: founders[f]!.tag,
    fill: i,
    shares: generations.map((one) => one.shares[f] ?? 0),
  }));
  const pooled = generations.map((one) => d3.sum(rest, (f) => one.shares[f] ?? 0));
  if (rest.length > 0)
    bands.push({
      key: 'rest',
      label: rest.length === 1 ? '1 other' : `${rest.length} others`,
      fill: 'rest',
      shares: pooled,
    });
  const unknown = generations.map((one) => Math.max(0, 1 - d3.sum(one.shares)));
  if (unknown.some((share) => share > 1e-9))
    bands.push({ key: 'unknown', label: 'unknown', fill: 'unknown', shares: unknown });
  return bands;
}

const MARGIN = { top: 8, right: 8, bottom: 36, left: 8 };

type Generation = FounderSharesProps['generations'][number];

interface Look {
  readonly bands: readonly Band[];
  readonly paint: (fill: Band['fill']) => string;
}

/** Each founder's expected share of the genes of a generation, generation after generation. */
export function FounderShares(props: FounderSharesProps) {
  const { generations, title = 'Founders’ shares by generation' } = props;
  const scope = useId();
  const [figure, width] = useWidth<HTMLDivElement>(640);
  const height = Math.round(Math.min(340, Math.max(240, width * 0.5)));
  const area = plotArea(width, height, MARGIN);
  const bands = useMemo(() => bandsOf(props), [props]);
  const paint = (fill: Band['fill']): string =>
    fill === 'rest'
      ? 'var(--d-line)'
      : fill === 'unknown'
        ? 'var(--d-paper)'
        : `url(#${fillId(scope, fill)})`;
  const x = d3.scaleBand(d3.range(generations.length), [area.left, area.right]).paddingInner(0.18);
  return (
    <PlotFigure
      title={title}
      figure={figure}
      width={width}
      height={height}
      below={
        <>
          <BandLegend bands={bands} scope={scope} paint={paint} />
          <SharesTable title={title} bands={bands} generations={generations} />
        </>
      }
    >
      <FillDefinitions scope={scope} />
      {generations.map((generation, g) => {
        const place = { area, left: x(g)!, width: x.bandwidth() };
        return (
          <Column key={g} g={g} generation={generation} place={place} look={{ bands, paint }} />
        );
      })}
    </PlotFigure>
  );
}

interface SharesTableProps {
  title: string;
  bands: readonly Band[];
  generations: readonly Generation[];
}

function SharesTable({ title, bands, generations }: SharesTableProps) {
  return (
    <TableAlternative
      caption={title}
      columns={[
        { heading: 'Founder' },
        ...generations.map((one) => ({ heading: one.label, numeric: true })),
      ]}
      rows={() => bands.map((band) => [band.label, ...band.shares.map((share) => percent(share))])}
    />
  );
}

interface Stacked {
  readonly band: Band;
  readonly share: number;
  /** Share of the column at which it begins, from the bottom. */
  readonly from: number;
}

/** The bands of one generation, each on top of those before; one without a share is left out. */
export function stacked(bands: readonly Band[], generation: number): Stacked[] {
  const shares = bands.map((band) => band.shares[generation] ?? 0);
  return bands
    .map((band, k) => ({ band, share: shares[k]!, from: d3.sum(shares.slice(0, k)) }))
    .filter(({ share }) => share > 0);
}

/** Name and share where both fit into a column of so many pixels, else as much of the name as does. */
export function bandText(label: string, share: number, width: number): string {
  const room = Math.floor((width - 10) / 6.8);
  const full = `${label}  ${percent(share)}`;
  return full.length <= room ? full : shorten(label, room);
}

interface Place {
  readonly area: PlotArea;
  readonly left: number;
  readonly width: number;
}

interface ColumnProps {
  g: number;
  generation: Generation;
  place: Place;
  look: Look;
}

function Column({ g, generation, place, look }: ColumnProps) {
  const { area, left, width } = place;
  const under = { className: chartsStyles['axis'], x: left + width / 2 };
  return (
    <g>
      {stacked(look.bands, g).map((one) => (
        <ShareBar
          key={one.band.key}
          stacked={one}
          of={generation.label}
          place={place}
          fill={look.paint(one.band.fill)}
        />
      ))}
      <text {...under} y={area.bottom + 16} textAnchor="middle">
        {generation.label}
      </text>
      {generation.fishCount !== undefined && (
        <text {...under} y={area.bottom + 31} textAnchor="middle">
          n {generation.fishCount}
        </text>
      )}
    </g>
  );
}

interface ShareBarProps {
  stacked: Stacked;
  of: string;
  place: Place;
  fill: string;
}

function ShareBar({ stacked: { band, share, from }, of, place, fill }: ShareBarProps) {
  const { area, left, width } = place;
  const y = d3.scaleLinear([0, 1], [area.bottom, area.top]);
  const top = y(from + share);
  const tall = y(from) - top;
  return (
    <g>
      <rect className={styles['share']} x={left} y={top} width={width} height={tall} fill={fill}>
        <title>{`${band.label}, generation ${of}: ${percent(share)}`}</title>
      </rect>
      {tall >= 17 && width >= 44 && (
        <ShareLabel
          x={left + width / 2}
          y={top + tall / 2}
          text={bandText(band.label, share, width)}
        />
      )}
    </g>
  );
}

interface BandLegendProps extends Look {
  scope: string;
}

function BandLegend({ bands, scope, paint }: BandLegendProps) {
  return (
    <ul className={chartsStyles['legend']}>
      {bands.map((band) => (
        <li key={band.key}>
          {typeof band.fill === 'number' ? (
            <Swatch scope={scope} fill={band.fill} />
          ) : (
            <svg width="18" height="14" aria-hidden="true" className={chartsStyles['swatch']}>
              <rect
                x="0.5"
                y="0.5"
                width="17"
                height="13"
                fill={paint(band.fill)}
                stroke="var(--d-edge)"
              />
            </svg>
          )}
          {band.label} <span>{percent(band.shares.at(-1) ?? 0)} in the last generation</span>
        </li>
      ))}
    </ul>
  );
}

function ShareLabel({
  x,
  y,
  text,
}: {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}) {
  const half = 4 + text.length * 3.4;
  return (
    <g aria-hidden="true">
      <rect
        className={styles['plate']}
        x={x - half}
        y={y - 8}
        width={2 * half}
        height={16}
        rx={3}
      />
      <text
        className={clsx(chartsStyles['axis'], styles['label'])}
        x={x}
        y={y + 4}
        textAnchor="middle"
      >
        {text}
      </text>
    </g>
  );
}
