import { useRef, useState, type KeyboardEvent } from 'react';
import { scoreText } from '../../wording/scores.js';
import type { BenchFish, BenchTrait } from './bench-facts.js';
import { readScores } from './score-sheet.js';
import type { BenchEntries } from './use-bench-entries.js';
import styles from './sorting.module.css';

interface ScoreCellProps {
  fish: BenchFish;
  trait: BenchTrait;
  entries: BenchEntries;
}

/** One score that is typed; `keep` resolves to whether the person can go on. */
function useScoreCell({ fish, trait, entries }: ScoreCellProps) {
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
  return { text, slip, type, keep };
}

function focusNextScore(from: HTMLInputElement) {
  const cells = [...(from.closest('tbody')?.querySelectorAll<HTMLInputElement>('input') ?? [])];
  cells[cells.indexOf(from) + 1]?.focus();
}

/** The score of a fish so far, and a box for a new one: Enter saves it and goes down the column. */
export function ScoreCell(props: ScoreCellProps) {
  const { fish, trait } = props;
  const { text, slip, type, keep } = useScoreCell(props);
  const known = fish.scores.get(trait.id);
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key !== 'Enter') return;
    event.preventDefault();
    const input = event.currentTarget;
    void keep().then((kept) => {
      if (kept) focusNextScore(input);
    });
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
        onKeyDown={onKeyDown}
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
