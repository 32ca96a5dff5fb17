import type { ReactNode } from 'react';
import { useMayChange } from '../session/may.js';

export interface Column<Row> {
  key: string;
  title: ReactNode;
  cell: (row: Row) => ReactNode;
  /** Numbers stand right-aligned in tabular figures. */
  number?: boolean;
  /** Kept on one line (dates, times). */
  unbroken?: boolean;
  /** Holds what changes a record: left out for whoever may not. */
  changes?: boolean;
  /** Left out on a phone. */
  wideOnly?: boolean;
}

interface DataTableProps<Row> {
  caption: string;
  columns: readonly Column<Row>[];
  rows: readonly Row[];
  rowKey: (row: Row) => string;
  rowClass?: (row: Row) => string | undefined;
  /** Keeps the table low: it scrolls by itself. */
  low?: boolean;
}

/** A short plain table (long lists use the virtual list). */
export function DataTable<Row>(props: DataTableProps<Row>) {
  const { caption, rows, rowKey, rowClass, low = false } = props;
  const mayChange = useMayChange();
  const columns = props.columns.filter(({ changes = false }) => mayChange || !changes);
  const classOf = (column: Column<Row>) =>
    [
      column.number === true ? 'lw-number' : '',
      column.unbroken === true ? 'lw-unbroken' : '',
      column.wideOnly === true ? 'lw-wide' : '',
    ]
      .filter(Boolean)
      .join(' ') || undefined;
  return (
    <div
      className={low ? 'lw-table-frame lw-table-low' : 'lw-table-frame'}
      tabIndex={0}
      role="group"
      aria-label={caption}
    >
      <table className="lw-table">
        <caption className="lw-heard">{caption}</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column.key} scope="col" className={classOf(column)}>
                {column.title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={rowKey(row)} className={rowClass?.(row)}>
              {columns.map((column) => (
                <td key={column.key} className={classOf(column)}>
                  {column.cell(row)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
