import { useState, type ReactNode } from 'react';
import styles from './table-alternative.module.css';

export interface TableColumn {
  readonly heading: string;
  readonly numeric?: boolean;
}

export interface TableAlternativeProps {
  readonly summary?: string;
  readonly caption: string;
  readonly columns: readonly TableColumn[];
  /** First cell of each row is its heading. Called only while the table is open. */
  readonly rows: () => readonly (readonly ReactNode[])[];
}

/** The same figures as the picture, as a table for screen readers and for whoever would rather read. */
export function TableAlternative({ summary, caption, columns, rows }: TableAlternativeProps) {
  const [open, setOpen] = useState(false);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{summary ?? 'As a table'}</summary>
      {open && (
        <div className={styles['table-scroll']} tabIndex={0} role="region" aria-label={caption}>
          <Table caption={caption} columns={columns} rows={rows} />
        </div>
      )}
    </details>
  );
}

interface TableProps {
  caption: string;
  columns: readonly TableColumn[];
  rows: () => readonly (readonly ReactNode[])[];
}

function Table({ caption, columns, rows }: TableProps) {
  return (
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th
              key={column.heading}
              scope="col"
              className={column.numeric ? 'lw-drawing-number' : ''}
            >
              {column.heading}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows().map((row, i) => (
          <tr key={i}>
            {row.map((cell, j) => {
              const className = columns[j]?.numeric === true ? 'lw-drawing-number' : '';
              return j === 0 ? (
                <th key={j} scope="row" className={className}>
                  {cell}
                </th>
              ) : (
                <td key={j} className={className}>
                  {cell}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
