import { useCallback, useEffect, useRef, useState } from 'react';
import { coefficient, sexName } from '../figures.js';
import { TableAlternative } from '../table-alternative.js';
import { useWidth } from '../use-width.js';
import { cellAt, measureMap, paintMap, type MapMeasures } from './relationship-map-paint.js';
import styles from './relationship-map.module.css';
import selectedStyles from '../selected.module.css';
import chartsStyles from './charts.module.css';
import type { MapFish } from './map-fish.js';

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

interface Cell {
  readonly row: number;
  readonly column: number;
}

const KEYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
  PageUp: [-10, 0],
  PageDown: [10, 0],
};

/** Coancestry of every pair: the larger and darker the square, the closer the pair. */
export function RelationshipMap(props: RelationshipMapProps) {
  const { fish, coancestry, onOpenPair, onSelectPair, whyNotOpen } = props;
  const title = props.title ?? 'Relationship map';
  const [figureRef, width] = useWidth<HTMLElement>(640);
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const scrollRef = useRef<HTMLDivElement>(null);
  const [cell, setCell] = useState<Cell>({ row: Math.min(1, fish.length - 1), column: 0 });
  const measures: MapMeasures = measureMap(fish, coancestry, width);

  useRepaint(canvasRef, () => {
    if (canvasRef.current !== null) paintMap(canvasRef.current, fish, coancestry, measures, cell);
  });

  const choose = useCallback(
    (next: Cell): void => {
      setCell(next);
      const a = fish[next.row];
      const b = fish[next.column];
      if (a !== undefined && b !== undefined) onSelectPair?.(a.id, b.id);
    },
    [fish, onSelectPair],
  );

  const reveal = (next: Cell): void => {
    const box = scrollRef.current;
    if (box === null) return;
    const x = measures.left + next.column * measures.cell;
    const y = measures.top + next.row * measures.cell;
    const margin = 3 * measures.cell;
    if (x < box.scrollLeft + margin) box.scrollLeft = x - margin;
    if (x > box.scrollLeft + box.clientWidth - margin)
      box.scrollLeft = x - box.clientWidth + margin;
    if (y < box.scrollTop + margin) box.scrollTop = y - margin;
    if (y > box.scrollTop + box.clientHeight - margin)
      box.scrollTop = y - box.clientHeight + margin;
  };

  const refusal = (at: Cell): string | null => {
    const a = fish[at.row];
    const b = fish[at.column];
    return a === undefined || b === undefined ? null : (whyNotOpen?.(a.id, b.id) ?? null);
  };
  const openPair = (at: Cell): void => {
    const a = fish[at.row];
    const b = fish[at.column];
    if (a === undefined || b === undefined || a.id === b.id || refusal(at) !== null) return;
    onOpenPair?.(a.id, b.id);
  };

  const onKeyDown = (event: React.KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const step = KEYS[event.key];
    const last = fish.length - 1;
    if (step !== undefined) {
      const next = {
        row: Math.min(last, Math.max(0, cell.row + step[0])),
        column: Math.min(last, Math.max(0, cell.column + step[1])),
      };
      choose(next);
      reveal(next);
    } else if (event.key === 'Home' || event.key === 'End') {
      const next = { row: cell.row, column: event.key === 'Home' ? 0 : last };
      choose(next);
      reveal(next);
    } else if (event.key === 'Enter') openPair(cell);
    else return;
    event.preventDefault();
  };

  const words = pairWords(fish, coancestry, cell);
  const refused = refusal(cell);
  return (
    <figure className="lw-drawing" ref={figureRef}>
      <figcaption>{title}</figcaption>
      <div
        ref={scrollRef}
        className={styles['scroll']}
        tabIndex={0}
        role="application"
        aria-roledescription="relationship map"
        aria-label={`${title}: ${fish.length} fish by ${fish.length}. Arrow keys move from pair to pair, Enter opens the pair.`}
        onKeyDown={onKeyDown}
      >
        <canvas
          ref={canvasRef}
          aria-hidden="true"
          style={{ width: measures.width, height: measures.height }}
          onClick={(event) => {
            const box = event.currentTarget.getBoundingClientRect();
            const at = cellAt(
              measures,
              fish.length,
              event.clientX - box.left,
              event.clientY - box.top,
            );
            if (at === null) return;
            choose(at);
            if (at.row === cell.row && at.column === cell.column) openPair(at);
          }}
        />
      </div>
      <ChosenPair
        words={words}
        onOpenPair={onOpenPair}
        cell={cell}
        refused={refused}
        openPair={openPair}
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

function ChosenPair({
  words,
  onOpenPair,
  cell,
  refused,
  openPair,
}: {
  words: string;
  onOpenPair: ((aId: string, bId: string) => void) | undefined;
  cell: Cell;
  refused: string | null;
  openPair: (at: Cell) => void;
}) {
  return (
    <div className={selectedStyles['selected']}>
      <div aria-live="polite">{words}</div>
      {onOpenPair !== undefined && cell.row !== cell.column && refused === null && (
        <button type="button" onClick={() => openPair(cell)}>
          Open pair
        </button>
      )}
      {cell.row !== cell.column && refused !== null && <p className="lw-quiet-text">{refused}</p>}
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

function pairWords(fish: readonly MapFish[], coancestry: ArrayLike<number>, cell: Cell): string {
  const a = fish[cell.row];
  const b = fish[cell.column];
  if (a === undefined || b === undefined) return 'No fish to compare.';
  const value = coancestry[cell.row * fish.length + cell.column] ?? 0;
  if (a.id === b.id) return `${a.tag} with itself: coancestry ${coefficient(value)}`;
  const least = atLeast(a, b) ? ' or more (fish of unknown origin are behind it)' : '';
  return `${a.tag} (${sexName(a.sex)}) and ${b.tag} (${sexName(b.sex)}): coancestry ${coefficient(value)}${least}, the F that their brood would have`;
}

const atLeast = (a: MapFish, b: MapFish): boolean =>
  a.originKnown === false || b.originKnown === false;

/** Pairs in the table: all, or so many of either end. */
const LISTED_AT_ONCE = 60;
const LISTED_OF_EITHER_END = 30;

function tableSummary(fish: number): string {
  const pairs = (fish * (fish - 1)) / 2;
  return pairs <= LISTED_AT_ONCE
    ? `All ${pairs} pairs, as a table`
    : `The ${LISTED_OF_EITHER_END} closest and the ${LISTED_OF_EITHER_END} most distant of ${pairs.toLocaleString('en')} pairs, as a table`;
}

function extremePairs(fish: readonly MapFish[], coancestry: ArrayLike<number>) {
  const pairs: { readonly a: number; readonly b: number; readonly value: number }[] = [];
  for (let a = 0; a < fish.length; a++) {
    for (let b = 0; b < a; b++) pairs.push({ a, b, value: coancestry[a * fish.length + b] ?? 0 });
  }
  pairs.sort((p, q) => q.value - p.value || p.a - q.a || p.b - q.b);
  const end = LISTED_OF_EITHER_END;
  const shown =
    pairs.length <= LISTED_AT_ONCE ? pairs : [...pairs.slice(0, end), ...pairs.slice(-end)];
  return shown.map((pair) => [
    `${fish[pair.a]!.tag} and ${fish[pair.b]!.tag}`,
    `${atLeast(fish[pair.a]!, fish[pair.b]!) ? '≥ ' : ''}${coefficient(pair.value)}`,
  ]);
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
