import { Link } from 'react-router';
import { LINES } from '../../api/lines.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { useOfTheHouse } from '../../session/may.js';
import { useSession } from '../../session/session-context.js';
import { BackupSection } from '../../panels/backup-section.js';
import type { Column } from '../../components/data-table.js';
import type { ResultOf } from '../../api/graphql.js';

export function ExportAndBackupScreen() {
  const read = useRead(LINES, {});
  const ofTheHouse = useOfTheHouse();
  const owner = useSession().role === 'OWNER';
  return (
    <Screen title="Export and backup" lead="Your records as files of your own.">
      {owner && <BackupSection />}
      <SpreadsheetSection />
      <Section title="One line">
        <Shown read={read} what="the lines">
          {({ lines }) =>
            lines.length === 0 ? (
              <Empty action={<Link to="/lines">Go to the lines</Link>}>There is no line yet.</Empty>
            ) : (
              <DataTable
                caption="Files of each line"
                rows={lines}
                rowKey={(line) => line.id}
                columns={lineFileColumns(ofTheHouse)}
              />
            )
          }
        </Shown>
      </Section>
    </Screen>
  );
}

function SpreadsheetSection() {
  return (
    <Section title="The pedigree for a spreadsheet">
      <p className="lw-words">
        One CSV file with every fish: tag, sire, dam, sex, hatch date, line and the latest score of
        each trait. Names, notes, losses, culls, logs and photos are not in it: it is not a backup.
      </p>
      <p>
        <a href="/export/pedigree.csv" download>
          Download the pedigree as CSV
        </a>
      </p>
    </Section>
  );
}

/** The file for a partner is given by the owner and the household. */
function lineFileColumns(
  ofTheHouse: boolean,
): readonly Column<ResultOf<typeof LINES>['lines'][number]>[] {
  const columns: readonly Column<ResultOf<typeof LINES>['lines'][number]>[] = [
    { key: 'line', title: 'Line', cell: (line) => `${line.code} · ${line.name}` },
    { key: 'fish', title: 'Fish', number: true, cell: (line) => line.fishCount },
    {
      key: 'csv',
      title: 'For a spreadsheet',
      cell: (line) => (
        <a
          href={`/export/pedigree.csv?line=${line.id}`}
          download
          aria-label={`CSV of line ${line.code}`}
        >
          CSV
        </a>
      ),
    },
    {
      key: 'json',
      title: 'For a partner',
      cell: (line) => (
        <a
          href={`/export/line/${line.id}.zip?photos=yes`}
          download
          aria-label={`File of line ${line.code} for a partner`}
        >
          line’s file
        </a>
      ),
    },
  ];
  return columns.filter(({ key }) => ofTheHouse || key !== 'json');
}
