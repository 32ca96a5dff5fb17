import { useEffect } from 'react';
import { useFormContext } from 'react-hook-form';
import { LINE_CHOICES } from '../api/lines.js';
import { useRead } from '../api/use-read.js';
import { ChoiceField, type Choice } from '../components/fields.js';
import { useInLinesAlone, useMayChange } from '../session/may.js';

function useLines(which: (line: { mayBreed: boolean }) => boolean): Choice[] {
  const { data } = useRead(LINE_CHOICES, {});
  return (data?.lines ?? []).filter(which).map(({ id, code, name }) => ({
    value: id,
    label: `${code} · ${name}`,
  }));
}

/** The lines as choices: "T · Turquoise". */
export const useLineChoices = (): Choice[] => useLines(() => true);

/** Those in which whoever is signed in may record spawns and fish. */
const useLinesToBreed = (): Choice[] => useLines(({ mayBreed }) => mayBreed);

/** Whether whoever is signed in records spawns and fish somewhere: a partner where a line was shared to breed with. */
export function useMayRecord(): boolean {
  const lines = useLinesToBreed();
  return useMayChange() || lines.length > 0;
}

/** The line of a record: one in which it may be recorded; none where whoever is signed in has a stock beside lines. */
export function LineField({ name = 'lineId', label = 'Line' }: { name?: string; label?: string }) {
  const lines = useLinesToBreed();
  const inLinesAlone = useInLinesAlone();
  const { getValues, setValue } = useFormContext();
  const first = inLinesAlone ? lines[0]?.value : undefined;
  useEffect(() => {
    if (first !== undefined && getValues(name) === '') setValue(name, first);
  }, [first, name, getValues, setValue]);
  const choices = inLinesAlone ? lines : [{ value: '', label: 'no line' }, ...lines];
  return <ChoiceField name={name} label={label} choices={choices} />;
}
