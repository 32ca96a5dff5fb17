import { clsx } from 'clsx';
import { Button } from '@mantine/core';
import { Fragment, useState } from 'react';
import { Link } from 'react-router';
import type { Candidate } from '../../api/pairing-candidates.js';
import { DrawnLook } from '../../components/drawn-look.js';
import { FishLink, PairLinks, PlaceMark } from '../../components/fish-marks.js';
import { SeverityCounts } from '../../components/severity-mark.js';
import { likeBestText, worthText } from '../../wording/worth-words.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { bandText } from '../../wording/pairing-words.js';
import { CandidateExplanation } from './candidate-explanation.js';
import {
  ancestorsShort,
  BETWEEN,
  classWords,
  likeliestClasses,
  meansShort,
  pairGroups,
  pairKey,
  pairWords,
} from './candidate-words.js';
import { firstDirection, type Direction, type PairingSort } from './pairing-choice.js';
import styles from './candidate-table.module.css';
import type { PairWarning } from '../../api/judgement.js';

interface CandidateTableProps {
  candidates: readonly Candidate[];
  /** Pairs of one line stand before the others: each group under a heading. */
  grouped: boolean;
  sort: PairingSort;
  direction: Direction;
  onSort: (sort: PairingSort, direction: Direction) => void;
  isPlanned: (candidate: Candidate) => boolean;
  onPlan: (candidate: Candidate) => void;
  phone: boolean;
  /** Whether anybody said what the line is for. */
  asked: boolean;
  /** The pair that the others are held against, for the addresses of their pages. */
  best: Candidate | null;
  /** The choice of the list, for the address of a pair's page. */
  pairQuery: string;
}

const columns: { title: string; sort?: PairingSort; number?: boolean }[] = [
  { title: 'Sire', sort: 'SIRE' },
  { title: 'Dam', sort: 'DAM' },
  { title: 'F of brood', sort: 'INBREEDING', number: true },
  { title: 'Worth, points', sort: 'WORTH', number: true },
  { title: 'Main common ancestors' },
  { title: 'Expected classes' },
  { title: 'Parents’ means' },
  { title: 'Warnings' },
];

/** The judged pairs: a table where there is room, blocks on a phone. Each explains itself in place. */
export function CandidateTable(props: CandidateTableProps) {
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set());
  const toggle = (key: string) =>
    setOpen((before) => {
      const after = new Set(before);
      if (!after.delete(key)) after.add(key);
      return after;
    });
  const one = (candidate: Candidate) => ({
    ...props,
    candidate,
    open: open.has(pairKey(candidate)),
    onToggle: () => toggle(pairKey(candidate)),
  });
  const groups = props.grouped ? pairGroups(props.candidates) : [];
  const parts = groups.length > 0 ? groups : [{ title: null, candidates: props.candidates }];
  if (props.phone) {
    return parts.map(({ title, candidates }) => (
      <Fragment key={title ?? 'all'}>
        {title !== null && <GroupHead title={title} />}
        <div role="list" aria-label={title ?? 'Pairs'}>
          {candidates.map((candidate) => (
            <CandidateBlock key={pairKey(candidate)} {...one(candidate)} />
          ))}
        </div>
      </Fragment>
    ));
  }
  return (
    <div className="lw-table-frame" tabIndex={0} role="group" aria-label="Pairs">
      <table className={clsx(styles['pairs'], 'lw-table')}>
        <caption className="lw-heard">Pairs</caption>
        <thead>
          <tr>
            {columns.map((column) => (
              <ColumnHead key={column.title} {...props} column={column} />
            ))}
            <th scope="col">
              <span className="lw-heard">Actions</span>
            </th>
          </tr>
        </thead>
        {parts.map(({ title, candidates }) => (
          <CandidatePart key={title ?? 'all'} title={title} candidates={candidates} one={one} />
        ))}
      </table>
    </div>
  );
}

function CandidatePart({
  title,
  candidates,
  one,
}: {
  title: string | null;
  candidates: readonly Candidate[];
  one: (candidate: Candidate) => CandidateProps;
}) {
  return (
    <tbody>
      {title !== null && (
        <tr className={styles['group']}>
          <th scope="rowgroup" colSpan={columns.length + 1}>
            <GroupHead title={title} />
          </th>
        </tr>
      )}
      {candidates.map((candidate) => (
        <CandidateRow key={pairKey(candidate)} {...one(candidate)} />
      ))}
    </tbody>
  );
}

function GroupHead({ title }: { title: string }) {
  return (
    <div className={styles['group-head']}>
      <strong>{title}</strong>
      {title === BETWEEN && (
        <span className="lw-small">
          An outcross is a trial: colours, fins and shape split up in the second generation (F2).
          Raise one brood, and keep the lines going beside it.
        </span>
      )}
    </div>
  );
}

function ColumnHead({
  column,
  sort,
  direction,
  onSort,
}: CandidateTableProps & { column: (typeof columns)[number] }) {
  const field = column.sort;
  const active = field === sort;
  const className = column.number === true ? 'lw-number' : undefined;
  if (field === undefined) {
    return (
      <th scope="col" className={className}>
        {column.title}
      </th>
    );
  }
  return (
    <th
      scope="col"
      className={className}
      aria-sort={!active ? undefined : direction === 'DESC' ? 'descending' : 'ascending'}
    >
      <button
        type="button"
        onClick={() =>
          onSort(field, !active ? firstDirection[field] : direction === 'DESC' ? 'ASC' : 'DESC')
        }
      >
        {column.title}
        {active && <span aria-hidden="true">{direction === 'DESC' ? ' ↓' : ' ↑'}</span>}
      </button>
    </th>
  );
}

