import { useState } from 'react';
import { ChooseRow, type RowChoice } from '../components/choose-row.js';
import { CountUnsorted } from '../components/count-unsorted.js';
import { DataTable, type Column } from '../components/data-table.js';
import { MorePages } from '../components/more-pages.js';
import { VirtualList, type ListSort } from '../components/virtual-list.js';
import { emptyBox, longWords, nothing } from './invented-words.js';
import type { Parts } from './parts.js';

interface Row {
  readonly tag: string;
  readonly score: number;
}

const rows: readonly Row[] = Array.from({ length: 200 }, (_, k) => ({
  tag: `T24-07-${String(k + 1).padStart(3, '0')}`,
  score: (k * 37) % 100,
}));
const columns: readonly Column<Row>[] = [
  { key: 'tag', title: 'Tag', cell: (row) => row.tag, unbroken: true },
  { key: 'note', title: 'Note', cell: () => longWords, wideOnly: true },
  { key: 'score', title: 'Score', number: true, cell: (row) => row.score },
];

function Choosing({ phone }: { phone: boolean }) {
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set(['T24-07-002']));
  const choice: RowChoice<Row> = {
    isChosen: ({ tag }) => chosen.has(tag),
    canChoose: ({ tag }) => tag !== 'T24-07-003',
    label: ({ tag }) => `Choose ${tag}`,
    onChoose: ({ tag }, wanted) =>
      setChosen(new Set([...chosen].filter((one) => one !== tag).concat(wanted ? [tag] : []))),
  };
  return <List phone={phone} choice={choice} />;
}

function List({ phone, choice }: { phone: boolean; choice?: RowChoice<Row> }) {
  const [sort, setSort] = useState<ListSort<'TAG' | 'SCORE'>>({ field: 'TAG', direction: 'ASC' });
  return (
    <div style={{ display: 'flex', height: 260, margin: '0 24px' }}>
      <VirtualList
        label={`Fish${phone ? ' on a phone' : ''}${choice === undefined ? '' : ', being chosen'}`}
        columns={[
          { key: 'tag', title: 'Tag', sort: 'TAG', cell: (row) => row.tag },
          { key: 'score', title: 'Score', sort: 'SCORE', number: true, cell: (row) => row.score },
        ]}
        template="minmax(0, 1fr) 80px"
        rows={rows}
        rowKey={(row) => row.tag}
        totalCount={rows.length}
        hasNextPage={false}
        onNeedMore={nothing}
        sort={sort}
        onSort={setSort}
        compact={(row) => (
          <>
            {row.tag}
            <span className="lw-row-second">score {row.score}</span>
          </>
        )}
        phone={phone}
        foot={`${rows.length} fish`}
        choice={choice}
      />
    </div>
  );
}

const onlyOne = (chosen: boolean, free = true): RowChoice<Row> => ({
  isChosen: () => chosen,
  canChoose: () => free,
  label: ({ tag }) => `Choose ${tag}`,
  onChoose: nothing,
});

const page = (hasNextPage: boolean) => ({
  pageInfo: { hasNextPage, endCursor: hasNextPage ? 'c' : null },
  totalCount: 1240,
});

/** Tables and lists. */
export const listParts: Parts = {
  DataTable: {
    'a few rows, one chosen': () => (
      <DataTable
        caption="Scores"
        columns={columns}
        rows={rows.slice(0, 3)}
        rowKey={(row) => row.tag}
        rowClass={({ tag }) => (tag.endsWith('2') ? 'lw-chosen' : undefined)}
      />
    ),
    'low: it scrolls by itself': () => (
      <DataTable
        caption="Many scores"
        low
        columns={columns}
        rows={rows.slice(0, 30)}
        rowKey={(row) => row.tag}
      />
    ),
    empty: () => (
      <DataTable caption="No scores" columns={columns} rows={[]} rowKey={(row) => row.tag} />
    ),
  },
  VirtualList: {
    wide: () => <List phone={false} />,
    'on a phone': () => <List phone />,
    'being chosen': () => <Choosing phone={false} />,
    'being chosen on a phone': () => <Choosing phone />,
  },
  ChooseRow: {
    'free, chosen, not to be chosen': () => (
      <>
        <ChooseRow row={rows[0]!} choice={onlyOne(false)} />
        <ChooseRow row={rows[1]!} choice={onlyOne(true)} />
        <ChooseRow row={rows[2]!} choice={onlyOne(false, false)} />
      </>
    ),
  },
  MorePages: {
    'there are more': () => (
      <MorePages page={page(true)} listed={100} what="changes" next={() => <p>The next page.</p>} />
    ),
    'all in view': () =>
      emptyBox(<MorePages page={page(false)} listed={1240} what="changes" next={() => null} />),
  },
  CountUnsorted: {
    'decided fish alone': () => <CountUnsorted unsorted={false} onChange={nothing} />,
    'the unsorted too': () => <CountUnsorted unsorted onChange={nothing} />,
  },
};
