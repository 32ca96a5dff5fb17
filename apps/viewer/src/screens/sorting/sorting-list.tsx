import { clsx } from 'clsx';
import { NativeSelect, TextInput } from '@mantine/core';
import {
  useCallback,
  useEffect,
  useRef,
  useState,
  type Dispatch,
  type KeyboardEvent,
  type RefObject,
  type SetStateAction,
} from 'react';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { useUnsaved } from '../../components/unsaved.js';
import { StoppedEntry } from '../../outbox/stopped-entry.js';
import { scoreText } from '../../wording/scores.js';
import type { Disposition } from '../../wording/words.js';
import { CullCaution, PlacingCaution } from '../fish/decide-form.js';
import type { BenchFish, BenchTrait } from './bench-facts.js';
import { decisions } from './decisions.js';
import { readScores } from './score-sheet.js';
import { nothingScored } from './sheet-look.js';
import type { BenchPlaceKept } from './use-bench-place.js';
import type { BenchParts } from './bench-parts.js';
import type { BenchEntries } from './use-bench-entries.js';
import styles from './sorting.module.css';
import type { BenchFacts } from '../../api/entries.js';

interface SortingListProps extends BenchParts {
  place: BenchPlaceKept;
  dateError: string | null;
  onDate: (on: string) => void;
}

