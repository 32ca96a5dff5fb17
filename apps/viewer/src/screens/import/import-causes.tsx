import { Button } from '@mantine/core';
import clsx from 'clsx';
import type { ImportCause, ImportRepairAnswer, ImportRepairs } from '../../api/import.js';
import { Section } from '../../components/section.js';
import { plural } from '../../wording/figures.js';
import { FaultyValue } from './faulty-value.js';
import styles from './import.module.css';
import { decidedOf, withAnswer } from './repairs.js';

interface CausesProps {
  causes: readonly ImportCause[];
  repairs: ImportRepairs;
  busy: boolean;
  onRepair: (repairs: ImportRepairs) => void;
}

/** What is wrong, each cause once, with one answer for all of it. */
export function ImportCauses(props: CausesProps) {
  const { causes } = props;
  if (causes.length === 0) return null;
  return (
    <Section title="To settle" aside={plural(causes.length, 'cause')}>
      <CauseList {...props} />
    </Section>
  );
}

/** What is read otherwise than it stands, or may be a mistake: no hindrance. */
export function ImportDoubts(props: CausesProps) {
  const { causes } = props;
  if (causes.length === 0) return null;
  return (
    <Section title="Look at these before you import">
      <CauseList {...props} doubts />
    </Section>
  );
}

function CauseList({ causes, doubts = false, ...rest }: CausesProps & { doubts?: boolean }) {
  return causes.map((cause) => (
    <Cause key={`${cause.code} ${cause.column}`} cause={cause} doubt={doubts} {...rest} />
  ));
}

interface CauseProps extends Omit<CausesProps, 'causes'> {
  cause: ImportCause;
  doubt: boolean;
}

function Cause({ cause, doubt, repairs, busy, onRepair }: CauseProps) {
  const [first] = cause.values;
  const asksOrder = cause.code === 'IMPORT_DATE_ORDER';
  return (
    <article className={clsx(styles['cause'], doubt && styles['doubt'])}>
      <h3>{cause.title}</h3>
      {first !== undefined && (
        <p>
          {cause.count > 1 && 'For example: '}
          {first.message} {asksOrder ? '' : first.remedy}
        </p>
      )}
      <div className="lw-actions">
        {asksOrder && <Orders repairs={repairs} busy={busy} onRepair={onRepair} />}
        {cause.answers.map((answer) => (
          <Button
            key={answer}
            disabled={busy}
            onClick={() => onRepair(withAnswer(repairs, cause, answer))}
          >
            {answerWord(cause, answer)}
          </Button>
        ))}
      </div>
      {hasRows(cause) && (
        <details className="lw-folded">
          <summary>{showWord(cause)}</summary>
          <ul className={styles['values']}>
            {cause.values.map((value, index) => (
              <FaultyValue
                key={`${value.value} ${value.lines[0] ?? index}`}
                {...{ cause, value, repairs, busy, onRepair }}
              />
            ))}
          </ul>
          {cause.values.length < cause.valueCount && (
            <p className="lw-quiet">
              The first {cause.values.length} of {cause.valueCount}. An answer above holds for all.
            </p>
          )}
        </details>
      )}
    </article>
  );
}

function Orders({ repairs, busy, onRepair }: Omit<CauseProps, 'cause' | 'doubt'>) {
  return (
    <>
      <Button
        className="lw-primary"
        disabled={busy}
        onClick={() => onRepair({ ...repairs, dayOrder: 'DAY_FIRST' })}
      >
        The day comes first
      </Button>
      <Button
        className="lw-primary"
        disabled={busy}
        onClick={() => onRepair({ ...repairs, dayOrder: 'MONTH_FIRST' })}
      >
        The month comes first
      </Button>
    </>
  );
}

/** Faults of the whole file have no row that could be mended here. */
const wholeFile = new Set([
  'IMPORT_EMPTY',
  'IMPORT_TOO_LARGE',
  'IMPORT_UNREADABLE',
  'IMPORT_NO_TAG_COLUMN',
  'IMPORT_COLUMN_MISSING',
  'IMPORT_COLUMN_TWICE',
]);
const hasRows = ({ code }: ImportCause): boolean => !wholeFile.has(code);

const showWord = ({ valueCount, byValue }: ImportCause): string => {
  if (!byValue) return `Show ${valueCount === 1 ? 'the row' : `the ${valueCount} rows`}`;
  return `Show ${valueCount === 1 ? 'the value' : `the ${valueCount} values`}`;
};

/** Values that a button names one by one. */
const NAMED = 2;

function answerWord(cause: ImportCause, answer: ImportRepairAnswer): string {
  const all = cause.count === 1 ? 'it' : `all ${cause.count}`;
  if (answer === 'OFFER') {
    const named = cause.values.filter(({ offers }) => offers.length === 1);
    if (named.length > NAMED || named.length < cause.offered)
      return `Read ${plural(cause.offered, 'value')} as most likely meant`;
    return `Read ${named.map(({ value, offers }) => `“${value}” as “${offers[0]}”`).join(', ')}`;
  }
  if (answer === 'ADD') return `Record ${all} as fish with a tag only`;
  if (answer === 'NOTE') return 'Put the names into the notes';
  if (answer === 'LEAVE_OUT')
    return cause.count === 1 ? 'Leave the row out' : `Leave ${all} rows out`;
  return cause.code === 'IMPORT_ROW_LENGTH' ? 'Take missing cells as empty' : `Leave ${all} empty`;
}

/** What was decided so far, each with a way back. */
export function DecidedSoFar({
  repairs,
  busy,
  onRepair,
}: Pick<CausesProps, 'repairs' | 'busy' | 'onRepair'>) {
  const list = decidedOf(repairs);
  if (list.length === 0) return null;
  return (
    <Section title="Decided so far" aside={list.length}>
      <ul className={styles['decided']}>
        {list.map(({ key, words, undone }) => (
          <li key={key}>
            <span>{words}</span>
            <Button
              size="xs"
              disabled={busy}
              aria-label={`Undo: ${words}`}
              onClick={() => onRepair(undone)}
            >
              Undo
            </Button>
          </li>
        ))}
      </ul>
    </Section>
  );
}
