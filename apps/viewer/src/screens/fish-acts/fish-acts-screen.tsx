import { Link } from 'react-router';
import { FISH_ACTS, type FishAct } from '../../api/fish-acts.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import { plural, showTime } from '../../wording/figures.js';

/** What was done for several fish at once, newest first. */
export function FishActsScreen() {
  const read = useRead(FISH_ACTS, {});
  return (
    <Screen
      title="Changes of several fish"
      lead="The latest 50. Each can be taken back as a whole, as long as its fish were not changed since."
    >
      <Shown read={read} what="the changes">
        {({ fishActs }) =>
          fishActs.length === 0 ? (
            <Empty action={<Link to="/fish">To the fish</Link>}>
              Nothing yet. In the list of fish press “Choose several”, tick the fish, then choose
              what is done with them.
            </Empty>
          ) : (
            <DataTable
              caption="Changes of several fish"
              rows={fishActs}
              rowKey={({ id }) => id}
              columns={[
                {
                  key: 'what',
                  title: 'What was done',
                  cell: (act) => <Link to={`/fish-acts/${act.id}`}>{actWords(act)}</Link>,
                },
                { key: 'at', title: 'When', wideOnly: true, cell: ({ at }) => showTime(at) },
                { key: 'by', title: 'By', wideOnly: true, cell: ({ by }) => by },
                { key: 'state', title: 'Taken back', cell: backWords },
              ]}
            />
          )
        }
      </Shown>
    </Screen>
  );
}

const actWords = ({ fishCount, what }: FishAct): string =>
  `${plural(fishCount, 'fish', 'fish')} ${what}`;

const backWords = ({ takenBackAt }: FishAct): string =>
  takenBackAt === null ? '' : showTime(takenBackAt);
