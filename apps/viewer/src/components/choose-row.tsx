import styles from './choose-row.module.css';

/** How the rows of a list are chosen, one by one or a range at once. */
export interface RowChoice<Row> {
  isChosen: (row: Row) => boolean;
  canChoose: (row: Row) => boolean;
  /** "Choose T24-01". */
  label: (row: Row) => string;
  /** `toHere`: also all rows between the one chosen last and this one. */
  onChoose: (row: Row, chosen: boolean, toHere: boolean) => void;
}

interface ChooseRowProps<Row> {
  row: Row;
  choice: RowChoice<Row>;
}

/** The box before a row: a click, a tap or Space chooses it; with Shift all rows from the last one on. */
export function ChooseRow<Row>({ row, choice }: ChooseRowProps<Row>) {
  return (
    <label className={styles['target']}>
      <input
        type="checkbox"
        aria-label={choice.label(row)}
        checked={choice.isChosen(row)}
        disabled={!choice.canChoose(row)}
        onChange={(event) => {
          const { nativeEvent } = event;
          const toHere = nativeEvent instanceof MouseEvent && nativeEvent.shiftKey;
          choice.onChoose(row, event.currentTarget.checked, toHere);
        }}
      />
    </label>
  );
}
