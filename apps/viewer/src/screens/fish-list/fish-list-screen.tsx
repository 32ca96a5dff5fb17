import { Button, Checkbox, NativeSelect, TextInput } from '@mantine/core';
import { useDebouncedCallback, useMediaQuery } from '@mantine/hooks';
import { useState } from 'react';
import { Link, useNavigate, useSearchParams } from 'react-router';
import { FISH_LIST, type FishRow } from '../../api/fish.js';
import type { FishAct } from '../../api/fish-acts.js';
import type { ResultOf } from '../../api/graphql.js';
import { usePages } from '../../api/use-pages.js';
import { DispositionMark, FishLink, PlaceMark, SexMark } from '../../components/fish-marks.js';
import { ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Loading } from '../../components/states.js';
import { VirtualList, type ListColumn } from '../../components/virtual-list.js';
import { useLineChoices } from '../../pickers/line-field.js';
import { ageToday, plural } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { dispositionWord, optionsOf, placeWord, placeWords, sexWord } from '../../wording/words.js';
import { NewFishForm } from '../fish/new-fish-form.js';
import { ActDone } from './act-done.js';
import type { ActKind } from './act-kind.js';
import { ChangeTogetherSheet } from './change-together-sheet.js';
import { ChoiceBar } from './choice-bar.js';
import { filterFrom, isHereOnly, sortFrom, type FishSortField } from './fish-filter.js';
import { useFishChoice } from './use-choice.js';

const PAGE = 100;

const pageOf = ({ fishList }: ResultOf<typeof FISH_LIST>) => ({
  nodes: fishList.edges.map((edge) => edge.node),
  hasNextPage: fishList.pageInfo.hasNextPage,
  endCursor: fishList.pageInfo.endCursor,
  totalCount: fishList.totalCount,
});

function RowLink({ fish }: { fish: FishRow }) {
  return (
    <Link
      className={fish.withdrawn === null ? 'lw-row-link' : 'lw-row-link lw-struck'}
      to={`/fish/${fish.id}`}
    >
      {fish.tag}
    </Link>
  );
}

const columns: readonly ListColumn<FishRow, FishSortField>[] = [
  { key: 'tag', title: 'Tag', sort: 'TAG', cell: (fish) => <RowLink fish={fish} /> },
  { key: 'sex', title: 'Sex', cell: (fish) => <SexMark sex={fish.sex} /> },
  { key: 'line', title: 'Line', sort: 'LINE', cell: (fish) => fish.line?.code ?? '' },
  {
    key: 'hatched',
    title: 'Hatched',
    sort: 'HATCH_DATE',
    number: true,
    cell: (fish) => fish.hatchDate ?? '',
  },
  { key: 'age', title: 'Age', number: true, cell: (fish) => ageToday(fish.hatchDate) ?? '' },
  {
    key: 'sire',
    title: 'Sire',
    cell: (fish) => (fish.sire === null ? '' : <FishLink fish={fish.sire} />),
  },
  {
    key: 'dam',
    title: 'Dam',
    cell: (fish) => (fish.dam === null ? '' : <FishLink fish={fish.dam} />),
  },
  { key: 'f', title: 'F', number: true, cell: (fish) => inbreedingText(fish) },
  {
    key: 'disposition',
    title: 'Decision',
    sort: 'DISPOSITION',
    cell: (fish) => (
      <>
        <DispositionMark disposition={fish.disposition} /> <PlaceMark fish={fish} />
      </>
    ),
  },
];

function compactRow(fish: FishRow) {
  const parents =
    fish.sire === null && fish.dam === null
      ? null
      : `${fish.sire?.tag ?? '?'} × ${fish.dam?.tag ?? '?'}`;
  return (
    <>
      <RowLink fish={fish} /> <SexMark sex={fish.sex} />{' '}
      <span style={{ float: 'right' }}>F {inbreedingText(fish)}</span>
      <span className="lw-row-second">
        {[dispositionWord[fish.disposition], placeWords(fish), ageToday(fish.hatchDate), parents]
          .filter((part) => part !== null)
          .join(' · ')}
      </span>
    </>
  );
}

function FilterBar() {
  const [search, setSearch] = useSearchParams();
  const lines = useLineChoices();
  const [text, setText] = useState(search.get('text') ?? '');
  const [unfolded, setUnfolded] = useState(false);
  const set = (name: string, value: string) =>
    setSearch(
      (before) => {
        const next = new URLSearchParams(before);
        if (value === '') next.delete(name);
        else next.set(name, value);
        return next;
      },
      { replace: true },
    );
  const setTextSoon = useDebouncedCallback((value: string) => set('text', value), 200);
  const choice = (name: string, label: string, data: { value: string; label: string }[]) => (
    <NativeSelect
      label={label}
      value={search.get(name) ?? ''}
      onChange={(event) => set(name, event.currentTarget.value)}
      data={[{ value: '', label: 'any' }, ...data]}
    />
  );
  return (
    <div
      className={unfolded ? 'lw-filter' : 'lw-filter lw-filter-folds'}
      role="search"
      aria-label="Filter the fish"
    >
      <TextInput
        className="lw-filter-text"
        label="Find"
        placeholder="Tag, name or note"
        type="search"
        value={text}
        onChange={(event) => {
          setText(event.currentTarget.value);
          setTextSoon(event.currentTarget.value);
        }}
      />
      <Button
        className="lw-filter-more"
        aria-expanded={unfolded}
        onClick={() => setUnfolded(!unfolded)}
      >
        {unfolded ? 'Fewer filters' : 'Filters'}
      </Button>
      {choice(
        'line',
        'Line',
        lines.map((line) => ({ ...line })),
      )}
      {choice('sex', 'Sex', optionsOf(sexWord))}
      {choice('disposition', 'Decision', optionsOf(dispositionWord))}
      {choice('place', 'Swims', optionsOf(placeWord))}
      <NativeSelect
        label="Show"
        value={search.get('use') ?? ''}
        onChange={(event) => set('use', event.currentTarget.value)}
        data={[
          { value: '', label: 'here now' },
          { value: 'yes', label: 'in use' },
          { value: 'no', label: 'out of use' },
          { value: 'all', label: 'all fish' },
        ]}
      />
      <Checkbox
        label="Include withdrawn"
        checked={search.get('withdrawn') === 'yes'}
        onChange={(event) => set('withdrawn', event.currentTarget.checked ? 'yes' : '')}
        style={{ alignSelf: 'center' }}
      />
    </div>
  );
}

