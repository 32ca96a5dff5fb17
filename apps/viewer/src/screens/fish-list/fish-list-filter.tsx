import { Button, Checkbox, NativeSelect, TextInput } from '@mantine/core';
import { useDebouncedCallback } from '@mantine/hooks';
import { useState } from 'react';
import { useSearchParams } from 'react-router';
import { useKeepsRecords } from '../../session/may.js';
import { useLineChoices } from '../../pickers/line-field.js';
import { dispositionWord, NOT_SHARED, optionsOf, placeWord, sexWord } from '../../wording/words.js';
import { asksOfSeen, withParts } from './fish-filter.js';
import { SeenFilter } from './seen-filter.js';

/** The filter of the list, read from the address and written to it. */
function useFilter() {
  const [search, setSearch] = useSearchParams();
  return {
    valueOf: (name: string) => search.get(name) ?? '',
    set: (parts: Readonly<Record<string, string>>) =>
      setSearch((before) => withParts(before, parts), { replace: true }),
    begun: asksOfSeen(search),
  };
}

type Filter = ReturnType<typeof useFilter>;

/** What the list is narrowed to; folded away on a phone. */
export function FishListFilter() {
  const filter = useFilter();
  const lines = useLineChoices();
  const places = useKeepsRecords()
    ? placeWord
    : { ...placeWord, UNKNOWN: `${placeWord.UNKNOWN}, or ${NOT_SHARED}` };
  const [unfolded, setUnfolded] = useState(false);
  return (
    <div
      className={unfolded ? 'lw-filter' : 'lw-filter lw-filter-folds'}
      role="search"
      aria-label="Filter the fish"
    >
      <FindField filter={filter} />
      <Button
        className="lw-filter-more"
        aria-expanded={unfolded}
        onClick={() => setUnfolded(!unfolded)}
      >
        {unfolded ? 'Fewer filters' : 'Filters'}
      </Button>
      <FilterChoice filter={filter} name="line" label="Line" among={lines} />
      <FilterChoice filter={filter} name="sex" label="Sex" among={optionsOf(sexWord)} />
      <FilterChoice
        filter={filter}
        name="disposition"
        label="Decision"
        among={optionsOf(dispositionWord)}
      />
      <FilterChoice filter={filter} name="place" label="Swims" among={optionsOf(places)} />
      <UseChoice filter={filter} />
      <SeenFilter filter={filter} begun={filter.begun} />
      <Checkbox
        label="Include withdrawn"
        checked={filter.valueOf('withdrawn') === 'yes'}
        onChange={(event) => filter.set({ withdrawn: event.currentTarget.checked ? 'yes' : '' })}
        className="lw-middle"
      />
    </div>
  );
}

function FindField({ filter }: { filter: Filter }) {
  const [text, setText] = useState(filter.valueOf('text'));
  const setTextSoon = useDebouncedCallback((value: string) => filter.set({ text: value }), 200);
  return (
    <TextInput
      className="lw-filter-text"
      label="Find"
      placeholder="Tag, name or note"
      type="search"
      value={text}
      onChange={(event) => {
        setText(event.currentTarget.value);
        setTextSoon(event.currentTarget.value);
      }}
    />
  );
}

interface FilterChoiceProps {
  filter: Filter;
  name: string;
  label: string;
  among: readonly { value: string; label: string }[];
}

function FilterChoice({ filter, name, label, among }: FilterChoiceProps) {
  return (
    <NativeSelect
      label={label}
      value={filter.valueOf(name)}
      onChange={(event) => filter.set({ [name]: event.currentTarget.value })}
      data={[{ value: '', label: 'any' }, ...among]}
    />
  );
}

function UseChoice({ filter }: { filter: Filter }) {
  return (
    <NativeSelect
      label="Show"
      value={filter.valueOf('use')}
      onChange={(event) => filter.set({ use: event.currentTarget.value })}
      data={[
        { value: '', label: 'here now' },
        { value: 'yes', label: 'in use' },
        { value: 'no', label: 'out of use' },
        { value: 'all', label: 'all fish' },
      ]}
    />
  );
}
