import type { PairReason, PairWarning, TraitMean } from '../api/judgement.js';
import type { Candidate } from '../api/pairing-candidates.js';
import { percent, plural } from '../wording/figures.js';
import { scoreText } from '../wording/scores.js';
import { DataTable } from './data-table.js';
import { FishLink } from './fish-marks.js';
import { SeverityMark } from './severity-mark.js';

const traitReasons = ['MID_PARENT', 'MID_PARENT_MISSING', 'TRAIT_VERSIONS_DIFFER'];

/** The reasons with their figures; those on single traits, one a trait, are folded behind the rest. */
export function ReasonList({ reasons }: { reasons: readonly PairReason[] }) {
  const first = reasons.filter(({ code }) => !traitReasons.includes(code));
  const onTraits = reasons.filter(({ code }) => traitReasons.includes(code));
  return (
    <>
      {first.length === 0 && <p className="lw-quiet">No reason is given.</p>}
      <Sentences label="For and against" reasons={first} />
      {onTraits.length > 0 && (
        <details className="lw-folded">
          <summary>{plural(onTraits.length, 'reason')} on single traits</summary>
          <Sentences label="On single traits" reasons={onTraits} />
        </details>
      )}
    </>
  );
}

function Sentences({ label, reasons }: { label: string; reasons: readonly PairReason[] }) {
  if (reasons.length === 0) return null;
  return (
    <ul className="lw-judged" aria-label={label}>
      {reasons.map((reason) => (
        <li key={`${reason.code} ${reason.text}`}>{reason.text}</li>
      ))}
    </ul>
  );
}

/** Every warning with what it rests on, gravest first as the API gives them. */
export function WarningList({ warnings }: { warnings: readonly PairWarning[] }) {
  if (warnings.length === 0) return <p className="lw-quiet">No warning.</p>;
  return (
    <ul className="lw-judged lw-warnings" aria-label="Warnings">
      {warnings.map((warning) => (
        <li key={`${warning.code} ${warning.text}`}>
          <SeverityMark severity={warning.severity} /> {warning.text}
          <span className="lw-small">Basis: {warning.basis}</span>
        </li>
      ))}
    </ul>
  );
}

/** The ancestors that add most to F; nothing where there is none. */
export function MainAncestors({ ancestors }: { ancestors: Candidate['mainAncestors'] }) {
  if (ancestors.length === 0) return null;
  return (
    <>
      <h3>Main common ancestors</h3>
      <DataTable
        caption="Main common ancestors"
        rows={ancestors}
        rowKey={({ ancestor }) => ancestor.id}
        columns={[
          {
            key: 'ancestor',
            title: 'Ancestor',
            cell: ({ ancestor }) => <FishLink fish={ancestor} />,
          },
          {
            key: 'paths',
            title: 'Paths',
            number: true,
            cell: ({ pathCount }) => pathCount ?? 'beyond counting',
          },
          {
            key: 'adds',
            title: 'Adds to F',
            number: true,
            cell: ({ contribution }) => percent(contribution, 3),
          },
        ]}
      />
    </>
  );
}

/** Latest scores of both parents with their mean, and what that mean is not. */
export function TraitMeanTable({ means }: { means: readonly TraitMean[] }) {
  if (means.length === 0) {
    return (
      <p className="lw-quiet">
        Neither fish is scored. Score them on their pages to see the parents’ means.
      </p>
    );
  }
  return (
    <>
      <DataTable
        caption="Parents’ means"
        rows={means}
        rowKey={({ trait }) => trait.id}
        columns={[
          { key: 'trait', title: 'Trait', cell: ({ trait }) => trait.name },
          { key: 'sire', title: 'Sire', number: true, cell: (row) => shown(row, row.sireValue) },
          { key: 'dam', title: 'Dam', number: true, cell: (row) => shown(row, row.damValue) },
          {
            key: 'mean',
            title: 'Mean',
            number: true,
            cell: (row) => <strong>{meanText(row)}</strong>,
          },
        ]}
      />
      <p className="lw-quiet">
        The mean describes the two parents as last scored. It is neither a forecast of the young nor
        a breeding value.
      </p>
    </>
  );
}

function shown({ trait }: TraitMean, value: number | null): string {
  return value === null ? 'not scored' : scoreText(value, trait);
}

/** A yes-or-no trait has no mean: of how many of the two it was said instead. */
export function meanText({ trait, mean }: TraitMean): string {
  if (mean === null) return 'none';
  if (trait.kind !== 'YES_NO') return scoreText(mean, trait);
  return mean === 0 ? 'neither' : mean === 1 ? 'both' : 'one of two';
}
