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

/** How large the letters are that the reader asked the browser for, against the usual ones. */
const lettersBy = (): number =>
  parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;

/** Heights of rows with usual letters, px. */
const WIDE_ROW = 33;
const PHONE_ROW = 60;
const CHOOSING_ROW = 46;
const BOX = '44px';

type Listed<Row> = Pick<
  VirtualListProps<Row, string>,
  'rows' | 'hasNextPage' | 'onNeedMore' | 'phone'
> & { choosing: boolean };

/** The rows in view of a frame, all of one height; asks for the next page before the end is reached. */
function useRowsInView<Row>({ rows, hasNextPage, onNeedMore, phone, choosing }: Listed<Row>) {
  const frame = useRef<HTMLDivElement>(null);
  const height = Math.ceil((phone ? PHONE_ROW : choosing ? CHOOSING_ROW : WIDE_ROW) * lettersBy());
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
  return { frame, height, items, whole: virtual.getTotalSize() };
}

/** A long list: only the rows in view are drawn, and the next page is asked for before the end is reached. */
export function VirtualList<Row, Field extends string>(props: VirtualListProps<Row, Field>) {
  const { rows, rowKey, phone, choice } = props;
  const choosing = choice !== undefined;
  const { frame, height, items, whole } = useRowsInView({ ...props, choosing });
  const template = phone ? 'minmax(0, 1fr)' : props.template;
  const columns = { '--lw-list-columns': choosing ? `${BOX} ${template}` : template };
  return (
    <div
      ref={frame}
      className={styles['list']}
      style={columns as React.CSSProperties}
      tabIndex={0}
      role="table"
      aria-label={props.label}
      aria-rowcount={(props.totalCount ?? rows.length) + 1}
    >
      {!phone && <ListHead {...props} choosing={choosing} />}
      <div className={styles['body']} role="rowgroup" style={{ height: whole }}>
        {items.map((item) => {
          const row = rows[item.index];
          if (row === undefined) return null;
          return <ListRow key={rowKey(row)} item={item} height={height} row={row} props={props} />;
        })}
      </div>
      {props.foot !== undefined && <div className={styles['foot']}>{props.foot}</div>}
    </div>
  );
}

interface ListRowProps<Row, Field extends string> {
  item: VirtualItem;
  height: number;
  row: Row;
  props: VirtualListProps<Row, Field>;
}

function ListRow<Row, Field extends string>(given: ListRowProps<Row, Field>) {
  const { item, height, row, props } = given;
  return (
    <div
      className={styles['row']}
      role="row"
      aria-rowindex={item.index + 2}
      style={{ height, transform: `translateY(${item.start}px)` }}
    >
      {props.choice !== undefined && (
        <div role="cell">
          <ChooseRow row={row} choice={props.choice} />
        </div>
      )}
      {props.phone ? (
        <div role="cell">{props.compact(row)}</div>
      ) : (
        props.columns.map(({ key, number, cell }) => (
          <div key={key} role="cell" className={number === true ? 'lw-number' : undefined}>
            {cell(row)}
          </div>
        ))
      )}
    </div>
  );
}

type ListHeadProps<Row, Field extends string> = Pick<
  VirtualListProps<Row, Field>,
  'columns' | 'sort' | 'onSort'
> & { choosing: boolean };

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
        {columns.map((column) => (
          <ColumnHead key={column.key} column={column} sort={sort} onSort={onSort} />
        ))}
      </div>
    </div>
  );
}

interface ColumnHeadProps<Row, Field extends string> {
  column: ListColumn<Row, Field>;
  sort: ListSort<Field>;
  onSort: (sort: ListSort<Field>) => void;
}

/** A name to sort by: once more for the other way round. */
function ColumnHead<Row, Field extends string>(props: ColumnHeadProps<Row, Field>) {
  const { column, sort, onSort } = props;
  const field = column.sort;
  const active = field !== undefined && field === sort.field;
  const descending = active && sort.direction === 'DESC';
  const next = active && !descending ? 'DESC' : 'ASC';
  return (
    <div
      role="columnheader"
      className={column.number === true ? 'lw-number' : undefined}
      aria-sort={!active ? undefined : descending ? 'descending' : 'ascending'}
    >
      {field === undefined ? (
        column.title
      ) : (
        <button type="button" onClick={() => onSort({ field, direction: next })}>
          {column.title}
          {active && <span aria-hidden="true">{descending ? ' ↓' : ' ↑'}</span>}
        </button>
      )}
    </div>
  );
}
