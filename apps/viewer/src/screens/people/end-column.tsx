import { Button } from '@mantine/core';

interface EndColumn<Row> {
  /** Words on each button. */
  word: string;
  /** What is ended, for those who hear the page. */
  label: (row: Row) => string;
  saving: boolean;
  onEnd: (row: Row) => void;
  /** Left out: every row can be ended. */
  canEnd?: (row: Row) => boolean;
}

/** The last column of a list of ways in: each is ended on its own. */
export const endColumn = <Row,>({ word, label, saving, onEnd, canEnd }: EndColumn<Row>) => ({
  key: 'end',
  title: <span className="lw-heard">What to do</span>,
  cell: (row: Row) =>
    (canEnd?.(row) ?? true) && (
      <Button size="xs" loading={saving} aria-label={label(row)} onClick={() => onEnd(row)}>
        {word}
      </Button>
    ),
});
