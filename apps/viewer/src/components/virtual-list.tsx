import { useVirtualizer, type VirtualItem } from '@tanstack/react-virtual';
import { useEffect, useRef, type ReactNode } from 'react';
import { ChooseRow, type RowChoice } from './choose-row.js';
import styles from './virtual-list.module.css';

export interface ListColumn<Row, Field extends string> {
  key: string;
  title: string;
  /** Sort field of the API; without one the column cannot be sorted by. */
  sort?: Field;
  number?: boolean;
  cell: (row: Row) => ReactNode;
}

export interface ListSort<Field extends string> {
  field: Field;
  direction: 'ASC' | 'DESC';
}

interface VirtualListProps<Row, Field extends string> {
  label: string;
  columns: readonly ListColumn<Row, Field>[];
  /** grid-template-columns of the wide layout. */
  template: string;
  rows: readonly Row[];
  rowKey: (row: Row) => string;
  totalCount: number | null;
  hasNextPage: boolean;
  onNeedMore: () => void;
  sort: ListSort<Field>;
  onSort: (sort: ListSort<Field>) => void;
  /** On a phone each row is two lines drawn by this instead of the columns. */
  compact: (row: Row) => ReactNode;
  phone: boolean;
  foot?: ReactNode;
  /** Given while rows are being chosen: each has a box to choose it by, as high as a finger. */
  choice?: RowChoice<Row> | undefined;
}

const WIDE_ROW = 33;
const PHONE_ROW = 60;
const CHOOSING_ROW = 46;
const BOX = '44px';

/** A long list: only the rows in view are drawn, and the next page is asked for before the end is reached. */
export function VirtualList<Row, Field extends string>(props: VirtualListProps<Row, Field>) {
  const { rows, rowKey, hasNextPage, onNeedMore, columns, phone, choice } = props;
  const frame = useRef<HTMLDivElement>(null);
  const height = phone ? PHONE_ROW : choice === undefined ? WIDE_ROW : CHOOSING_ROW;
  const template = phone ? 'minmax(0, 1fr)' : props.template;
  const virtual = useVirtualizer({
    count: rows.length,
    getScrollElement: () => frame.current,
    estimateSize: () => height,
    overscan: 12,
  });
  const items = virtual.getVirtualItems();
  const last = items.at(-1)?.index ?? 0;
  useEffect(() => virtual.measure(), [virtual, height]);
  useEffect(() => {
    if (hasNextPage && last >= rows.length - 20) onNeedMore();
  }, [hasNextPage, last, rows.length, onNeedMore]);
  return (
    <div
      ref={frame}
      className={styles['list']}
      style={
        {
          '--lw-list-columns': choice === undefined ? template : `${BOX} ${template}`,
        } as React.CSSProperties
      }
      tabIndex={0}
      role="table"
      aria-label={props.label}
      aria-rowcount={(props.totalCount ?? rows.length) + 1}
    >
      {!phone && (
        <ListHead
          columns={columns}
          sort={props.sort}
          onSort={props.onSort}
          choosing={choice !== undefined}
        />
      )}
      <div className={styles['body']} role="rowgroup" style={{ height: virtual.getTotalSize() }}>
        {items.map((item) => {
          const row = rows[item.index];
          if (row === undefined) return null;
          return (
            <ListRow
              key={rowKey(row)}
              item={item}
              height={height}
              choice={choice}
              row={row}
              phone={phone}
              props={props}
              columns={columns}
            />
          );
        })}
      </div>
      {props.foot !== undefined && <div className={styles['foot']}>{props.foot}</div>}
    </div>
  );
}

interface ListHeadProps<Row, Field extends string> {
  columns: readonly ListColumn<Row, Field>[];
  sort: ListSort<Field>;
  onSort: (sort: ListSort<Field>) => void;
  choosing: boolean;
}

function ListRow<Row, Field extends string>({
  item,
  height,
  choice,
  row,
  phone,
  props,
  columns,
}: {
  item: VirtualItem;
  height: number;
  choice: RowChoice<Row> | undefined;
  row: Row;
  phone: boolean;
  props: VirtualListProps<Row, Field>;
  columns: readonly ListColumn<Row, Field>[];
}) {
  return (
    <div
      className={styles['row']}
      role="row"
      aria-rowindex={item.index + 2}
      style={{ height, transform: `translateY(${item.start}px)` }}
    >
      {choice !== undefined && (
        <div role="cell">
          <ChooseRow row={row} choice={choice} />
        </div>
      )}
      {phone ? (
        <div role="cell">{props.compact(row)}</div>
      ) : (
        columns.map((column) => (
          <div
            key={column.key}
            role="cell"
            className={column.number === true ? 'lw-number' : undefined}
          >
            {column.cell(row)}
          </div>
        ))
      )}
    </div>
  );
}

function ListHead<Row, Field extends string>(props: ListHeadProps<Row, Field>) {
  const { columns, sort, onSort, choosing } = props;
  return (
    <div role="rowgroup">
      <div className={styles['head']} role="row" aria-rowindex={1}>
        {choosing && (
          <div role="columnheader">
            <span className="lw-heard">Chosen</span>
          </div>
        )}
        {columns.map((column) => {
          const field = column.sort;
          const active = field !== undefined && field === sort.field;
          const descending = active && sort.direction === 'DESC';
          return (
            <div
              key={column.key}
              role="columnheader"
              className={column.number === true ? 'lw-number' : undefined}
              aria-sort={!active ? undefined : descending ? 'descending' : 'ascending'}
            >
              {field === undefined ? (
                column.title
              ) : (
                <button
                  type="button"
                  onClick={() =>
                    onSort({ field, direction: active && !descending ? 'DESC' : 'ASC' })
                  }
                >
                  {column.title}
                  {active && <span aria-hidden="true">{descending ? ' ↓' : ' ↑'}</span>}
                </button>
              )}
            </div>
          );
        })}
      </div>
    </div>
  );
}
