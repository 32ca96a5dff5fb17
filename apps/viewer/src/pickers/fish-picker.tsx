import { Select } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState } from 'react';
import { Controller, useFormContext } from 'react-hook-form';
import { FISH_CHOICES, FISH_NAME } from '../api/fish.js';
import { useRead } from '../api/use-read.js';
import type { Sex } from '../wording/words.js';
import { useShownField } from '../components/shown-fields.js';
import { fishOffered } from './fish-offered.js';

interface FishPickerProps {
  label: string;
  value: string | null;
  onChange: (id: string | null) => void;
  sexes?: Sex[];
  /** Only fish of these lines. */
  lineIds?: string[];
  /** Only fish that can still be bred from. */
  inUse?: boolean;
  hint?: string;
  error?: string | undefined;
  required?: boolean;
}

/** Chooses one fish by typing part of its tag or name; the API searches, so that it is quick in a large stock. */
export function FishPicker(props: FishPickerProps) {
  const { label, value, onChange, hint, error, required = false } = props;
  const [text, setText] = useState('');
  const { choices, loading } = useFishFound(text, props);
  return (
    <Select
      label={label}
      description={hint}
      error={error}
      required={required}
      withAsterisk={required}
      placeholder="Type part of a tag"
      searchable
      clearable
      clearButtonProps={{ 'aria-label': `Clear ${label.toLowerCase()}` }}
      data={choices}
      filter={({ options }) => options}
      value={value}
      onChange={onChange}
      onSearchChange={setText}
      nothingFoundMessage={loading ? 'Searching…' : 'No fish fits. Type less, or check the tag.'}
      maxDropdownHeight={300}
      comboboxProps={{ transitionProps: { duration: 0 } }}
    />
  );
}

/** What fits the text once typing has paused, the chosen fish among it. */
function useFishFound(text: string, { value, sexes, lineIds, inUse }: FishPickerProps) {
  const [searched] = useDebouncedValue(text, 180);
  const name = useRead(FISH_NAME, { id: value ?? '' }, { pause: value === null });
  const chosen = value === null ? undefined : name.data?.fish;
  // The box shows the chosen tag: that is not a search.
  const search = searched === '' || searched.startsWith(chosen?.tag ?? '\0') ? null : searched;
  const { data, loading } = useRead(FISH_CHOICES, {
    filter: {
      ...(search === null ? {} : { text: search }),
      ...(sexes === undefined ? {} : { sexes }),
      ...(lineIds === undefined ? {} : { lineIds }),
      ...(inUse === undefined ? {} : { inUse }),
    },
  });
  return { choices: fishOffered(data?.fishList, chosen), loading };
}

interface FishFieldProps extends Omit<FishPickerProps, 'value' | 'onChange' | 'error'> {
  name: string;
}

/** A fish picker as a field of a form; its value is an id, or '' for none. */
export function FishField({ name, ...rest }: FishFieldProps) {
  const { control } = useFormContext();
  useShownField(name);
  return (
    <Controller
      control={control}
      name={name}
      render={({ field, fieldState }) => (
        <FishPicker
          {...rest}
          value={typeof field.value === 'string' && field.value !== '' ? field.value : null}
          onChange={(id) => field.onChange(id ?? '')}
          error={fieldState.error?.message}
        />
      )}
    />
  );
}
