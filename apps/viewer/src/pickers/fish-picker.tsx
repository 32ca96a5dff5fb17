import { Select } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState } from 'react';
import { Controller, useFormContext } from 'react-hook-form';
import { FISH_CHOICES, FISH_NAME } from '../api/fish.js';
import { useRead } from '../api/use-read.js';
import { ageToday } from '../wording/figures.js';
import { dispositionWord, placeWords, sexWord, type Sex } from '../wording/words.js';
import { useShownField } from '../components/shown-fields.js';

interface FishPickerProps {
  label: string;
  value: string | null;
  onChange: (id: string | null) => void;
  sexes?: Sex[];
  /** Only fish that can still be bred from. */
  inUse?: boolean;
  hint?: string;
  error?: string | undefined;
  required?: boolean;
}

/** Chooses one fish by typing part of its tag or name; the API searches, so that it is quick in a large stock. */
export function FishPicker(props: FishPickerProps) {
  const { label, value, onChange, sexes, inUse, hint, error, required = false } = props;
  const [text, setText] = useState('');
  const [searched] = useDebouncedValue(text, 180);
  const chosen = useRead(FISH_NAME, { id: value ?? '' }, { pause: value === null });
  const chosenFish = value === null ? undefined : chosen.data?.fish;
  // The box shows the chosen tag: that is not a search.
  const search = searched === '' || searched.startsWith(chosenFish?.tag ?? '\0') ? null : searched;
  const choices = useRead(FISH_CHOICES, {
    filter: {
      ...(search === null ? {} : { text: search }),
      ...(sexes === undefined ? {} : { sexes }),
      ...(inUse === undefined ? {} : { inUse }),
    },
  });
  const found = (choices.data?.fishList.edges ?? []).map(({ node }) => ({
    value: node.id,
    label: [
      node.tag,
      sexWord[node.sex],
      ageToday(node.hatchDate),
      node.disposition === 'KEEPER' ? null : dispositionWord[node.disposition],
      placeWords(node),
      node.name,
    ]
      .filter((part) => part !== null && part !== '')
      .join(' · '),
  }));
  const offered =
    chosenFish === undefined || found.some((each) => each.value === chosenFish.id)
      ? found
      : [
          { value: chosenFish.id, label: `${chosenFish.tag} · ${sexWord[chosenFish.sex]}` },
          ...found,
        ];
  const more = (choices.data?.fishList.totalCount ?? 0) - found.length;
  // The list ends after the first page: without a word the fish looked for would seem not to be there.
  const data =
    more > 0
      ? [
          ...offered,
          {
            value: 'more',
            label: `${more.toLocaleString('en')} more: type more of the tag`,
            disabled: true,
          },
        ]
      : offered;
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
      data={data}
      filter={({ options }) => options}
      value={value}
      onChange={onChange}
      onSearchChange={setText}
      nothingFoundMessage={
        choices.loading ? 'Searching…' : 'No fish fits. Type less, or check the tag.'
      }
      maxDropdownHeight={300}
      comboboxProps={{ transitionProps: { duration: 0 } }}
    />
  );
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
