import { clsx } from 'clsx';
import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { Link, useParams } from 'react-router';
import { Caution, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Empty, Loading } from '../../components/states.js';
import { FishPictures } from '../../panels/fish-pictures.js';
import { ScanCode } from '../../panels/scan-code.js';
import { opensAlone, usePagesKept, type PagesKept } from '../../session/pages-kept.js';
import { showTime } from '../../wording/figures.js';
import type { Disposition } from '../../wording/words.js';
import type { Bench } from './bench-facts.js';
import type { BenchParts } from './bench-parts.js';
import { CullFrySheet } from './cull-fry-sheet.js';
import { DrawDozen } from './draw-dozen.js';
import { FishCards } from './fish-cards.js';
import { JarSheet } from './jar-sheet.js';
import { LastCarriersOfBrood, useKeeping, type BroodRead } from './keeping-lines.js';
import { fishAtHand, fishScanned } from './scanned-fish.js';
import { SortingList } from './sorting-list.js';
import { useBench, type ReadBench } from './use-bench.js';
import { useBenchEntries, type BenchEntries } from './use-bench-entries.js';
import { useBenchView, type BenchView } from './use-bench-view.js';
import { useEntryDay, type EntryDay } from './use-entry-day.js';
import styles from './sorting.module.css';

/** A spawn's fish sorted one after another; goes on through a lost connection once it was opened on this device. */
export function SortingScreen() {
  const { id = '' } = useParams();
  const read = useBench(id);
  if (read.bench !== null) return <BenchScreen key={id} bench={read.bench} read={read} />;
  return (
    <Screen title="Sorting bench">
      {read.problem === null ? (
        <Loading what="the fish" />
      ) : (
        <>
          <ProblemNotice problem={read.problem} onRetry={read.reload} />
          <p>
            Open a spawn’s bench once with a connection, and this device keeps it for when the
            connection is lost.
          </p>
        </>
      )}
    </Screen>
  );
}

type OpenSheet = 'fry' | 'jar' | null;

function BenchScreen({ bench, read }: { bench: Bench; read: ReadBench }) {
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const [said, setSaid] = useState('');
  const view = useBenchView();
  const day = useEntryDay(bench);
  const entries = useBenchEntries(bench, day.on, day.error);
  const keeping = useKeeping(bench.id, read.at);
  const parts = { bench, entries, on: day.on, say: setSaid };
  const close = () => setSheet(null);
  return (
    <Screen
      title={`Sort spawn ${bench.tag}`}
      lead={<Progress bench={bench} />}
      actions={<BenchActions view={view} onOpen={setSheet} />}
    >
      <p className={said.startsWith('Undone') ? 'lw-quiet' : 'lw-heard'} role="status">
        {said}
      </p>
      <BenchNotices bench={bench} day={day} entries={entries} />
      <DrawDozen
        bench={bench}
        on={day.on}
        onFish={(fishId) => {
          day.place.goTo(fishId);
          if (view.asList) view.choose('as', 'cards');
        }}
      />
      <BenchScan bench={bench} view={view} goTo={day.place.goTo} say={setSaid} />
      <BenchFishView parts={parts} view={view} day={day} keeping={keeping} />
      <p className={clsx(styles['foot'], 'lw-quiet')}>
        {bench.fish.length > 0 && <Link to={`/spawns/${bench.id}`}>Back to the spawn</Link>}
        <TakenWords read={read} />
      </p>
      <CullFrySheet {...parts} opened={sheet === 'fry'} onClose={close} locusId={view.locusId} />
      <JarSheet {...parts} opened={sheet === 'jar'} onClose={close} />
    </Screen>
  );
}

interface BenchScanProps {
  bench: Bench;
  view: BenchView;
  goTo: (fishId: string) => void;
  say: (words: string) => void;
}

/** The fish in hand by the code on its jar: one by one alone, where there is a fish in hand. */
function BenchScan({ bench, view, goTo, say }: BenchScanProps) {
  const [nowhere, setNowhere] = useState<string | null>(null);
  if (view.asList || bench.fish.length === 0) return null;
  const show = (fish: { id: string; tag: string }) => {
    setNowhere(null);
    goTo(fish.id);
    say(`${fish.tag} is in hand.`);
    return true;
  };
  return (
    <details>
      <summary>Find a fish by the code on its jar</summary>
      <ScanCode
        label="Code of the jar, or tag"
        atHand={(text) => {
          const fish = fishAtHand(bench.fish, text);
          return fish !== null && show(fish);
        }}
        onFound={(found) => {
          const scanned = fishScanned(bench.fish, found);
          if ('goTo' in scanned) show(scanned.goTo);
          else setNowhere(scanned.words);
        }}
      />
      {nowhere !== null && <p role="alert">{nowhere}</p>}
    </details>
  );
}

