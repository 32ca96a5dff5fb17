import { clsx } from 'clsx';
import { NativeSelect, TextInput } from '@mantine/core';
import type { FaultSeverity } from '../../api/score-sheets.js';
import { ageText, plainNumber } from '../../wording/figures.js';
import { severityWord, windowText } from '../../wording/sheet-words.js';
import { isMeantFor } from '../score-sheets/filled-sheet.js';
import type { BenchSheet } from './bench-facts.js';
import { faultsByClass, NO_SHEET } from './sheet-look.js';
import styles from './sorting.module.css';

interface SheetChoiceProps {
  sheets: readonly BenchSheet[];
  sheet: BenchSheet | null;
  age: number | null;
  onSheet: (id: string) => void;
}

const option = ({ id, name, current: { fromAgeDays, toAgeDays } }: BenchSheet) => ({
  value: id,
  label: `${name} (${windowText(fromAgeDays, toAgeDays)})`,
});

/** Sheets made for the age first, then the plain list, then the others. */
export function SheetChoice({ sheets, sheet, age, onSheet }: SheetChoiceProps) {
  if (sheets.length === 0) return null;
  const fit = sheets.filter(({ current }) => isMeantFor(current, age));
  const rest = sheets.filter((each) => !fit.includes(each));
  const groups = [
    { group: `Made for ${ageText(age ?? 0)}`, items: fit.map(option) },
    { group: 'No sheet', items: [{ value: NO_SHEET, label: 'Traits by age' }] },
    { group: 'Other sheets', items: rest.map(option) },
  ];
  return (
    <NativeSelect
      className={styles['sheet']}
      label="Score on"
      value={sheet?.id ?? NO_SHEET}
      onChange={(event) => onSheet(event.currentTarget.value)}
      data={groups.filter(({ items }) => items.length > 0)}
    />
  );
}

interface FaultChipsProps {
  sheet: BenchSheet;
  seen: ReadonlySet<string>;
  onToggle: (faultId: string) => void;
}

const pointsWords = (severity: FaultSeverity, points: number | null): string => {
  if (severity === 'DISQUALIFYING') return 'disqualifies the fish';
  return points === null ? 'takes no points' : `takes ${plainNumber(points)} each`;
};

/** The sheet's faults, a row a class; the tick tells what was seen, not the colour alone. */
export function FaultChips({ sheet, seen, onToggle }: FaultChipsProps) {
  return faultsByClass(sheet).map(({ severity, faults }) => (
    <div
      key={severity}
      className={styles['faults']}
      role="group"
      aria-label={`Faults, ${severityWord[severity]}`}
    >
      <span className={styles['trait']}>
        {severityWord[severity]}{' '}
        <span className="lw-quiet">{pointsWords(severity, faults[0]?.points ?? null)}</span>
      </span>
      <span className={styles['chips']}>
        {faults.map(({ id, name }) => (
          <FaultChip key={id} name={name} seen={seen.has(id)} onToggle={() => onToggle(id)} />
        ))}
      </span>
    </div>
  ));
}

interface FaultChipProps {
  name: string;
  seen: boolean;
  onToggle: () => void;
}

function FaultChip({ name, seen, onToggle }: FaultChipProps) {
  return (
    <button
      type="button"
      className={clsx(styles['chip'], styles['fault'])}
      aria-pressed={seen}
      onClick={onToggle}
    >
      <span className={styles['tick']} aria-hidden="true">
        {seen ? '✓' : ''}
      </span>
      {name}
    </button>
  );
}

interface LookNoteProps {
  note: string;
  alone: boolean;
  onNote: (note: string) => void;
}

/** As long as the server takes. */
const MOST_NOTE = 2_000;

export function LookNote({ note, alone, onNote }: LookNoteProps) {
  return (
    <TextInput
      className={styles['sheet']}
      label="Note on these scores"
      value={note}
      maxLength={MOST_NOTE}
      error={alone ? 'Score a trait or mark a fault too, or clear the note.' : undefined}
      onChange={(event) => onNote(event.currentTarget.value)}
      onKeyDown={(event) => {
        if (event.key === 'Enter' || event.key === 'Escape') event.currentTarget.blur();
      }}
    />
  );
}
