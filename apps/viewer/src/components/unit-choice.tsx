import { useController } from 'react-hook-form';
import { useShownField } from './shown-fields.js';
import { ammoniaUnitChoices } from '../wording/water-words.js';
import styles from './unit-choice.module.css';

interface UnitChoiceProps {
  value: string;
  onChange: (value: string) => void;
  name: string;
  error?: string | undefined;
}

/** Which unit a kit prints, told apart by what stands beside its scale. */
export function UnitChoice({ value, onChange, name, error }: UnitChoiceProps) {
  return (
    <fieldset className={styles['choice']}>
      <legend>What does the kit print beside its scale?</legend>
      <div>
        {ammoniaUnitChoices.map((choice) => (
          <label key={choice.value}>
            <input
              type="radio"
              name={name}
              value={choice.value}
              checked={value === choice.value}
              onChange={() => onChange(choice.value)}
            />
            <span>
              {choice.label}
              <small>{choice.hint}</small>
            </span>
          </label>
        ))}
      </div>
      <p className="lw-hint">
        The same water reads 1.00 as N, 1.29 as NH4 and 1.22 as NH3. Water conditioners that bind
        ammonia can mislead a kit.
      </p>
      {error !== undefined && (
        <p className="lw-field-error" role="alert">
          {error}
        </p>
      )}
    </fieldset>
  );
}

export function UnitChoiceField({ name }: { name: string }) {
  useShownField(name);
  const { field, fieldState } = useController({ name });
  return (
    <UnitChoice
      name={name}
      value={typeof field.value === 'string' ? field.value : ''}
      onChange={field.onChange}
      error={fieldState.error?.message}
    />
  );
}
