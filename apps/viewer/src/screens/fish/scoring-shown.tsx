import { Link } from 'react-router';
import type { SheetScoring } from '../../api/score-sheets.js';
import { DataTable } from '../../components/data-table.js';
import { Why } from '../../components/why.js';
import { ageText, plainNumber, plural } from '../../wording/figures.js';
import { scoreText } from '../../wording/scores.js';
import { pointsText, severityWord } from '../../wording/sheet-words.js';
import styles from './score-lines.module.css';
import type { Column } from '../../components/data-table.js';

function totalText({ total }: SheetScoring): string {
  const figure = total.total === null ? 'no total' : `${pointsText(total.total)} of 100`;
  const missing =
    total.missing > 0 && total.total !== null
      ? `, ${plural(total.missing, 'trait')} not scored`
      : '';
  return `${figure}${missing}${total.disqualified ? ', disqualified' : ''}`;
}

interface ScoringShownProps {
  scoring: SheetScoring;
  onWithdraw?: () => void;
}

/** One look: its total and why, its faults, and what to keep in mind. */
export function ScoringShown({ scoring, onWithdraw }: ScoringShownProps) {
  const { sheet } = scoring;
  return (
    <div className={styles['score-line']}>
      <div>
        <Link to={`/score-sheets/${sheet.id}`}>{sheet.name}</Link>{' '}
        <span className="lw-quiet">
          {scoring.scoredOn}
          {scoring.ageDays !== null && `, ${ageText(scoring.ageDays)}`}, {scoring.scorer}
          {scoring.sheetVersion !== sheet.version && `, version ${scoring.sheetVersion}`}
        </span>
      </div>
      {scoring.withdrawn !== null ? (
        <p className="lw-quiet">Withdrawn: {scoring.withdrawn.reason}</p>
      ) : (
        <Standing scoring={scoring} {...(onWithdraw && { onWithdraw })} />
      )}
    </div>
  );
}

function Standing({ scoring, onWithdraw }: ScoringShownProps) {
  const { sheet, faults, note } = scoring;
  const named = faults.map((fault) => `${fault.name} (${severityWord[fault.severity]})`);
  return (
    <>
      <Why about={`the total on ${sheet.name}`} figure={totalText(scoring)}>
        <TotalExplained scoring={scoring} />
      </Why>
      {named.length > 0 && <div>Faults: {named.join(', ')}</div>}
      {note !== null && <div>{note}</div>}
      <KeepInMind scoring={scoring} />
      {onWithdraw !== undefined && (
        <button
          type="button"
          className="lw-small-button"
          aria-label={`Withdraw the scores of ${scoring.scoredOn} on ${sheet.name}`}
          onClick={onWithdraw}
        >
          Withdraw
        </button>
      )}
    </>
  );
}

function KeepInMind({ scoring: { total, warnings } }: ScoringShownProps) {
  return (
    <>
      {warnings.map((warning) => (
        <div key={warning} className="lw-quiet">
          <strong aria-hidden="true">! </strong>
          {warning}
        </div>
      ))}
      {total.total !== null && total.missing > 0 && (
        <div className="lw-quiet">
          From the scored traits only: do not compare it with a full sheet.
        </div>
      )}
    </>
  );
}

function TotalExplained({ scoring: { total, faults } }: { scoring: SheetScoring }) {
  const parts = total.parts.map((part) => ({
    ...part,
    id: part.trait.id,
  }));
  return (
    <>
      <DataTable
        caption="What makes up the total"
        rows={parts}
        rowKey={(part) => part.id}
        columns={partColumns()}
      />
      <p className="lw-quiet">
        {total.equalWeights
          ? 'You set no weights in this version, so all counted traits count equally.'
          : 'Points are the share earned times your weight, brought to 100.'}{' '}
        {faults.length === 0
          ? 'No fault was marked.'
          : `Faults take off ${plainNumber(total.deducted)}: ${faults
              .map(
                (fault) =>
                  `${fault.name} ${fault.severity === 'DISQUALIFYING' ? 'disqualifies' : fault.points === null ? '(no points set)' : plainNumber(fault.points)}`,
              )
              .join(', ')}.`}
      </p>
    </>
  );
}

function partColumns(): readonly Column<SheetScoring['total']['parts'][number]>[] {
  return [
    { key: 'trait', title: 'Trait', cell: (part) => part.trait.name },
    {
      key: 'value',
      title: 'Score',
      number: true,
      cell: (part) => (part.value === null ? 'not scored' : scoreText(part.value, part.trait)),
    },
    {
      key: 'share',
      title: 'Earned',
      number: true,
      cell: (part) => (part.share === null ? '' : `${Math.round(part.share * 100)} %`),
    },
    {
      key: 'weight',
      title: 'Weight',
      number: true,
      cell: (part) => (part.weight === 0 ? 'not counted' : plainNumber(part.weight)),
    },
    {
      key: 'points',
      title: 'Points',
      number: true,
      cell: (part) => (part.share === null ? '' : pointsText(part.points)),
    },
  ];
}