interface CandidateProps extends CandidateTableProps {
  candidate: Candidate;
  open: boolean;
  onToggle: () => void;
}

function CandidateRow(props: CandidateProps) {
  const { candidate, open } = props;
  const { sire, dam, inbreedingCoefficient, worth, warnings, discouraged } = candidate;
  return (
    <Fragment>
      <PairCells
        open={open}
        sire={sire}
        dam={dam}
        candidate={candidate}
        inbreedingCoefficient={inbreedingCoefficient}
        worth={worth}
        warnings={warnings}
        discouraged={discouraged}
        props={props}
      />
      {open && (
        <tr className={styles['open']}>
          <td colSpan={columns.length + 1}>
            <CandidateExplanation
              candidate={candidate}
              asked={props.asked}
              best={props.best}
              pairQuery={props.pairQuery}
            />
          </td>
        </tr>
      )}
    </Fragment>
  );
}

function PairCells({
  open,
  sire,
  dam,
  candidate,
  inbreedingCoefficient,
  worth,
  warnings,
  discouraged,
  props,
}: {
  open: boolean;
  sire: Candidate['sire'];
  dam: Candidate['sire'];
  candidate: Candidate;
  inbreedingCoefficient: number;
  worth: Candidate['worth'];
  warnings: PairWarning[];
  discouraged: boolean;
  props: CandidateProps;
}) {
  return (
    <tr className={open ? clsx(styles['row'], styles['open']) : styles['row']}>
      <td>
        <FishLink fish={sire} />
        <span className="lw-small">{sire.line?.code ?? 'no line'}</span>
        <PlaceMark fish={sire} />
      </td>
      <td>
        <FishLink fish={dam} />
        <span className="lw-small">{dam.line?.code ?? 'no line'}</span>
        <PlaceMark fish={dam} />
      </td>
      <td className="lw-number">
        <span className={styles['figure']}>{inbreedingText(candidate)}</span>
        <span className="lw-small">{bandText(inbreedingCoefficient)}</span>
      </td>
      <td className="lw-number">
        <WorthFigure worth={worth} asked={props.asked} />
      </td>
      <td className={styles['words']}>{ancestorsShort(candidate)}</td>
      <td className={styles['words']}>
        <ExpectedClasses candidate={candidate} />
      </td>
      <td className={styles['words']}>{meansShort(candidate)}</td>
      <td>
        <SeverityCounts warnings={warnings} />
        {discouraged && <span className="lw-small">discouraged</span>}
      </td>
      <td>
        <CandidateActions {...props} />
      </td>
    </tr>
  );
}

function CandidateBlock(props: CandidateProps) {
  const { candidate, open } = props;
  const { sire, dam, inbreedingCoefficient, worth, warnings, discouraged } = candidate;
  return (
    <div className={styles['block']} role="listitem">
      <h3>
        <PairLinks sire={sire} dam={dam} />
      </h3>
      <PlaceMark fish={sire} /> <PlaceMark fish={dam} />
      <div className={styles['block-figures']}>
        <span>
          F <b>{inbreedingText(candidate)}</b> {bandText(inbreedingCoefficient)}
        </span>
        <span>
          Worth <WorthFigure worth={worth} asked={props.asked} />
        </span>
        <span>
          Warnings: <SeverityCounts warnings={warnings} />
          {discouraged && ' · discouraged'}
        </span>
      </div>
      <div className="lw-small">
        Classes: <ExpectedClasses candidate={candidate} />
      </div>
      <CandidateActions {...props} />
      {open && (
        <CandidateExplanation
          candidate={candidate}
          asked={props.asked}
          best={props.best}
          pairQuery={props.pairQuery}
        />
      )}
    </div>
  );
}

/** The likeliest classes, each drawn before its words where it can be drawn. */
function ExpectedClasses({ candidate }: { candidate: Candidate }) {
  const { shown, more } = likeliestClasses(candidate);
  if (shown.length === 0) return 'not known';
  return (
    <>
      {shown.map((each) => (
        <span key={each.phenotype} className={styles['class']}>
          <DrawnLook words={classWords(each)} parts={each.parts} />
        </span>
      ))}
      {more > 0 && `and ${more} more`}
    </>
  );
}

function CandidateActions({ candidate, open, onToggle, isPlanned, onPlan }: CandidateProps) {
  const words = pairWords(candidate);
  return (
    <span className="lw-actions">
      <Button size="xs" aria-expanded={open} aria-label={`Explain ${words}`} onClick={onToggle}>
        Explain
      </Button>
      {isPlanned(candidate) ? (
        <Link to="/planned" aria-label={`Planned: ${words}`}>
          Planned
        </Link>
      ) : (
        <Button size="xs" aria-label={`Plan this pair: ${words}`} onClick={() => onPlan(candidate)}>
          Plan this pair
        </Button>
      )}
    </span>
  );
}

function WorthFigure({ worth, asked }: { worth: Candidate['worth']; asked: boolean }) {
  if (!asked) return <span className="lw-quiet">not asked yet</span>;
  return (
    <>
      <span className={styles['figure']}>{worthText(worth)}</span>
      <span className={clsx('lw-small', styles['like-best'])}>{likeBestText(worth.likeBest)}</span>
    </>
  );
}
