import { daysBetween } from '@linewright/care';
import { decimalIn } from '@linewright/pedigree';
import { useController, useFormContext } from 'react-hook-form';
import type { SheetLine, SheetVersion } from '../../api/score-sheets.js';
import { NumberField } from '../../components/fields.js';
import { useShownField } from '../../components/shown-fields.js';
import { plainNumber, plural } from '../../wording/figures.js';
import { gradeOf, rangeText } from '../../wording/scores.js';
import { severityWord, windowText } from '../../wording/sheet-words.js';
import { TotalLine } from '../score-sheets/total-line.js';
import type { ScoredFish } from './scored-fish.js';
import styles from './score-lines.module.css';

const MOST_BUTTONS = 12;

interface Filled {
  scoredOn: string;
  values: Record<string, string>;
  faultIds: string[];
}

/** Said while it can still be changed; an age outside the window is never refused. */
export function AgeAdvice({ fish, version }: { fish: ScoredFish; version: SheetVersion }) {
  const { watch } = useFormContext<Filled>();
  const on = watch('scoredOn');
  const { fromAgeDays: from, toAgeDays: to } = version;
  if (fish.hatchDate === null || (from === null && to === null) || on === '') return null;
  const age = daysBetween(fish.hatchDate, on);
  if (age >= (from ?? 0) && age <= (to ?? Infinity)) return null;
  return (
    <div className="lw-notice lw-notice-caution" role="note">
      {fish.tag} was {plural(age, 'day')} old then; this sheet is meant for {windowText(from, to)}.
      You can save it anyway.
    </div>
  );
}

function steps({ trait }: SheetLine): number[] | null {
  if (trait.kind === 'YES_NO') return [1, 0];
  if (trait.kind !== 'ORDINAL' || trait.minimum === null || trait.maximum === null) return null;
  const { minimum, maximum } = trait;
  if (maximum - minimum + 1 > MOST_BUTTONS) return null;
  return Array.from({ length: maximum - minimum + 1 }, (_, k) => minimum + k);
}

export function ScoreLine({ line }: { line: SheetLine }) {
  const { trait } = line;
  const choices = steps(line);
  if (choices !== null) return <GradeLine line={line} choices={choices} />;
  return (
    <div className={styles['score-line']}>
      <NumberField
        name={`values.${trait.id}`}
        label={trait.name}
        unit={trait.unit}
        hint={[trait.description, rangeText(trait)].filter(Boolean).join(' ')}
      />
      <GradeName line={line} />
    </div>
  );
}

function GradeName({ line: { trait } }: { line: SheetLine }) {
  const { watch } = useFormContext<Filled>();
  const value = decimalIn(watch(`values.${trait.id}`) ?? '');
  if (trait.grades.length === 0) return null;
  return (
    <div className="lw-quiet" aria-live="polite">
      {(value === null ? null : gradeOf(value, trait.grades)) ??
        trait.grades.map((g) => `${g.name} from ${plainNumber(g.from)}`).join(', ')}
    </div>
  );
}

function GradeLine({ line: { trait }, choices }: { line: SheetLine; choices: readonly number[] }) {
  useShownField(`values.${trait.id}`);
  const { field, fieldState } = useController<Filled>({ name: `values.${trait.id}` });
  const word = (value: number) =>
    trait.kind === 'YES_NO'
      ? value === 1
        ? 'yes'
        : 'no'
      : `${value}${trait.grades.some((g) => g.from === value) ? ` ${gradeOf(value, trait.grades)}` : ''}`;
  return (
    <div className={styles['score-line']} role="group" aria-label={trait.name}>
      <div className="lw-label">{trait.name}</div>
      {trait.description !== null && <div className="lw-hint">{trait.description}</div>}
      <div className={styles['grades']}>
        {choices.map((value) => {
          const chosen = field.value === String(value);
          return (
            <button
              key={value}
              type="button"
              aria-pressed={chosen}
              onClick={() => field.onChange(chosen ? '' : String(value))}
            >
              {word(value)}
            </button>
          );
        })}
      </div>
      {fieldState.error !== undefined && (
        <div className="lw-field-error" role="alert">
          {fieldState.error.message}
        </div>
      )}
    </div>
  );
}

export function FaultTicks({ version }: { version: SheetVersion }) {
  const { register } = useFormContext<Filled>();
  return (
    <fieldset className="lw-block">
      <legend>Faults seen</legend>
      <div className={styles['fault-list']}>
        {version.faults.map((fault) => (
          <label key={fault.id}>
            <input type="checkbox" value={fault.id} {...register('faultIds')} />
            <span>
              {fault.name}{' '}
              <span className="lw-quiet">
                {severityWord[fault.severity]}
                {fault.points !== null && `, takes ${plainNumber(fault.points)}`}
              </span>
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export function RunningTotal({ version }: { version: SheetVersion }) {
  const { watch } = useFormContext<Filled>();
  const values = new Map(
    Object.entries(watch('values')).flatMap(([id, text]) => {
      const value = decimalIn(text ?? '');
      return value === null ? [] : [[id, value] as const];
    }),
  );
  return (
    <div className={styles['running-total']} aria-live="polite">
      <TotalLine version={version} values={values} faultIds={new Set(watch('faultIds'))} />
    </div>
  );
}
