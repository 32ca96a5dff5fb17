import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useDebouncedValue, useMediaQuery } from '@mantine/hooks';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { Link, useNavigate, useSearchParams, type SetURLSearchParams } from 'react-router';
import type { ResultOf } from '../../api/graphql.js';
import { SPAWN_LIST, type SpawnRow } from '../../api/spawns.js';
import { usePages } from '../../api/use-pages.js';
import { FishLink } from '../../components/fish-marks.js';
import { ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Loading } from '../../components/states.js';
import { VirtualList, type ListColumn, type ListSort } from '../../components/virtual-list.js';
import { useLineChoices } from '../../pickers/line-field.js';
import { plural } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { NewSpawnForm } from './new-spawn-form.js';
import type { Choice } from '../../components/fields.js';

type SortField = 'TAG' | 'SPAWNED_ON';

const pageOf = ({ spawnList }: ResultOf<typeof SPAWN_LIST>) => ({
  nodes: spawnList.edges.map((edge) => edge.node),
  hasNextPage: spawnList.pageInfo.hasNextPage,
  endCursor: spawnList.pageInfo.endCursor,
  totalCount: spawnList.totalCount,
});

function RowLink({ spawn }: { spawn: SpawnRow }) {
  return (
    <Link className="lw-row-link" to={`/spawns/${spawn.id}`}>
      {spawn.tag}
    </Link>
  );
}

const columns: readonly ListColumn<SpawnRow, SortField>[] = [
  { key: 'tag', title: 'Tag', sort: 'TAG', cell: (spawn) => <RowLink spawn={spawn} /> },
  { key: 'line', title: 'Line', cell: (spawn) => spawn.line?.code ?? '' },
  {
    key: 'on',
    title: 'Spawned',
    sort: 'SPAWNED_ON',
    number: true,
    cell: (spawn) => spawn.spawnedOn ?? '',
  },
  { key: 'sire', title: 'Sire', cell: (spawn) => <FishLink fish={spawn.sire} /> },
  { key: 'dam', title: 'Dam', cell: (spawn) => <FishLink fish={spawn.dam} /> },
  { key: 'f', title: 'F', number: true, cell: (spawn) => inbreedingText(spawn) },
  { key: 'fish', title: 'Fish', number: true, cell: (spawn) => spawn.fishCount },
  {
    key: 'purpose',
    title: 'Purpose',
    cell: (spawn) => (spawn.failed ? 'failed' : (spawn.purpose ?? '')),
  },
];

function compactRow(spawn: SpawnRow) {
  return (
    <>
      <RowLink spawn={spawn} /> {spawn.failed ? 'failed' : plural(spawn.fishCount, 'fish', 'fish')}
      <span style={{ float: 'right' }}>F {inbreedingText(spawn)}</span>
      <span className="lw-row-second">
        {spawn.spawnedOn ?? 'no date'} · {spawn.sire?.tag ?? '?'} × {spawn.dam?.tag ?? '?'}
      </span>
    </>
  );
}

export function SpawnListScreen() {
  const [search, setSearch] = useSearchParams();
  const lines = useLineChoices();
  const phone = useMediaQuery('(max-width: 719px)') ?? false;
  const navigate = useNavigate();
  const [adding, setAdding] = useState(false);
  const [text, setText] = useState('');
  const [searched] = useDebouncedValue(text, 200);
  const [sort, setSort] = useState<ListSort<SortField>>({ field: 'SPAWNED_ON', direction: 'DESC' });
  const line = search.get('line') ?? '';
  const filter = {
    ...(searched === '' ? {} : { text: searched }),
    ...(line === '' ? {} : { lineIds: [line] }),
  };
  const filtered = Object.keys(filter).length > 0;
  const pages = usePages(SPAWN_LIST, { filter, sort, first: 100 }, pageOf);
  return (
    <Screen
      title="Spawns"
      fill
      lead={pages.totalCount === null ? '' : plural(pages.totalCount, 'spawn')}
      actions={
        <Button className="lw-primary" onClick={() => setAdding(true)}>
          New spawn
        </Button>
      }
    >
      <SpawnFilter text={text} setText={setText} line={line} setSearch={setSearch} lines={lines} />
      <ProblemNotice problem={pages.problem} onRetry={pages.reload} />
      {pages.totalCount === null && pages.problem === null && <Loading what="the spawns" />}
      {pages.totalCount === 0 && !pages.loading && (
        <Empty
          action={filtered ? undefined : <Link to="/next-pairing">Choose the next pairing</Link>}
        >
          {filtered
            ? 'No spawn fits. Clear the text, or choose another line.'
            : 'No spawn yet. Choose a pairing and record its spawn from there, or record a spawn you already have.'}
        </Empty>
      )}
      {pages.nodes.length > 0 && (
        <VirtualList
          label="Spawns"
          columns={columns}
          template="minmax(90px, 1fr) 56px 92px minmax(90px, 1fr) minmax(90px, 1fr) 76px 56px minmax(90px, 1.4fr)"
          rows={pages.nodes}
          rowKey={(spawn) => spawn.id}
          totalCount={pages.totalCount}
          hasNextPage={pages.hasNextPage}
          onNeedMore={pages.next}
          sort={sort}
          onSort={setSort}
          compact={compactRow}
          phone={phone}
        />
      )}
      <Sheet title="New spawn" opened={adding} onClose={() => setAdding(false)}>
        <NewSpawnForm
          onCancel={() => setAdding(false)}
          onSaved={(id) => void navigate(`/spawns/${id}`)}
        />
      </Sheet>
    </Screen>
  );
}

function SpawnFilter({
  text,
  setText,
  line,
  setSearch,
  lines,
}: {
  text: string;
  setText: Dispatch<SetStateAction<string>>;
  line: string;
  setSearch: SetURLSearchParams;
  lines: Choice[];
}) {
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
        onChange={(event) => {
          const value = event.currentTarget.value;
          setSearch(value === '' ? {} : { line: value }, { replace: true });
        }}
        data={[{ value: '', label: 'any' }, ...lines]}
      />
    </div>
  );
}
