import { clsx } from 'clsx';
import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { Link, useParams, useSearchParams } from 'react-router';
import { Caution, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Empty, Loading } from '../../components/states.js';
import { showTime } from '../../wording/figures.js';
import type { Disposition } from '../../wording/words.js';
import type { Bench } from './bench-facts.js';
import { CullFrySheet } from './cull-fry-sheet.js';
import { DrawDozen } from './draw-dozen.js';
import { FishCards } from './fish-cards.js';
import { JarSheet } from './jar-sheet.js';
import { SortingList } from './sorting-list.js';
import { dayTrouble, useToday } from './use-today.js';
import { useBench, type ReadBench } from './use-bench.js';
import { useBenchPlace } from './use-bench-place.js';
import { useBenchEntries, type BenchEntries } from './use-bench-entries.js';
import styles from './sorting.module.css';

/** A spawn's fish sorted one after another; works without a connection once it was opened on this device. */
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
            Open a spawn’s bench once with a connection, and this device keeps it for working
            without one.
          </p>
        </>
      )}
    </Screen>
  );
}

type OpenSheet = 'fry' | 'jar' | null;

function BenchScreen({ bench, read }: { bench: Bench; read: ReadBench }) {
  const [search, setSearch] = useSearchParams();
  const place = useBenchPlace(bench.id);
  const day = useToday();
  const on = place.day ?? day;
  const setOn = (chosen: string) => place.choose(chosen === '' || chosen === day ? null : chosen);
  const dateError = dayTrouble(on, bench.hatchDate);
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const [said, setSaid] = useState('');
  const entries = useBenchEntries(bench, on, dateError);
  const asked = search.get('as');
  const wide = window.matchMedia('(min-width: 720px)').matches;
  const asList = asked === null ? wide : asked === 'list';
  const choose = (key: string, value: string) =>
    setSearch(
      (before) => {
        before.set(key, value);
        return before;
      },
      { replace: true, preventScrollReset: true },
    );
  const parts = { bench, entries, on, say: setSaid };
  return (
    <Screen
      title={`Sort spawn ${bench.tag}`}
      lead={<Progress bench={bench} />}
      actions={
        <>
          <Button size="sm" onClick={() => choose('as', asList ? 'cards' : 'list')}>
            {asList ? 'One by one' : 'As a list'}
          </Button>
          <Button size="sm" onClick={() => setSheet('jar')}>
            Jar fish
          </Button>
          <Button size="sm" onClick={() => setSheet('fry')}>
            Cull fry
          </Button>
        </>
      }
    >
      <p className={said.startsWith('Undone') ? 'lw-quiet' : 'lw-heard'} role="status">
        {said}
      </p>
      {bench.withdrawnReason !== null && (
        <Caution>
          This spawn was withdrawn ({bench.withdrawnReason}): its fish can still be sorted, fry
          without a record cannot be culled in it.
        </Caution>
      )}
      {dateError !== null && <Caution>{dateError}</Caution>}
      {dateError === null && on !== day && <p className="lw-quiet">Entries are dated {on}.</p>}
      <Trouble entries={entries} />
      <DrawDozen
        bench={bench}
        onFish={(fishId) => {
          place.goTo(fishId);
          if (asList) choose('as', 'cards');
        }}
      />
      {bench.fish.length === 0 ? (
        <Empty action={<Link to={`/spawns/${bench.id}`}>Back to the spawn</Link>}>
          No fish of this spawn has a record yet. Jar fish to give them one; the tags are made for
          you.
        </Empty>
      ) : asList ? (
        <SortingList {...parts} place={place} dateError={dateError} onDate={setOn} />
      ) : (
        <FishCards
          {...parts}
          place={place}
          locusId={search.get('locus')}
          onLocus={(locusId) => choose('locus', locusId)}
          sheetAsked={search.get('sheet')}
          onSheet={(sheetId) => choose('sheet', sheetId)}
        />
      )}
      {!asList && bench.fish.length > 0 && (
        <TextInput
          className={styles['date']}
          label="Date of the entries"
          type="date"
          value={on}
          error={dateError}
          onChange={(event) => setOn(event.currentTarget.value)}
        />
      )}
      <p className={clsx(styles['foot'], 'lw-quiet')}>
        {bench.fish.length > 0 && <Link to={`/spawns/${bench.id}`}>Back to the spawn</Link>}
        <TakenWords read={read} />
      </p>
      <CullFrySheet
        {...parts}
        opened={sheet === 'fry'}
        onClose={() => setSheet(null)}
        locusId={search.get('locus')}
      />
      <JarSheet {...parts} opened={sheet === 'jar'} onClose={() => setSheet(null)} />
    </Screen>
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

function TakenWords({ read: { at, kept, problem, reload } }: { read: ReadBench }) {
  const time = at === null ? '' : showTime(at).slice(11);
  return (
    <span>
      {kept
        ? `Kept on this device (as of ${time}): opens without a connection.`
        : `As of ${time}; this device could not keep it for working without a connection.`}
      {problem !== null &&
        ` ${problem.code === 'UNREACHABLE' ? 'No connection: check the network and that Linewright is running, then read again.' : problem.message}`}
      <button type="button" className="lw-link-button" onClick={reload}>
        Read again
      </button>
    </span>
  );
}
