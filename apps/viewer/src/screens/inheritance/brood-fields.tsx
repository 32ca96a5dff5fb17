import { Button, NativeSelect, TextInput } from '@mantine/core';
import { optionalWholeNumber } from '../../components/field-rules.js';
import { COUNTED, type TypedBrood } from './typed-broods.js';
import styles from './inheritance.module.css';

const CARRIERS = [
  { value: 'SIRE', label: 'The sire; the dam shows both looks' },
  { value: 'DAM', label: 'The dam; the sire shows both looks' },
  { value: 'BOTH', label: 'Both parents' },
] as const;
const PHASES = [
  { value: 'UNKNOWN', label: 'Not known' },
  { value: 'TOGETHER', label: 'Both looks from one grandparent' },
  { value: 'APART', label: 'One look from each grandparent' },
] as const;
const LABELS = {
  neither: 'Show neither',
  firstOnly: 'First look only',
  secondOnly: 'Second look only',
  both: 'Show both',
} as const;

interface BroodFieldsProps {
  readonly brood: TypedBrood;
  readonly number: number;
  readonly onChange: (part: Partial<TypedBrood>) => void;
  readonly onRemove: (() => void) | undefined;
}

/** One brood: who carries both looks, how they came to it, and the young counted. */
export function BroodFields({ brood, number, onChange, onRemove }: BroodFieldsProps) {
  return (
    <fieldset className={styles['fields']}>
      <legend>Brood {number}</legend>
      <NativeSelect
        label="Who carries both, hidden"
        value={brood.carrier}
        data={[...CARRIERS]}
        onChange={(event) =>
          onChange({ carrier: event.currentTarget.value as TypedBrood['carrier'] })
        }
      />
      <NativeSelect
        label="How both came to the carrier"
        value={brood.phase}
        data={[...PHASES]}
        onChange={(event) => onChange({ phase: event.currentTarget.value as TypedBrood['phase'] })}
      />
      {COUNTED.map((kind) => (
        <TextInput
          key={kind}
          label={LABELS[kind]}
          inputMode="numeric"
          value={brood[kind]}
          error={
            optionalWholeNumber.safeParse(brood[kind]).success ? undefined : 'Give a whole number.'
          }
          onChange={(event) => onChange({ [kind]: event.currentTarget.value })}
        />
      ))}
      {onRemove !== undefined && (
        <Button variant="subtle" onClick={onRemove} className={styles['remove']}>
          Remove brood {number}
        </Button>
      )}
    </fieldset>
  );
}
