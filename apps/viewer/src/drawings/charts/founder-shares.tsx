import { clsx } from 'clsx';
import { useId, useMemo } from 'react';
import * as d3 from 'd3';
import { percent, shorten } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { Swatch } from './class-bars.js';
import { FILL_COUNT, FillDefinitions, fillId } from './fills.js';
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

interface Band {
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

const LEFT = 8;
const BOTTOM = 36;
const TOP = 8;

/** Each founder's expected share of the genes of a generation, generation after generation. */
export function FounderShares(props: FounderSharesProps) {
  const scope = useId();
  const title = props.title ?? 'Founders’ shares by generation';
  const [ref, width] = useWidth<HTMLDivElement>(640);
  const height = Math.round(Math.min(340, Math.max(240, width * 0.5)));
  const bands = useMemo(() => bandsOf(props), [props]);
  const { generations } = props;
  const x = d3.scaleBand(d3.range(generations.length), [LEFT, width - LEFT]).paddingInner(0.18);
  const y = d3.scaleLinear([0, 1], [height - BOTTOM, TOP]);
  const paint = (fill: Band['fill']): string =>
    fill === 'rest'
      ? 'var(--d-line)'
      : fill === 'unknown'
        ? 'var(--d-paper)'
        : `url(#${fillId(scope, fill)})`;
  return (
    <figure className={clsx(chartsStyles['plot'], 'lw-drawing')} ref={ref}>
      <figcaption>{title}</figcaption>
      <svg
        width={width}
        height={height}
        role="img"
        aria-label={`${title}. The table below has the same figures.`}
      >
        <FillDefinitions scope={scope} />
        {generations.map((generation, g) => {
          let above = 0;
          return (
            <g key={g}>
              {bands.map((band) => {
                const share = band.shares[g]!;
                const from = above;
                above += share;
                const tall = y(from) - y(above);
                if (tall <= 0) return null;
                const room = Math.floor((x.bandwidth() - 10) / 6.8);
                const full = `${band.label}  ${percent(share)}`;
                const text = full.length <= room ? full : shorten(band.label, room);
                return (
                  <ShareBar
                    key={band.key}
                    x={x}
                    g={g}
                    y={y}
                    above={above}
                    tall={tall}
                    paint={paint}
                    band={band}
                    generation={generation}
                    share={share}
                    from={from}
                    text={text}
                  />
                );
              })}
              <text
                className={chartsStyles['axis']}
                x={x(g)! + x.bandwidth() / 2}
                y={height - BOTTOM + 16}
                textAnchor="middle"
              >
                {generation.label}
              </text>
              <FishCount generation={generation} x={x} g={g} height={height} />
            </g>
          );
        })}
      </svg>
      <BandLegend bands={bands} scope={scope} paint={paint} />
      <TableAlternative
        caption={title}
        columns={[
          { heading: 'Founder' },
          ...generations.map((one) => ({ heading: one.label, numeric: true })),
        ]}
        rows={() =>
          bands.map((band) => [band.label, ...band.shares.map((share) => percent(share))])
        }
      />
    </figure>
  );
}

function FishCount({
  generation,
  x,
  g,
  height,
}: {
  generation: {
    readonly label: string;
    readonly fishCount?: number;
    readonly shares: readonly number[];
  };
  x: d3.ScaleBand<number>;
  g: number;
  height: number;
}) {
  return (
    generation.fishCount !== undefined && (
      <text
        className={chartsStyles['axis']}
        x={x(g)! + x.bandwidth() / 2}
        y={height - BOTTOM + 31}
        textAnchor="middle"
      >
        n {generation.fishCount}
      </text>
    )
  );
}

function ShareBar({
  x,
  g,
  y,
  above,
  tall,
  paint,
  band,
  generation,
  share,
  from,
  text,
}: {
  x: d3.ScaleBand<number>;
  g: number;
  y: d3.ScaleLinear<number, number, never>;
  above: number;
  tall: number;
  paint: (fill: Band['fill']) => string;
  band: Band;
  generation: {
    readonly label: string;
    readonly fishCount?: number;
    readonly shares: readonly number[];
  };
  share: number;
  from: number;
  text: string;
}) {
  return (
    <g>
      <rect
        className={styles['share']}
        x={x(g)!}
        y={y(above)}
        width={x.bandwidth()}
        height={tall}
        fill={paint(band.fill)}
      >
        <title>{`${band.label}, generation ${generation.label}: ${percent(share)}`}</title>
      </rect>
      {tall >= 17 && x.bandwidth() >= 44 && (
        <ShareLabel x={x(g)! + x.bandwidth() / 2} y={(y(from) + y(above)) / 2} text={text} />
      )}
    </g>
  );
}

function BandLegend({
  bands,
  scope,
  paint,
}: {
  bands: Band[];
  scope: string;
  paint: (fill: Band['fill']) => string;
}) {
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
