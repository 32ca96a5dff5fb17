import { Button } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { useState, type ReactNode } from 'react';
import { Link, useNavigate } from 'react-router';
import type { FishAct } from '../../api/fish-acts.js';
import { ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Loading } from '../../components/states.js';
import { VirtualList } from '../../components/virtual-list.js';
import { useMayRecord } from '../../pickers/line-field.js';
import { useKeepsRecords } from '../../session/may.js';
import { FishPictures } from '../../panels/fish-pictures.js';
import { plural } from '../../wording/figures.js';
import { NewFishForm } from '../fish/new-fish-form.js';
import { ActDone } from './act-done.js';
import type { ActKind } from './act-kind.js';
import { ChangeTogetherSheet } from './change-together-sheet.js';
import { ChoiceBar } from './choice-bar.js';
import { columns, compactRow } from './fish-columns.js';
import { FishListFilter } from './fish-list-filter.js';
import { SavedSearchesSheet } from './saved-searches-sheet.js';
import { useFishChoice, type FishChoice } from './use-choice.js';
import { useFishList, type FishList } from './use-fish-list.js';

/** All fish, narrowed as the address says, and several chosen among them. */
export function FishListScreen() {
  const [adding, setAdding] = useState(false);
  const [searches, setSearches] = useState(false);
  const list = useFishList();
  const fish = useFishChoice();
  const mayRecord = useMayRecord();
  const add = () => setAdding(true);
  return (
    <Screen
      title="Fish"
      fill
      lead={<FishLead list={list} />}
      links={
        <>
          {mayRecord && (
            <Button className="lw-primary" onClick={add}>
              New fish
            </Button>
          )}
          <Button onClick={() => setSearches(true)}>Saved searches</Button>
        </>
      }
      actions={<FishActions list={list} fish={fish} />}
    >
      <FishListFilter />
      <Together list={list} fish={fish}>
        <ProblemNotice problem={list.pages.problem} onRetry={list.pages.reload} />
        <ProblemNotice problem={fish.problem} />
        <FishRows list={list} fish={fish} onAdd={add} />
      </Together>
      <SavedSearchesSheet
        opened={searches}
        filter={list.savedAs}
        onClose={() => setSearches(false)}
      />
      <NewFishSheet opened={adding} onClose={() => setAdding(false)} />
    </Screen>
  );
}

interface ListProps {
  list: FishList;
}

function FishLead({ list: { pages, hereOnly, filtered, allAddress } }: ListProps) {
  if (pages.totalCount === null) return '';
  return (
    <>
      {`${plural(pages.totalCount, 'fish', 'fish')}${hereOnly ? ' alive here' : ''}${filtered ? ', filtered' : ''}. `}
      {hereOnly && (
        <Link to={allAddress}>Also show fish with partners, placed, culled and dead</Link>
      )}
    </>
  );
}

interface FishActionsProps extends ListProps {
  fish: FishChoice;
}

function FishActions({ list, fish }: FishActionsProps) {
  return (
    <>
      <Link className="lw-link-button" to={list.printAddress}>
        Print labels
      </Link>
      <Button aria-pressed={fish.choosing} onClick={() => fish.setChoosing(!fish.choosing)}>
        Choose several
        {!fish.choosing && fish.choice.length > 0 && ` (${fish.choice.length} chosen)`}
      </Button>
      <Link className="lw-link-button" to="/founders">
        Several founders
      </Link>
    </>
  );
}

interface TogetherProps extends ListProps {
  fish: FishChoice;
  /** The list itself: what was done stands above it, what can be done below. */
  children: ReactNode;
}

/** What is done for the chosen fish at once. */
function Together({ list: { filter, sort, pages }, fish, children }: TogetherProps) {
  const [act, setAct] = useState<ActKind | null>(null);
  const [done, setDone] = useState<FishAct | null>(null);
  const wasDone = (now: FishAct) => {
    setDone(now);
    pages.refresh();
  };
  return (
    <>
      {done !== null && <ActDone act={done} onTakenBack={wasDone} onClose={() => setDone(null)} />}
      {children}
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
            fish.clear();
            wasDone(saved);
          }}
        />
      )}
    </>
  );
}

const template =
  '2.75rem minmax(6.875rem, 1.3fr) 6rem 3.5rem 5.75rem 4.5rem minmax(5.625rem, 1fr) minmax(5.625rem, 1fr) 4.75rem minmax(5.75rem, 1fr)';

/** The rows; or that they are on their way, or why there are none. */
function FishRows({
  list: { pages, sort, setSort, filtered },
  fish,
  onAdd,
}: FishActionsProps & { onAdd: () => void }) {
  const phone = useMediaQuery('(max-width: 719px)') ?? false;
  const { nodes, totalCount, hasNextPage } = pages;
  if (totalCount === null && pages.problem === null) return <Loading what="the fish" />;
  if (totalCount === 0 && !pages.loading)
    return filtered ? <NoneFit /> : <NoFishYet onAdd={onAdd} />;
  if (nodes.length === 0) return null;
  return (
    <FishPictures ids={nodes.map(({ id }) => id)}>
      <VirtualList
        label="Fish"
        {...{ columns, template, totalCount, hasNextPage, sort, phone }}
        rows={nodes}
        rowKey={({ id }) => id}
        onNeedMore={pages.next}
        onSort={setSort}
        compact={compactRow}
        choice={fish.choosing ? fish.rowsOf(nodes) : undefined}
        {...(hasNextPage ? { foot: 'Fetching more…' } : {})}
      />
    </FishPictures>
  );
}

interface NewFishSheetProps {
  opened: boolean;
  onClose: () => void;
}

function NewFishSheet({ opened, onClose }: NewFishSheetProps) {
  const navigate = useNavigate();
  return (
    <Sheet title="New fish" opened={opened} onClose={onClose}>
      <NewFishForm onCancel={onClose} onSaved={(id) => void navigate(`/fish/${id}`)} />
    </Sheet>
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
  const keeps = useKeepsRecords();
  const mayRecord = useMayRecord();
  if (!keeps)
    return (
      <Empty action={mayRecord && <Button onClick={onAdd}>New fish</Button>}>
        No fish is shared with you yet.
      </Empty>
    );
  return (
    <Empty
      action={
        <div className="lw-form-buttons">
          <Link className="lw-link-button" to="/start">
            Begin your book
          </Link>
          <Button onClick={onAdd}>New fish</Button>
          <Link to="/import">Import a spreadsheet</Link>
        </div>
      }
    >
      No fish yet. Begin with a line and its founders, or import a pedigree kept in a spreadsheet:
      tag, sire, dam and whatever else you have.
    </Empty>
  );
}
