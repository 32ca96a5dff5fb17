import type { Fit } from '../api/heredity.js';
import { plainNumber, plural } from '../wording/figures.js';
import { DataTable } from './data-table.js';

/** p as text; a very small one is bounded, not rounded to 0. */
export function pText(pValue: number): string {
  return pValue < 0.001 ? 'under 0.001' : pValue.toFixed(3);
}

/** The verdict of a test of fit with its method, its figures and what each class adds. */
export function FitResult({ fit }: { fit: Fit }) {
  return (
    <>
      <p>
        {fit.verdict} Method: {fit.method}
        {fit.statistic !== null &&
          `, chi-square ${plainNumber(fit.statistic, 2)} with ${plural(fit.degreesOfFreedom ?? 0, 'degree')} of freedom`}
        , p = {pText(fit.pValue)}: the chance of counts at least this far off if the fractions are
        right.
        {fit.pooled.length > 0 && ` Pooled for small expectations: ${fit.pooled.join(', ')}.`}
      </p>
      <DataTable
        caption="Counted and expected by class"
        rows={fit.cells}
        rowKey={(cell) => cell.name}
        columns={[
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
        ]}
      />
    </>
  );
}
