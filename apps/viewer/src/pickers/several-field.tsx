import { MultiSelect } from '@mantine/core';
import type { Choice } from '../components/fields.js';

interface SeveralFieldProps {
  label: string;
  /** Said while nothing is chosen, such as "all lines". */
  none: string;
  choices: readonly Choice[];
  value: readonly string[];
  onChange: (value: string[]) => void;
}

/** Chooses any number of things from a list, by typing part of a name. */
export function SeveralField({ label, none, choices, value, onChange }: SeveralFieldProps) {
  return (
    <MultiSelect
      label={label}
      placeholder={value.length === 0 ? none : ''}
      data={[...choices]}
      value={[...value]}
      onChange={onChange}
      searchable
      clearable
      clearButtonProps={{ 'aria-label': `Clear ${label.toLowerCase()}` }}
      nothingFoundMessage="Nothing fits."
      maxDropdownHeight={300}
      comboboxProps={{ transitionProps: { duration: 0 } }}
      styles={{ inputField: { minWidth: 48 } }}
      classNames={{ input: 'lw-input', label: 'lw-label', description: 'lw-hint' }}
    />
  );
}
