import type { ImportPreview } from '../../api/import.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { plural } from '../../wording/figures.js';
import type { Column } from '../../components/data-table.js';

/** What is read otherwise than it stands in the file: to be looked at before anything is saved. */
function ImportNotes({ preview }: { preview: ImportPreview }) {
  const { notes, noteCount } = preview;
  if (noteCount === 0) return null;
  return (
    <Section
      title="Check before you import"
      aside={notes.length < noteCount ? `the first ${notes.length} of ${noteCount}` : noteCount}
    >
      <DataTable
        caption="What is read in another way than it is written"
        rows={notes.map((note, index) => ({ ...note, index }))}
        rowKey={({ index }) => String(index)}
        columns={[
          { key: 'line', title: 'Line', number: true, cell: (note) => note.line },
          { key: 'what', title: 'How it is read', cell: (note) => note.message },
        ]}
      />
    </Section>
  );
}

/** What is to be looked at, and every bad row with its line in the file and what to do. */
export function ImportProblems({ preview }: { preview: ImportPreview }) {
  return (
    <>
      <ImportNotes preview={preview} />
      <Problems preview={preview} />
    </>
  );
}

function Problems({ preview }: { preview: ImportPreview }) {
  const { problems, problemCount } = preview;
  if (problemCount === 0) {
    return (
      <Section title="Problems" aside="none">
        <p>{noProblem(preview)}</p>
      </Section>
    );
  }
  return (
    <Section
      title="Problems"
      aside={
        problems.length < problemCount
          ? `the first ${problems.length} of ${problemCount}`
          : problemCount
      }
    >
      <DataTable
        caption="Problems in the file"
        rows={problems.map((problem, index) => ({ ...problem, index }))}
        rowKey={({ index }) => String(index)}
        columns={problemColumns()}
      />
    </Section>
  );
}

function problemColumns(): readonly Column<{
  index: number;
  line: number;
  column: string | null;
  code: string;
  value: string | null;
  message: string;
  remedy: string;
}>[] {
  return [
    { key: 'line', title: 'Line', number: true, cell: (problem) => problem.line },
    {
      key: 'column',
      title: 'Column',
      wideOnly: true,
      cell: (problem) => problem.column ?? '',
    },
    { key: 'value', title: 'Value', wideOnly: true, cell: (problem) => problem.value ?? '' },
    {
      key: 'what',
      title: 'What is wrong, and what to do',
      cell: (problem) => (
        <>
          {problem.message} <strong>{problem.remedy}</strong>
        </>
      ),
    },
  ];
}

function noProblem({ noteCount, skippedRows }: ImportPreview): string {
  if (noteCount === 0) return 'Every row can be imported as it is written.';
  const skipped =
    skippedRows === 0 ? '' : ` ${plural(skippedRows, 'row is', 'rows are')} not imported.`;
  return `Nothing prevents the import.${skipped} Check the list above first.`;
}