export function FishListScreen() {
  const [search, setSearch] = useSearchParams();
  const phone = useMediaQuery('(max-width: 719px)') ?? false;
  const navigate = useNavigate();
  const [adding, setAdding] = useState(false);
  const [act, setAct] = useState<ActKind | null>(null);
  const [done, setDone] = useState<FishAct | null>(null);
  const fish = useFishChoice();
  const filter = filterFrom(search);
  const sort = sortFrom(search);
  const pages = usePages(FISH_LIST, { filter, sort, first: PAGE }, pageOf);
  const hereOnly = isHereOnly(search);
  const filtered = Object.keys(filter).length > (hereOnly ? 2 : 0);
  const all = new URLSearchParams(search);
  all.set('use', 'all');
  const empty = pages.totalCount === 0 && !pages.loading;
  return (
    <Screen
      title="Fish"
      fill
      lead={
        <>
          {pages.totalCount === null
            ? ''
            : `${plural(pages.totalCount, 'fish', 'fish')}${hereOnly ? ' alive here' : ''}${filtered ? ', filtered' : ''}. `}
          {hereOnly && pages.totalCount !== null && (
            <Link to={`/fish?${all.toString()}`}>
              Also show fish with partners, placed, culled and dead
            </Link>
          )}
        </>
      }
      actions={
        <>
          <Link className="lw-link-button" to={`/print?${search.toString()}`}>
            Print labels
          </Link>
          <Button aria-pressed={fish.choosing} onClick={() => fish.setChoosing(!fish.choosing)}>
            Choose several
            {!fish.choosing && fish.choice.length > 0 && ` (${fish.choice.length} chosen)`}
          </Button>
          <Button className="lw-primary" onClick={() => setAdding(true)}>
            New fish
          </Button>
        </>
      }
    >
      <FilterBar />
      {done !== null && (
        <ActDone
          act={done}
          onTakenBack={(takenBack) => {
            setDone(takenBack);
            pages.refresh();
          }}
          onClose={() => setDone(null)}
        />
      )}
      <ProblemNotice problem={pages.problem} onRetry={pages.reload} />
      <ProblemNotice problem={fish.problem} />
      {pages.totalCount === null && pages.problem === null && <Loading what="the fish" />}
      {empty && (filtered ? <NoneFit /> : <NoFishYet onAdd={() => setAdding(true)} />)}
      {pages.nodes.length > 0 && (
        <VirtualList
          label="Fish"
          columns={columns}
          template="minmax(110px, 1.3fr) 96px 56px 92px 72px minmax(90px, 1fr) minmax(90px, 1fr) 76px minmax(92px, 1fr)"
          rows={pages.nodes}
          rowKey={(fish) => fish.id}
          totalCount={pages.totalCount}
          hasNextPage={pages.hasNextPage}
          onNeedMore={pages.next}
          sort={sort}
          onSort={(next) =>
            setSearch(
              (before) => {
                const params = new URLSearchParams(before);
                params.set('sort', next.field);
                params.set('order', next.direction === 'DESC' ? 'down' : 'up');
                return params;
              },
              { replace: true },
            )
          }
          compact={compactRow}
          phone={phone}
          choice={fish.choosing ? fish.rowsOf(pages.nodes) : undefined}
          {...(pages.hasNextPage ? { foot: 'Fetching more…' } : {})}
        />
      )}
      {fish.choosing && (
        <ChoiceBar
          fish={fish}
          filter={filter}
          totalCount={pages.totalCount}
          onAll={() => void fish.chooseAll({ filter, sort })}
          onAct={setAct}
        />
      )}
      {act !== null && (
        <ChangeTogetherSheet
          kind={act}
          choice={fish.choice}
          onLeaveOut={fish.leaveOut}
          onClose={() => setAct(null)}
          onDone={(saved) => {
            setAct(null);
            setDone(saved);
            fish.clear();
            pages.refresh();
          }}
        />
      )}
      <Sheet title="New fish" opened={adding} onClose={() => setAdding(false)}>
        <NewFishForm
          onCancel={() => setAdding(false)}
          onSaved={(id) => void navigate(`/fish/${id}`)}
        />
      </Sheet>
    </Screen>
  );
}

function NoneFit() {
  return (
    <Empty action={<Link to="/fish?use=all">Show all fish</Link>}>
      No fish fits this filter. Widen it, or tick “Include withdrawn” if the record may have been
      withdrawn.
    </Empty>
  );
}

function NoFishYet({ onAdd }: { onAdd: () => void }) {
  return (
    <Empty
      action={
        <div className="lw-form-buttons">
          <Button onClick={onAdd}>New fish</Button>
          <Link to="/import">Import a CSV file</Link>
        </div>
      }
    >
      No fish yet. Add your founders by hand, or import a pedigree kept in a spreadsheet: tag, sire,
      dam and whatever else you have.
    </Empty>
  );
}
