import { decimalIn } from '@linewright/pedigree';
import { clsx } from 'clsx';
import { plainNumber } from '../../wording/figures.js';
import { gradeOf, rangeText, scoreText } from '../../wording/scores.js';
import type { BenchFish } from './bench-facts.js';
import { stepsOf, type ScoredTrait } from './score-sheet.js';
import styles from './sorting.module.css';

interface ScoreFieldsProps {
  fish: BenchFish;
  traits: readonly ScoredTrait[];
  typed: ReadonlyMap<string, string>;
  slips: ReadonlyMap<string, string>;
  onType: (traitId: string, text: string) => void;
}

/** One line a trait: what is known, and a box or steps for a new score. */
export function ScoreFields({ fish, traits, typed, slips, onType }: ScoreFieldsProps) {
  return traits.map((trait) => {
    const known = fish.scores.get(trait.id);
    const slip = slips.get(trait.id);
    const steps = stepsOf(trait);
    const name = trait.unit === null ? trait.name : `${trait.name}, ${trait.unit}`;
    return (
      <div key={trait.id} className={styles['score']} role="group" aria-label={trait.name}>
        <span className={styles['trait']}>
          {name}{' '}
          <span className="lw-quiet">
            {known === undefined ? rangeText(trait) : `now ${scoreText(known.value, trait)}`}
          </span>
        </span>
        {steps === null ? (
          <ScoreBox trait={trait} fish={fish} slip={slip} typed={typed} onType={onType} />
        ) : (
          <StepChips steps={steps} typed={typed} trait={trait} onType={onType} />
        )}
        {steps === null && <GradeName trait={trait} text={typed.get(trait.id) ?? ''} />}
        {slip !== undefined && (
          <span className="lw-field-error" role="alert">
            {slip}
          </span>
        )}
      </div>
    );
  });
}

function StepChips({
  steps,
  typed,
  trait,
  onType,
}: {
  steps: { value: string; label: string }[];
  typed: ReadonlyMap<string, string>;
  trait: ScoredTrait;
  onType: (traitId: string, text: string) => void;
}) {
  return (
    <span className={styles['chips']}>
      {steps.map(({ value, label }) => (
        <button
          key={value}
          type="button"
          className={styles['chip']}
          aria-pressed={typed.get(trait.id) === value}
          onClick={() => onType(trait.id, typed.get(trait.id) === value ? '' : value)}
        >
          {label}
        </button>
      ))}
    </span>
  );
}

function ScoreBox({
  trait,
  fish,
  slip,
  typed,
  onType,
}: {
  trait: ScoredTrait;
  fish: BenchFish;
  slip: string | undefined;
  typed: ReadonlyMap<string, string>;
  onType: (traitId: string, text: string) => void;
}) {
  return (
    <input
      className={styles['box']}
      inputMode="decimal"
      aria-label={`${trait.name} of ${fish.tag}`}
      aria-invalid={slip !== undefined}
      value={typed.get(trait.id) ?? ''}
      onChange={(event) => onType(trait.id, event.currentTarget.value)}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && event.key !== 'Escape') return;
        event.preventDefault();
        event.currentTarget.blur();
      }}
    />
  );
}

/** The grade of what is typed; before that, where the grades begin. */
function GradeName({ trait: { grades = [] }, text }: { trait: ScoredTrait; text: string }) {
  const value = decimalIn(text);
  if (grades.length === 0) return null;
  return (
    <span className={clsx(styles['grade'], 'lw-quiet')} aria-live="polite">
      {(value === null ? null : gradeOf(value, grades)) ??
        grades.map((grade) => `${grade.name} from ${plainNumber(grade.from)}`).join(', ')}
    </span>
  );
}
