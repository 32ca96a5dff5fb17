import { Link } from 'react-router';
import { FISH_ACTS, type FishAct } from '../../api/fish-acts.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { MorePages } from '../../components/more-pages.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import { plural, showTime } from '../../wording/figures.js';

/** What was done for several fish at once, newest first. */
export function FishActsScreen() {
  return (
    <Screen
      title="Changes of several fish"
      lead="Each can be taken back as a whole, as long as its fish were not changed since."
    >
      <ActsPage />
    </Screen>
  );
}

interface ActsPageProps {
  /** Where the page before ended, and how many were listed by then. */
  after?: string | null;
  before?: number;
}

function ActsPage({ after = null, before = 0 }: ActsPageProps) {
  const read = useRead(FISH_ACTS, { after });
  return (
    <Shown read={read} what="the changes">
      {({ fishActs }) => {
        if (fishActs.totalCount === 0) return <NoActs />;
        const listed = before + fishActs.edges.length;
        return (
          <>
            <ActsTable acts={fishActs.edges.map(({ node }) => node)} />
            <MorePages
              page={fishActs}
              listed={listed}
              what="changes"
              next={(cursor) => <ActsPage after={cursor} before={listed} />}
            />
          </>
        );
      }}
    </Shown>
  );
}

function NoActs() {
  return (
    <Empty action={<Link to="/fish">To the fish</Link>}>
      Nothing yet. In the list of fish press “Choose several”, tick the fish, then choose what is
      done with them.
    </Empty>
  );
}

function ActsTable({ acts }: { acts: readonly FishAct[] }) {
  return (
    <DataTable
      caption="Changes of several fish"
      rows={acts}
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
  );
}

const actWords = ({ fishCount, what }: FishAct): string =>
  `${plural(fishCount, 'fish', 'fish')} ${what}`;

const backWords = ({ takenBackAt }: FishAct): string =>
  takenBackAt === null ? '' : showTime(takenBackAt);
