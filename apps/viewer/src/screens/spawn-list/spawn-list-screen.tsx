import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useDebouncedValue, useMediaQuery } from '@mantine/hooks';
import { useState } from 'react';
import { Link, useNavigate, useSearchParams } from 'react-router';
import type { ResultOf } from '../../api/graphql.js';
import { SPAWN_LIST } from '../../api/spawns.js';
import { usePages } from '../../api/use-pages.js';
import { ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Loading } from '../../components/states.js';
import { VirtualList, type ListSort } from '../../components/virtual-list.js';
import { useLineChoices, useMayRecord } from '../../pickers/line-field.js';
import { plural } from '../../wording/figures.js';
import { NewSpawnForm } from './new-spawn-form.js';
import { columns, compactRow, type SpawnSortField } from './spawn-columns.js';

const pageOf = ({ spawnList }: ResultOf<typeof SPAWN_LIST>) => ({
  nodes: spawnList.edges.map((edge) => edge.node),
  hasNextPage: spawnList.pageInfo.hasNextPage,
  endCursor: spawnList.pageInfo.endCursor,
  totalCount: spawnList.totalCount,
});

/** The spawns that fit what was typed and the line in the address. */
function useSpawnList() {
  const [search, setSearch] = useSearchParams();
  const [text, setText] = useState(search.get('text') ?? '');
  const [searched] = useDebouncedValue(text, 200);
  const [sort, setSort] = useState<ListSort<SpawnSortField>>({
    field: 'SPAWNED_ON',
    direction: 'DESC',
  });
  const line = search.get('line') ?? '';
  const filter = {
    ...(searched === '' ? {} : { text: searched }),
    ...(line === '' ? {} : { lineIds: [line] }),
  };
  const pages = usePages(SPAWN_LIST, { filter, sort, first: 100 }, pageOf);
  return {
    ...{ text, setText, line, sort, setSort, pages },
    setLine: (value: string) => setSearch(value === '' ? {} : { line: value }, { replace: true }),
    filtered: Object.keys(filter).length > 0,
  };
}

type SpawnList = ReturnType<typeof useSpawnList>;

/** All spawns, newest first. */
export function SpawnListScreen() {
  const navigate = useNavigate();
  const [adding, setAdding] = useState(false);
  const list = useSpawnList();
  const mayRecord = useMayRecord();
  const { totalCount, problem, reload } = list.pages;
  const close = () => setAdding(false);
  return (
    <Screen
      title="Spawns"
      fill
      lead={totalCount === null ? '' : plural(totalCount, 'spawn')}
      links={
        mayRecord && (
          <Button className="lw-primary" onClick={() => setAdding(true)}>
            New spawn
          </Button>
        )
      }
    >
      <SpawnFilter list={list} />
      <ProblemNotice problem={problem} onRetry={reload} />
      <SpawnRows list={list} />
      <Sheet title="New spawn" opened={adding} onClose={close}>
        <NewSpawnForm onCancel={close} onSaved={(id) => void navigate(`/spawns/${id}`)} />
      </Sheet>
    </Screen>
  );
}

interface ListProps {
  list: SpawnList;
}

function SpawnFilter({ list: { text, setText, line, setLine } }: ListProps) {
  const lines = useLineChoices();
  return (
    <div className="lw-filter" role="search" aria-label="Filter the spawns">
      <TextInput
        className="lw-filter-text"
        label="Find"
        type="search"
        placeholder="Tag, purpose or note"
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
      />
      <NativeSelect
        label="Line"
        value={line}
        onChange={(event) => setLine(event.currentTarget.value)}
        data={[{ value: '', label: 'any' }, ...lines]}
      />
    </div>
  );
}

const template =
  'minmax(5.625rem, 1fr) 3.5rem 5.75rem minmax(5.625rem, 1fr) minmax(5.625rem, 1fr) 4.75rem 3.5rem minmax(5.625rem, 1.4fr)';

/** The rows; or that they are on their way, or why there are none. */
function SpawnRows({ list: { pages, sort, setSort, filtered } }: ListProps) {
  const phone = useMediaQuery('(max-width: 719px)') ?? false;
  const { nodes, totalCount, hasNextPage } = pages;
  if (totalCount === null && pages.problem === null) return <Loading what="the spawns" />;
  if (totalCount === 0 && !pages.loading) return <NoSpawn filtered={filtered} />;
  if (nodes.length === 0) return null;
  return (
    <VirtualList
      label="Spawns"
      {...{ columns, template, totalCount, hasNextPage, sort, phone }}
      rows={nodes}
      rowKey={({ id }) => id}
      onNeedMore={pages.next}
      onSort={setSort}
      compact={compactRow}
    />
  );
}

function NoSpawn({ filtered }: { filtered: boolean }) {
  return (
    <Empty action={filtered ? undefined : <Link to="/next-pairing">Choose the next pairing</Link>}>
      {filtered
        ? 'No spawn fits. Clear the text, or choose another line.'
        : 'No spawn yet. Choose a pairing and record its spawn from there, or record a spawn you already have.'}
    </Empty>
  );
}