/** All fish in a table, for a desk: one row a fish, one key a decision, one trait scored down the column. */
export function SortingList(props: SortingListProps) {
  const { bench, entries, on, say, onDate, place, dateError } = props;
  const { fish, traits } = bench;
  const [reason, setReason] = useState('');
  const [used, setUsed] = useState('');
  const [reasonMissing, setReasonMissing] = useState(false);
  const [traitId, setTraitId] = useState('');
  const [current, setCurrent] = useState(() => fish.findIndex(({ id }) => id === place.fishId));
  // A reason stays for the next fish; once one has it, it is on record.
  useUnsaved(reason.trim() !== '' && reason.trim() !== used);
  const inReach = current === -1 ? 0 : current;
  const body = useRef<HTMLTableSectionElement>(null);
  const reasonInput = useRef<HTMLInputElement>(null);
  const trait = traits.find((each) => each.id === traitId);
  useEffect(() => {
    if (current > 0) body.current?.children[current]?.scrollIntoView({ block: 'center' });
    // Where the person was when the page was left, once.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, []);

  const focusRow = useCallback((index: number) => {
    const row = body.current?.children[index];
    if (row instanceof HTMLElement) row.focus();
  }, []);

  const decide = (index: number, disposition: Disposition) => {
    const each = fish[index];
    if (each === undefined) return;
    const why = reason.trim();
    if (disposition === 'CULLED' && why === '') {
      setReasonMissing(true);
      reasonInput.current?.focus();
      return;
    }
    setReasonMissing(false);
    setUsed(why);
    void entries.decide(each, disposition, why === '' ? null : why, nothingScored, null);
    say(`${each.tag}: ${decisions.find((one) => one.disposition === disposition)?.word ?? ''}`);
    focusRow(Math.min(index + 1, fish.length - 1));
  };

  const onKey = (event: KeyboardEvent<HTMLTableRowElement>, index: number) => {
    // Typing a score must not decide.
    if (event.target !== event.currentTarget) return;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const decision = decisions.find((each) => each.key === event.key.toLowerCase());
    if (event.key === 'ArrowDown') focusRow(index + 1);
    else if (event.key === 'ArrowUp') focusRow(index - 1);
    else if (event.key.toLowerCase() === 'u')
      void entries.undo().then((undone) => say(`Undone: ${undone?.label ?? 'nothing'}`));
    else if (decision !== undefined) decide(index, decision.disposition);
    else return;
    event.preventDefault();
  };

  return (
    <>
      <SortingChoices
        on={on}
        dateError={dateError}
        onDate={onDate}
        reasonInput={reasonInput}
        reason={reason}
        reasonMissing={reasonMissing}
        setReason={setReason}
        traitId={traitId}
        setTraitId={setTraitId}
        traits={traits}
      />
      <p className={clsx(styles['hints'], 'lw-quiet')}>
        On a row: <kbd>K</kbd> keep, <kbd>H</kbd> hold, <kbd>C</kbd> cull, <kbd>P</kbd> place,{' '}
        <kbd>U</kbd> undo, <kbd>↑</kbd> <kbd>↓</kbd> move. In a score box: <kbd>Enter</kbd> saves
        and goes down.
      </p>
      <CullCaution />
      <PlacingCaution />
      {fish
        .flatMap((each) => each.stopped)
        .map((entry) => (
          <StoppedEntry key={entry.id} entry={entry} />
        ))}
      <div className="lw-table-frame">
        <table className="lw-table">
          <caption className="lw-heard">Fish to sort</caption>
          <SortingHead trait={trait} />
          <tbody ref={body}>
            {fish.map((each, index) => (
              <SortingRow
                key={each.id}
                index={index}
                inReach={inReach}
                each={each}
                current={current}
                setCurrent={setCurrent}
                place={place}
                onKey={onKey}
                decide={decide}
                trait={trait}
                entries={entries}
              />
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function SortingChoices({
  on,
  dateError,
  onDate,
  reasonInput,
  reason,
  reasonMissing,
  setReason,
  traitId,
  setTraitId,
  traits,
}: {
  on: string;
  dateError: string | null;
  onDate: (on: string) => void;
  reasonInput: RefObject<HTMLInputElement | null>;
  reason: string;
  reasonMissing: boolean;
  setReason: Dispatch<SetStateAction<string>>;
  traitId: string;
  setTraitId: Dispatch<SetStateAction<string>>;
  traits: readonly BenchFacts['traits'][number][];
}) {
  return (
    <div className="lw-filter">
      <TextInput
        label="Date"
        type="date"
        value={on}
        error={dateError}
        onChange={(event) => onDate(event.currentTarget.value)}
      />
      <TextInput
        ref={reasonInput}
        className="lw-filter-text"
        label="Reason"
        description="Goes with each decision; needed for culls."
        value={reason}
        error={reasonMissing ? 'Type the reason, then cull.' : undefined}
        onChange={(event) => setReason(event.currentTarget.value)}
      />
      <NativeSelect
        label="Trait to score"
        value={traitId}
        onChange={(event) => setTraitId(event.currentTarget.value)}
        data={[
          { value: '', label: 'none' },
          ...traits.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
    </div>
  );
}

function SortingRow({
  index,
  inReach,
  each,
  current,
  setCurrent,
  place,
  onKey,
  decide,
  trait,
  entries,
}: {
  index: number;
  inReach: number;
  each: BenchFish;
  current: number;
  setCurrent: Dispatch<SetStateAction<number>>;
  place: BenchPlaceKept;
  onKey: (event: KeyboardEvent<HTMLTableRowElement>, index: number) => void;
  decide: (index: number, disposition: Disposition) => void;
  trait: BenchFacts['traits'][number] | undefined;
  entries: BenchEntries;
}) {
  return (
    <tr
      tabIndex={index === inReach ? 0 : -1}
      aria-label={each.tag}
      className={index === current ? 'lw-current' : undefined}
      onFocus={() => {
        setCurrent(index);
        place.goTo(each.id);
      }}
      onKeyDown={(event) => onKey(event, index)}
    >
      <td>
        <FishLink fish={{ id: each.id, tag: each.tag }} />
      </td>
      <td className="lw-wide">
        <SexMark sex={each.sex} />
      </td>
      <td className="lw-wide">
        <DispositionMark disposition={each.disposition} />
        {each.waiting > 0 && <span className={styles['waits']}> waits here</span>}
      </td>
      <td>
        <span className="lw-row-buttons">
          {decisions.map(({ disposition, word }) => (
            <button
              key={disposition}
              type="button"
              aria-pressed={each.disposition === disposition}
              aria-label={`${word} ${each.tag}`}
              onClick={() => decide(index, disposition)}
            >
              {word}
            </button>
          ))}
        </span>
      </td>
      {trait !== undefined && (
        <td className="lw-number">
          <ScoreCell key={trait.id} fish={each} trait={trait} entries={entries} />
        </td>
      )}
    </tr>
  );
}

function SortingHead({ trait }: { trait: BenchFacts['traits'][number] | undefined }) {
  return (
    <thead>
      <tr>
        <th scope="col">Tag</th>
        <th scope="col" className="lw-wide">
          Sex
        </th>
        <th scope="col" className="lw-wide">
          Now
        </th>
        <th scope="col">Decide</th>
        {trait !== undefined && (
          <th scope="col" className="lw-number">
            {trait.name}
            {trait.unit === null ? '' : `, ${trait.unit}`}
          </th>
        )}
      </tr>
    </thead>
  );
}

function focusNextScore(from: HTMLInputElement) {
  const cells = [...(from.closest('tbody')?.querySelectorAll<HTMLInputElement>('input') ?? [])];
  cells[cells.indexOf(from) + 1]?.focus();
}

interface ScoreCellProps {
  fish: BenchFish;
  trait: BenchTrait;
  entries: BenchEntries;
}

function ScoreCell({ fish, trait, entries }: ScoreCellProps) {
  const known = fish.scores.get(trait.id);
  const [text, setText] = useState('');
  const [slip, setSlip] = useState<string | null>(null);
  // Enter saves and moves on, and leaving the box saves too: what was typed must be entered once.
  const typed = useRef('');
  const type = (next: string) => {
    typed.current = next;
    setText(next);
  };
  const keep = async (): Promise<boolean> => {
    const given = typed.current.trim();
    if (given === '') return true;
    const { values, slips } = readScores([trait], new Map([[trait.id, given]]));
    setSlip(slips.get(trait.id) ?? null);
    if (values.size === 0) return false;
    typed.current = '';
    if (!(await entries.score(fish, { look: null, plain: values }))) {
      typed.current = given;
      return false;
    }
    setText('');
    return true;
  };
  return (
    <>
      <span className="lw-quiet">
        {known === undefined ? '' : `${scoreText(known.value, trait)} `}
      </span>
      <input
        className={styles['cell-input']}
        inputMode="decimal"
        aria-label={`${trait.name} of ${fish.tag}`}
        aria-invalid={slip !== null}
        value={text}
        onChange={(event) => type(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          event.preventDefault();
          const input = event.currentTarget;
          void keep().then((kept) => {
            if (kept) focusNextScore(input);
          });
        }}
        onBlur={() => void keep()}
      />
      {slip !== null && (
        <span className="lw-field-error" role="alert">
          {' '}
          {slip}
        </span>
      )}
    </>
  );
}
