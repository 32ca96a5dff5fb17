import type { ImportPreview } from '../../api/exchange.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';

/** Every bad row with its line in the file and what to do. */
export function ImportProblems({ preview }: { preview: ImportPreview }) {
  const { problems, problemCount } = preview;
  if (problemCount === 0) {
    return (
      <Section title="Problems" aside="none">
        <p>Every row was understood.</p>
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
        columns={[
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
        ]}
      />
    </Section>
  );
}
