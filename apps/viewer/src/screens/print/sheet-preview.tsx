import { type LabelPlace, type LabelSheet, labelPlaces, pageSizes } from '@linewright/care';
import styles from './print.module.css';

interface SheetPreviewProps {
  sheet: LabelSheet;
  /** Words on each label, in order. */
  labels: readonly string[];
  /** Places left free on the first sheet. */
  skip: number;
  onStart: (place: number) => void;
}

/** The first sheet, with the places that will be printed. A tap on a place starts there. */
export function SheetPreview({ sheet, labels, skip, onStart }: SheetPreviewProps) {
  const page = pageSizes[sheet.page];
  const perPage = sheet.rows * sheet.columns;
  const places = labelPlaces(sheet, perPage);
  const sheets = Math.max(1, Math.ceil((skip + labels.length) / perPage));
  const size = Math.min(sheet.labelHeight * 0.3, 7);
  return (
    <>
      <svg
        className={styles['sheet-preview']}
        viewBox={`-1 -1 ${page.width + 2} ${page.height + 2}`}
        role="img"
        aria-label={`First of ${sheets} sheets: labels in places ${skip + 1} to ${Math.min(perPage, skip + labels.length)} of ${perPage}.`}
      >
        <rect className={styles['sheet-page']} width={page.width} height={page.height} />
        {places.map((place, i) => {
          const words = i >= skip ? labels[i - skip] : undefined;
          return (
            <PlaceOnSheet key={i} onStart={onStart} i={i} words={words} place={place} size={size} />
          );
        })}
      </svg>
      <p className="lw-quiet">
        {labels.length} on {sheets === 1 ? '1 sheet' : `${sheets} sheets`}. Tap a place to start
        there. Print at actual size, without scaling to fit; many printers leave about 4 mm blank at
        the edge of the page.
      </p>
    </>
  );
}

interface PlaceOnSheetProps {
  onStart: (place: number) => void;
  i: number;
  words: string | undefined;
  place: LabelPlace;
  size: number;
}

function PlaceOnSheet({ onStart, i, words, place, size }: PlaceOnSheetProps) {
  return (
    <g onClick={() => onStart(i + 1)} className={styles['place']}>
      <rect
        className={words === undefined ? styles['sheet-place'] : styles['sheet-filled']}
        pointerEvents="all"
        x={place.x}
        y={place.y}
        width={place.width}
        height={place.height}
      />
      {words !== undefined && (
        <text
          x={place.x + 3}
          y={place.y + 3 + size}
          fontSize={size}
          {...(words.length * size * 0.58 > place.width - 6
            ? { textLength: place.width - 6, lengthAdjust: 'spacingAndGlyphs' as const }
            : {})}
        >
          {words}
        </text>
      )}
    </g>
  );
}
