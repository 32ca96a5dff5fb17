import { Link } from 'react-router';
import { ROUNDS_OF_LINE, type RoundRow } from '../../api/round-course.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { MorePages } from '../../components/more-pages.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { percent } from '../../wording/figures.js';
import { rememberLine } from '../next-pairing/last-line.js';

/** Rounds of pairs that were adopted for the line, each with its page. */
export function RoundsSection({ lineId }: { lineId: string }) {
  return (
    <Section
      title="Rounds"
      actions={
        <Link to="/next-pairing" onClick={() => rememberLine([lineId])}>
          Propose the next round
        </Link>
      }
    >
      <RoundsPage lineId={lineId} after={null} before={0} />
    </Section>
  );
}

interface RoundsPageProps {
  lineId: string;
  /** Where the page before ended, and how many rounds were listed by then. */
  after: string | null;
  before: number;
}

const spawnedOf = ({ pairs }: RoundRow): string => {
  const spawned = pairs.filter(({ pairing }) => pairing.state === 'SPAWNED').length;
  return `${spawned} of ${pairs.length} spawned`;
};

function RoundsPage({ lineId, after, before }: RoundsPageProps) {
  const read = useRead(ROUNDS_OF_LINE, { lineId, after });
  return (
    <Shown read={read} what="the rounds">
      {({ rounds }) => {
        const rows = rounds.edges.map(({ node }) => node);
        if (rounds.totalCount === 0)
          return <Empty>No round yet. Next pairing proposes one for the line.</Empty>;
        return (
          <>
            <DataTable
              caption="Rounds of the line"
              rows={rows}
              rowKey={({ id }) => id}
              columns={[
                {
                  key: 'on',
                  title: 'Planned on',
                  cell: ({ id, plannedOn }) => <Link to={`/rounds/${id}`}>{plannedOn}</Link>,
                },
                { key: 'pairs', title: 'Pairs', cell: spawnedOf },
                {
                  key: 'f',
                  title: 'Mean F expected',
                  number: true,
                  wideOnly: true,
                  cell: ({ expectedInbreeding }) => percent(expectedInbreeding),
                },
                {
                  key: 'learnt',
                  title: 'What was learnt',
                  cell: ({ learnt }) => learnt ?? '',
                },
              ]}
            />
            <MorePages
              page={rounds}
              listed={before + rows.length}
              what="rounds"
              next={(cursor) => (
                <RoundsPage lineId={lineId} after={cursor} before={before + rows.length} />
              )}
            />
          </>
        );
      }}
    </Shown>
  );
}
