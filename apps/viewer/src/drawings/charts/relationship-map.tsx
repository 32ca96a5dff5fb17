import { useEffect, useRef, useState } from 'react';
import { coefficient } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { cellAt, measureMap, paintMap, type MapMeasures } from './relationship-map-paint.js';
import styles from './relationship-map.module.css';
import selectedStyles from '../selected.module.css';
import chartsStyles from './charts.module.css';
import type { MapFish } from './map-fish.js';
import { cellAfterKey, pairOf, reveal, type Cell } from './map-cells.js';
import { extremePairs, pairWords, tableSummary } from './map-words.js';

export interface RelationshipMapProps {
  /** In the order to be drawn. */
  readonly fish: readonly MapFish[];
  /** Row-major, `fish.length` squared. */
  readonly coancestry: ArrayLike<number>;
  readonly onOpenPair?: (aId: string, bId: string) => void;
  readonly onSelectPair?: (aId: string, bId: string) => void;
  /** Why a pair cannot be opened, said in place of the button; `null` for one that can. */
  readonly whyNotOpen?: (aId: string, bId: string) => string | null;
  readonly title?: string;
}

/** Coancestry of every pair: the larger and darker the square, the closer the pair. */
export function RelationshipMap(props: RelationshipMapProps) {
  const { fish, coancestry, onOpenPair, title = 'Relationship map' } = props;
  const [figure, width] = useWidth<HTMLElement>(640);
  const measures = measureMap(fish, coancestry, width);
  const chosen = useChosenCell(props, measures);
  return (
    <figure className="lw-drawing" ref={figure}>
      <figcaption>{title}</figcaption>
      <MapCanvas title={title} {...props} measures={measures} chosen={chosen} />
      <ChosenPair
        words={pairWords(fish, coancestry, chosen.cell)}
        cell={chosen.cell}
        refused={chosen.refusal(chosen.cell)}
        onOpen={onOpenPair === undefined ? null : () => chosen.open(chosen.cell)}
      />
      <MapLegend most={measures.most} />
      <TableAlternative
        summary={tableSummary(fish.length)}
        caption={title}
        columns={[{ heading: 'Pair' }, { heading: 'Coancestry', numeric: true }]}
        rows={() => extremePairs(fish, coancestry)}
      />
    </figure>
  );
}

type Chosen = ReturnType<typeof useChosenCell>;

/** The pair under the keyboard: choosing another, bringing it into view, and opening it unless that is refused. */
function useChosenCell(props: RelationshipMapProps, measures: MapMeasures) {
  const { fish, onOpenPair, onSelectPair, whyNotOpen } = props;
  const scroll = useRef<HTMLDivElement>(null);
  const [cell, setCell] = useState<Cell>({ row: Math.min(1, fish.length - 1), column: 0 });
  const pairAt = (at: Cell) => pairOf(fish, at);
  const choose = (next: Cell): void => {
    setCell(next);
    const pair = pairAt(next);
    if (pair !== null) onSelectPair?.(pair.a.id, pair.b.id);
  };
  const refusal = (at: Cell): string | null => {
    const pair = pairAt(at);
    return pair === null ? null : (whyNotOpen?.(pair.a.id, pair.b.id) ?? null);
  };
  const open = (at: Cell): void => {
    const pair = pairAt(at);
    if (pair === null || pair.a.id === pair.b.id || refusal(at) !== null) return;
    onOpenPair?.(pair.a.id, pair.b.id);
  };
  const onKeyDown = (event: React.KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const next = cellAfterKey(event.key, cell, fish.length);
    if (next === null && event.key !== 'Enter') return;
    event.preventDefault();
    if (next === null) return open(cell);
    choose(next);
    if (scroll.current !== null) reveal(scroll.current, measures, next);
  };
  return { cell, scroll, choose, refusal, open, onKeyDown };
}

interface MapCanvasProps extends RelationshipMapProps {
  title: string;
  measures: MapMeasures;
  chosen: Chosen;
}

function MapCanvas({ title, fish, coancestry, measures, chosen }: MapCanvasProps) {
  const { cell, scroll, choose, open, onKeyDown } = chosen;
  const canvas = useRef<HTMLCanvasElement>(null);
  useRepaint(canvas, () => {
    if (canvas.current !== null) paintMap(canvas.current, fish, coancestry, measures, cell);
  });
  const onClick = (event: React.MouseEvent): void => {
    const box = event.currentTarget.getBoundingClientRect();
    const at = cellAt(measures, fish.length, event.clientX - box.left, event.clientY - box.top);
    if (at === null) return;
    choose(at);
    if (at.row === cell.row && at.column === cell.column) open(at);
  };
  return (
    <div
      ref={scroll}
      className={styles['scroll']}
      tabIndex={0}
      role="application"
      aria-roledescription="relationship map"
      aria-label={`${title}: ${fish.length} fish by ${fish.length}. Arrow keys move from pair to pair, Enter opens the pair.`}
      onKeyDown={onKeyDown}
    >
      <canvas
        ref={canvas}
        aria-hidden="true"
        style={{ width: measures.width, height: measures.height }}
        onClick={onClick}
      />
    </div>
  );
}

interface ChosenPairProps {
  words: string;
  cell: Cell;
  refused: string | null;
  onOpen: (() => void) | null;
}

function ChosenPair({ words, cell, refused, onOpen }: ChosenPairProps) {
  const isPair = cell.row !== cell.column;
  return (
    <div className={selectedStyles['selected']}>
      <div aria-live="polite">{words}</div>
      {onOpen !== null && isPair && refused === null && (
        <button type="button" onClick={onOpen}>
          Open pair
        </button>
      )}
      {isPair && refused !== null && <p className="lw-quiet-text">{refused}</p>}
    </div>
  );
}

/** Paints after every render, and again when the colours of the page change. */
function useRepaint(ref: React.RefObject<HTMLCanvasElement | null>, paint: () => void): void {
  const latest = useRef(paint);
  useEffect(() => {
    latest.current = paint;
    paint();
  });
  useEffect(() => {
    if (ref.current === null) return undefined;
    const again = (): void => latest.current();
    const dark = window.matchMedia('(prefers-color-scheme: dark)');
    dark.addEventListener('change', again);
    const observer = new MutationObserver(again);
    observer.observe(document.documentElement, { attributes: true });
    return () => {
      dark.removeEventListener('change', again);
      observer.disconnect();
    };
  }, [ref]);
}

function MapLegend({ most }: { readonly most: number }) {
  const levels = [0.1, 0.25, 0.5, 0.75, 1];
  return (
    <ul className={chartsStyles['legend']} aria-label="Size and shade of the squares">
      {levels.map((level) => {
        const side = 18 * Math.sqrt(level);
        return (
          <li key={level}>
            <svg width="20" height="20" aria-hidden="true">
              <rect
                x={10 - side / 2}
                y={10 - side / 2}
                width={side}
                height={side}
                fill={legendShade(level)}
              />
            </svg>
            {coefficient(most * level)}
          </li>
        );
      })}
      <li>dot: 0</li>
    </ul>
  );
}

/** The same three colours as the map: pale, accent, ink. */
function legendShade(level: number): string {
  return level <= 0.5
    ? `color-mix(in lab, var(--d-accent) ${50 + 100 * level}%, var(--d-paper))`
    : `color-mix(in lab, var(--d-ink) ${200 * (level - 0.5)}%, var(--d-accent))`;
}
