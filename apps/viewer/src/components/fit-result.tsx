import type { Fit } from '../api/heredity.js';
import { plainNumber, plural } from '../wording/figures.js';
import { DataTable } from './data-table.js';
import type { BroodLocus } from '../api/carriers.js';
import type { Column } from './data-table.js';

/** What follows "p"; a very small value is bounded, not rounded to 0. */
function pText(pValue: number): string {
  return pValue < 0.001 ? 'under 0.001' : `= ${pValue.toFixed(3)}`;
}

/** The verdict of a test of fit with its method, its figures and what each class adds. */
export function FitResult({ fit }: { fit: Fit }) {
  return (
    <>
      <p>{fit.verdict}</p>
      <p className="lw-quiet">
        Method: {fit.method}
        {fit.statistic !== null &&
          `; statistic ${plainNumber(fit.statistic, 2)} with ${plural(fit.degreesOfFreedom ?? 0, 'degree')} of freedom`}
        ; p {pText(fit.pValue)}
        {fit.standardError !== null && ` ± ${fit.standardError.toFixed(3)}`}, the chance of counts
        at least this far off if the fractions are right.
        {fit.pooled.length > 0 && ' Classes with small expectations were tested together:'}
      </p>
      {fit.pooled.length > 0 && (
        <ul className="lw-quiet">
          {fit.pooled.map((each) => (
            <li key={each}>{each.slice(each.indexOf(': ') + 2)}</li>
          ))}
        </ul>
      )}
      <DataTable
        caption="Counted and expected by class"
        rows={fit.cells}
        rowKey={(cell) => cell.name}
        columns={cellColumns()}
      />
    </>
  );
}

function cellColumns(): readonly Column<NonNullable<BroodLocus['fit']>['cells'][number]>[] {
  return [
    { key: 'name', title: 'Class', cell: (cell) => cell.name },
    { key: 'seen', title: 'Counted', number: true, cell: (cell) => cell.observed },
    {
      key: 'expected',
      title: 'Expected',
      number: true,
      cell: (cell) => cell.expected.toFixed(1),
    },
    {
      key: 'part',
      title: 'Part of chi-square',
      number: true,
      cell: (cell) => (cell.contribution === null ? '' : cell.contribution.toFixed(2)),
    },
  ];
}
