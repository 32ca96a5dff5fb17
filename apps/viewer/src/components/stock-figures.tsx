import type { StockFigure } from '../api/line-health.js';
import type { FigureWords } from '../wording/line-health-words.js';
import { percent, plainNumber } from '../wording/figures.js';
import { Facts } from './facts.js';
import { Why } from './why.js';
import styles from './stock-figures.module.css';

export interface ShownFigure {
  words: FigureWords;
  figure: StockFigure;
  /** How the value is written; with two decimals when absent. */
  write?: (value: number) => string;
  /** Said beside the value, for example its range. */
  beside?: string;
  more?: React.ReactNode;
}

/** What went into a figure that is a part of a whole; the others are counts, days or sizes. */
const sharesOfOne: ReadonlySet<string> = new Set([
  'largest part',
  'explained',
  'mean part of their genes left',
]);

function inputText({ name, value }: { name: string; value: number }): string {
  if (sharesOfOne.has(name)) return percent(value, 1);
  return Number.isInteger(value)
    ? value.toLocaleString('en')
    : plainNumber(value, inputDecimals(name, value));
}

/** Below one, or a rate, one decimal would leave nothing of it. */
const inputDecimals = (name: string, value: number): number =>
  Math.abs(value) < 1 || name.includes('rate') ? 4 : 1;

/** Figures by name, each with what it means, how it is made, what went in and where it was published. */
export function StockFigures({ figures }: { figures: readonly ShownFigure[] }) {
  return (
    <div className={styles['figures']}>
      <Facts
        facts={figures.map((shown) => ({
          name: shown.words.name,
          value: <FigureWhy {...shown} />,
        }))}
      />
    </div>
  );
}

function FigureWhy({
  words,
  figure,
  write = (given) => given.toFixed(2),
  beside,
  more,
}: ShownFigure) {
  const { value, whyNone, standardError, inputs } = figure;
  const figureText =
    value === null
      ? 'none'
      : standardError === null
        ? write(value)
        : `${write(value)} ± ${write(standardError)}`;
  return (
    <>
      <Why about={words.name} figure={figureText}>
        <p>{words.meaning}</p>
        <Reckoning words={words} inputs={inputs} standardError={standardError} write={write} />
        {more}
      </Why>
      {(whyNone ?? beside) !== undefined && <div className="lw-quiet">{whyNone ?? beside}</div>}
    </>
  );
}

export const asPercent = (value: number): string => percent(value);

function Reckoning({
  words,
  inputs,
  standardError,
  write,
}: {
  words: FigureWords;
  inputs: { name: string; value: number }[];
  standardError: number | null;
  write: (value: number) => string;
}) {
  return (
    <dl className={styles['reckoning']}>
      <dt>How</dt>
      <dd>{words.formula}</dd>
      {inputs.length > 0 && (
        <>
          <dt>From</dt>
          <dd>{inputs.map((input) => `${input.name} ${inputText(input)}`).join('; ')}</dd>
        </>
      )}
      <dt>Error</dt>
      <dd>
        {standardError === null
          ? 'None: it follows from the recorded pedigree.'
          : `Standard error ${write(standardError)}. ${words.error ?? ''}`}
      </dd>
      <dt>Source</dt>
      <dd>{words.source}</dd>
    </dl>
  );
}
