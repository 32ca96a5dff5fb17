import { IMPORT_RUNS, type ImportRun } from '../../api/import.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { MorePages } from '../../components/more-pages.js';
import { Section } from '../../components/section.js';
import { plural, showTime } from '../../wording/figures.js';
import { ImportUnderWay } from './import-under-way.js';

/** Large files that are being taken in, whoever's screen began it, and what became of the latest. */
export function ImportHistory() {
  const read = useRead(IMPORT_RUNS, { after: null });
  if ((read.data?.importRuns.totalCount ?? 0) === 0) return null;
  return (
    <Section title="Large files of the last 30 days">
      <Runs after={null} before={0} />
    </Section>
  );
}

interface RunsProps {
  /** Where the page before ended, and how many imports were listed by then. */
  after: string | null;
  before: number;
}

function Runs({ after, before }: RunsProps) {
  const read = useRead(IMPORT_RUNS, { after });
  const page = read.data?.importRuns;
  if (page === undefined) return null;
  const runs = page.edges.map(({ node }) => node);
  return (
    <>
      <DataTable
        caption="Large files imported in the last 30 days"
        rows={runs}
        rowKey={(run) => run.id}
        columns={[
          { key: 'file', title: 'File', cell: (run) => run.fileName },
          {
            key: 'begun',
            title: 'Started',
            wideOnly: true,
            cell: ({ computation }) => computation !== null && showTime(computation.createdAt),
          },
          { key: 'state', title: 'Result', cell: (run) => state(run, read.reload) },
        ]}
      />
      <MorePages
        page={page}
        listed={before + runs.length}
        what="imports"
        next={(cursor) => <Runs after={cursor} before={before + runs.length} />}
      />
    </>
  );
}

function state(run: ImportRun, onAnswer: () => void) {
  const { result } = run;
  if (result === null) return <ImportUnderWay run={run} onAnswer={onAnswer} />;
  return `${plural(result.fish, 'fish', 'fish')} recorded, ${result.unchanged} already known`;
}
