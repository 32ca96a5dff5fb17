import { IMPORT_RUNS, type ImportRun } from '../../api/exchange.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { plural, showTime } from '../../wording/figures.js';
import { ImportUnderWay } from './import-under-way.js';

/** Large files that are being taken in, whoever's screen began it, and what became of the latest. */
export function ImportHistory() {
  const read = useRead(IMPORT_RUNS, {});
  const runs = read.data?.importRuns ?? [];
  if (runs.length === 0) return null;
  return (
    <Section title="Recent large files">
      <DataTable
        caption="Recently imported large files"
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
    </Section>
  );
}

function state(run: ImportRun, onAnswer: () => void) {
  const { result } = run;
  if (result === null) return <ImportUnderWay run={run} onAnswer={onAnswer} />;
  return `${plural(result.fish, 'fish', 'fish')} recorded, ${result.unchanged} already known`;
}
