import { Checkbox } from '@mantine/core';
import { useState } from 'react';
import { useSearchParams } from 'react-router';
import { inUseWords } from '../wording/line-health-words.js';

/** Whether fish not decided on yet count as in use; kept in the address. */
export function useCountUnsorted(): [boolean, (unsorted: boolean) => void] {
  const [search, setSearch] = useSearchParams();
  // The address follows a moment later; the tick must not wait for it.
  const [unsorted, setUnsorted] = useState(search.get('unsorted') === 'yes');
  const change = (wanted: boolean): void => {
    setUnsorted(wanted);
    setSearch(wanted ? { unsorted: 'yes' } : {}, { replace: true });
  };
  return [unsorted, change];
}

interface CountUnsortedProps {
  unsorted: boolean;
  onChange: (unsorted: boolean) => void;
}

export function CountUnsorted({ unsorted, onChange }: CountUnsortedProps) {
  return (
    <>
      <p className="lw-words">{inUseWords(unsorted)}</p>
      <Checkbox
        label="Count the unsorted too"
        checked={unsorted}
        onChange={(event) => onChange(event.currentTarget.checked)}
      />
    </>
  );
}