interface BenchActionsProps {
  view: BenchView;
  onOpen: (sheet: OpenSheet) => void;
}

function BenchActions({ view: { asList, choose }, onOpen }: BenchActionsProps) {
  return (
    <>
      <Button size="sm" onClick={() => choose('as', asList ? 'cards' : 'list')}>
        {asList ? 'One by one' : 'As a list'}
      </Button>
      <Button size="sm" onClick={() => onOpen('jar')}>
        Jar fish
      </Button>
      <Button size="sm" onClick={() => onOpen('fry')}>
        Cull fry
      </Button>
    </>
  );
}

interface BenchNoticesProps {
  bench: Bench;
  day: EntryDay;
  entries: BenchEntries;
}

function BenchNotices({ bench, day: { on, isToday, error }, entries }: BenchNoticesProps) {
  return (
    <>
      {bench.withdrawnReason !== null && (
        <Caution>
          This spawn was withdrawn ({bench.withdrawnReason}): its fish can still be sorted, fry
          without a record cannot be culled in it.
        </Caution>
      )}
      {error !== null && <Caution>{error}</Caution>}
      {error === null && !isToday && <p className="lw-quiet">Entries are dated {on}.</p>}
      <Trouble entries={entries} />
    </>
  );
}

interface BenchFishViewProps {
  parts: BenchParts;
  view: BenchView;
  day: EntryDay;
  keeping: BroodRead;
}

/** The fish in a table, or one by one. */
function BenchFishView({ parts, view, day, keeping }: BenchFishViewProps) {
  const { bench } = parts;
  if (bench.fish.length === 0)
    return (
      <Empty action={<Link to={`/spawns/${bench.id}`}>Back to the spawn</Link>}>
        No fish of this spawn has a record yet. Jar fish to give them one; the tags are made for
        you.
      </Empty>
    );
  const { place, error, setOn } = day;
  const ids = bench.fish.map(({ id }) => id);
  if (view.asList)
    return (
      <FishPictures ids={ids}>
        <LastCarriersOfBrood bench={bench} read={keeping} />
        <SortingList {...parts} place={place} dateError={error} onDate={setOn} />
      </FishPictures>
    );
  return (
    <FishPictures ids={ids}>
      <FishCards
        {...parts}
        place={place}
        keeping={keeping}
        locusId={view.locusId}
        onLocus={(locusId) => view.choose('locus', locusId)}
        sheetAsked={view.sheetAsked}
        onSheet={(sheetId) => view.choose('sheet', sheetId)}
      />
      <TextInput
        className={styles['date']}
        label="Date of the entries"
        type="date"
        value={day.on}
        error={error}
        onChange={(event) => setOn(event.currentTarget.value)}
      />
    </FishPictures>
  );
}

function Progress({ bench }: { bench: Bench }) {
  const count = (...which: Disposition[]) =>
    bench.fish.filter((fish) => which.includes(fish.disposition)).length;
  const sorted = bench.fish.length - count('UNSORTED');
  return (
    <span aria-label="Progress" role="group">
      {sorted} of {bench.fish.length} sorted · kept {count('KEEPER')} · held {count('HOLD')} ·
      culled {count('CULLED')} · placed {count('PLACED')}
      {bench.culledFry > 0 && ` · fry culled ${bench.culledFry}`}
      {bench.waiting > 0 && ` · ${bench.waiting} not yet on the server`}
    </span>
  );
}

function Trouble({ entries }: { entries: BenchEntries }) {
  if (entries.trouble === null) return null;
  return (
    <div className="lw-notice lw-notice-problem" role="alert">
      <p>{entries.trouble}</p>
    </div>
  );
}

/** What was read is on the device; whether the page around it opens too depends on how it was opened. */
const keptWords = (kept: boolean, time: string, pages: PagesKept): string => {
  if (!kept)
    return `As of ${time}; this device could not keep it for working without a connection.`;
  return opensAlone(pages)
    ? `Kept on this device (as of ${time}): opens without a connection.`
    : `As of ${time}. Entries wait here through a lost connection while this page stays open; closed or loaded again, it needs the connection. `;
};

function TakenWords({ read: { at, kept, problem, reload } }: { read: ReadBench }) {
  const time = at === null ? '' : showTime(at).slice(11);
  const pages = usePagesKept();
  return (
    <span>
      {keptWords(kept, time, pages)}
      {!opensAlone(pages) && <Link to="/phone">Why, and what to do</Link>}
      {problem !== null &&
        ` ${problem.code === 'UNREACHABLE' ? 'No connection: check the network and that Linewright is running, then read again.' : problem.message}`}
      <button type="button" className="lw-link-button" onClick={reload}>
        Read again
      </button>
    </span>
  );
}
