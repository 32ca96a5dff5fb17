import { Button } from '@mantine/core';
import { Link, useParams } from 'react-router';
import { FISH_ACT, TAKE_BACK_FISH_ACT, type WholeFishAct } from '../../api/fish-acts.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { FishLink } from '../../components/fish-marks.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { changeWords } from '../../panels/change-words.js';
import { useRecordNames } from '../../panels/use-record-names.js';
import { plural, showTime } from '../../wording/figures.js';

/** One act for several fish: what it changed of each, and the way to take it back. */
export function FishActScreen() {
  const { id = '' } = useParams();
  const read = useRead(FISH_ACT, { id });
  const act = read.data?.fishAct;
  return (
    <Screen
      title={
        act === undefined
          ? 'Change of several fish'
          : `${plural(act.fishCount, 'fish', 'fish')} ${act.what}`
      }
      lead={
        act !== undefined && (
          <>
            By {act.by}, {showTime(act.at)}.{' '}
            <Link to="/fish-acts">All changes of several fish</Link>
          </>
        )
      }
    >
      <Shown read={read} what="what was done">
        {({ fishAct }) => (
          <>
            <TakeBack act={fishAct} />
            <Changed act={fishAct} />
          </>
        )}
      </Shown>
    </Screen>
  );
}

function TakeBack({ act }: { act: WholeFishAct }) {
  const { save, saving, problem } = useSave(TAKE_BACK_FISH_ACT);
  if (act.takenBackAt !== null)
    return (
      <Done>
        Taken back by {act.takenBackBy}, {showTime(act.takenBackAt)}.
      </Done>
    );
  const count = plural(act.fishCount, 'fish', 'fish');
  return (
    <Section title="Take it back">
      {act.inTheWay.length === 0 ? (
        <p>
          Puts {count} back to what {act.fishCount === 1 ? 'it was' : 'they were'} before. The
          history keeps both.
        </p>
      ) : (
        <>
          <p>
            It cannot be taken back as a whole any more:{' '}
            {plural(act.inTheWay.length, 'fish stands', 'fish stand')} in the way. Correct the fish
            by hand.
          </p>
          <DataTable
            caption="Fish that stand in the way"
            low
            rows={act.inTheWay}
            rowKey={(one) => one.id}
            columns={[
              {
                key: 'tag',
                title: 'Fish',
                unbroken: true,
                cell: (one) => <FishLink fish={one} />,
              },
              { key: 'why', title: 'Why', cell: ({ why }) => why },
            ]}
          />
        </>
      )}
      <ProblemNotice problem={problem} />
      <Button
        loading={saving}
        disabled={act.inTheWay.length > 0}
        onClick={() => void save({ id: act.id })}
      >
        Take back for {count}
      </Button>
    </Section>
  );
}

function Changed({ act }: { act: WholeFishAct }) {
  const names = useRecordNames();
  return (
    <Section title="What changed">
      <DataTable
        caption="What changed"
        rows={act.fish}
        rowKey={({ id }) => id}
        columns={[
          { key: 'tag', title: 'Fish', unbroken: true, cell: (fish) => <FishLink fish={fish} /> },
          {
            key: 'changes',
            title: 'Changes, newest first',
            cell: ({ id }) =>
              act.history
                .filter(({ recordId }) => recordId === id)
                .map((change) => (
                  <div key={change.id}>
                    {change.action}:{' '}
                    {change.changes.map((field) => changeWords(field, names)).join('; ')}
                  </div>
                )),
          },
        ]}
      />
    </Section>
  );
}
